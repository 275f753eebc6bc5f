using System.Globalization;
using System.Text;
using Leafstop.Core.Viewing;
using Leafstop.Pocket.Data;

namespace Leafstop.Pocket.Screens;

/// <summary>Which camera, and which of its limits, with the five things that a limit holds for.</summary>
internal static class CameraScreen
{
    // Heights of page.css, px: a row, and what the limits of the chosen camera and the doors need.
    private const int RowHeight = 88, Rest = 420, LeastRows = 2;

    public static string Of(PocketPage page)
    {
        PocketCamera[] all = [.. page.Cameras];
        StringBuilder told = new();
        string verdict = page.Camera is { } camera ? $"{Html.Text(Name(camera))}, base {Html.Iso(camera.BaseIso)}." : "No camera in this page.";
        if (page.Limits is { } limits)
        {
            told.Append($"<p class=\"line\">{Tags(limits)}</p>");
            if (limits.Remark.Length > 0)
                told.Append($"<p class=\"sure\">{Html.Text(limits.Remark)}</p>");
        }
        else
        {
            told.Append("<p class=\"line\">Measure and judge one at home and make the page again, or set your own limits here.</p>");
        }
        StringBuilder set = new("<div class=\"rows\">");
        // The chosen one's limits stay in sight: more cameras than fit come in parts.
        int fit = Math.Max(LeastRows, (page.Height - Rest) / RowHeight), room = all.Length > fit ? fit - 1 : fit, parts = Math.Max(1, (all.Length + room - 1) / room);
        int part = page.State.Screen.Split(':') is [_, var at] && int.TryParse(at, CultureInfo.InvariantCulture, out int asked) ? Math.Clamp(asked, 0, parts - 1)
            : Math.Max(0, Array.FindIndex(all, c => c.Name == page.Camera?.Name)) / room;
        for (int i = part * room; i < Math.Min(all.Length, (part + 1) * room); i++)
        {
            string has = all[i].Limits.Count switch { 0 => "no limits", 1 => "one pair of limits", int n => $"{n} pairs of limits" };
            set.Append(Html.Button($"camera:{i}", "row", $"<b>{Html.Text(Name(all[i]))}</b><br>{has}", pressed: all[i].Name == page.Camera?.Name));
        }
        if (parts > 1)
            set.Append(Html.Button($"go:camera:{(part + 1) % parts}", "row more", $"Other cameras, {all.Length} in all"));
        set.Append("</div>");
        return page.Camera?.Limits.Count > 1
            ? Parts.Inner("Camera", verdict, told.ToString(), set.ToString(), ("go:more", "Back"), ("limits", "Other limits"), ("go:own", "My own"))
            : Parts.Inner("Camera", verdict, told.ToString(), set.ToString(), ("go:more", "Back"), ("go:own", "My own"), ("go:gap", "Gap"));
    }

    private static string Name(PocketCamera camera) => camera.Name.Length > 0 ? camera.Name : "The limits you gave";

    private static string Tags(PocketLimits found)
    {
        NoiseLimits l = found.Limits;
        string origin = l.Origin switch
        {
            LimitOrigin.Judged => $"your own, judged{(found.Judged.Length > 0 ? $" {found.Judged}" : "")}. {GapWords.How("m", "measured")}",
            LimitOrigin.WorkedOut => $"from the sensor by the published criterion, not judged by you. {(l.Clean is null ? "" : GapWords.How("w", "worked out"))}{(l.Stretch is null ? "" : $"{(l.Clean is null ? "" : ", stretch ")}{GapWords.How("t", "rule of thumb")}")}",
            LimitOrigin.Invented => "invented demo data.",
            _ => "as you gave them.",
        };
        string tone = l.Tags.Tone switch { ToneKind.MidGrey => "mid-grey", ToneKind.Shadows => "shadows", ToneKind.Smooth => "smooth tones", ToneKind.Textured => "textured tones", _ => "tone not stated" };
        string treatment = l.Tags.Treatment switch { NoiseTreatment.None => "no noise reduction", NoiseTreatment.Usual => "your usual noise reduction", _ => "noise reduction not stated" };
        treatment += l.Tags.Lift is { Value: > 0 } lift ? $", the dark lifted by {Html.Text(lift.ToDisplay())} stops" : "";
        string body = l.Tags.Body.Length > 0 ? Html.Text(l.Tags.Body) + ", " : "";
        return string.Create(CultureInfo.InvariantCulture,
            $"Clean {(l.CleanDial is { } c ? Html.Iso(c) : "unknown")}, stretch {(l.StretchDial is { } s ? Html.Iso(s) : "unknown")}: {body}print {Dials.Distance(l.Tags.Print.WidthMm)} seen from {Dials.Distance(l.Tags.Print.ViewingDistanceMm)}, {tone}, {treatment}; {origin}");
    }
}
