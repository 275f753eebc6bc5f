using System.Globalization;
using System.Text;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;

namespace Leafstop.Pocket.Screens;

/// <summary>How fast the light goes, from readings noted here, and how long until the ISO passes a limit.</summary>
internal static class LightScreen
{
    /// <summary>A rate holds for minutes: after this long it says nothing of now.</summary>
    private static readonly TimeSpan Old = TimeSpan.FromMinutes(30);

    public static string Of(PocketPage page, Moment now)
    {
        List<(double At, double Ev)> readings = page.State.Readings;
        StringBuilder told = new();
        string verdict = "How fast does it change?";
        if (readings.Count >= 2)
        {
            ((double earlierAt, double earlierEv), (double laterAt, double laterEv)) = (readings[^2], readings[^1]);
            var trend = LightTrend.Between(ExposureValue.Of(earlierEv), ExposureValue.Of(laterEv), TimeSpan.FromMilliseconds(laterAt - earlierAt));
            TimeSpan since = TimeSpan.FromMilliseconds(Math.Max(0, now.Milliseconds - laterAt));
            verdict = Verdict(trend);
            foreach (string line in since > Old ? ["These readings are old: note again."] : Lines(page, trend, since))
                told.Append($"<p class=\"line\">{line}</p>");
            if (!trend.IsSure)
                told.Append("<p class=\"line\">Two readings so alike or so near in time tell little: note another one later.</p>");
        }
        else
        {
            told.Append("<p class=\"line\">Set what the meter says now, tap Note. In a few minutes set it again and note again.</p>");
        }
        if (page.Remark.Length > 0)
            told.Append($"<p class=\"sure\">{Html.Text(page.Remark)}</p>");
        if (readings.Count > 0)
            told.Append($"<p class=\"sure\">Noted: {string.Join(", ", readings.TakeLast(4).Select(r => $"{now.Clock(r.At)} EV\u00A0{Html.Thirds(Stops.Of(r.Ev))}"))}.</p>");
        told.Append("<p class=\"sure\">Sun near the frame: never look at it through a lens. At the sea set when to leave.</p>");
        return Parts.Inner("Light", verdict, told.ToString(), $"<div class=\"steps\">{Parts.Step(page, Dials.Under)}<div class=\"step one\">{Html.Button("note", "press", $"Note {now.Clock(now.Milliseconds)}")}</div></div>",
            ("go:gap", "Back"), ("go:place", "Last time"), ("go:leave", "Leave by"), ("unnote", "Start again"));
    }

    private static string Verdict(LightTrend trend)
    {
        if (LightDrift.TimeFor(Stops.Of(1), trend.PerMinute) is not { } stop)
            return "The light is steady.";
        return $"{(trend.PerMinute.Value > 0 ? "Gains" : "Loses")} a stop in {Minutes(stop)}.";
    }

    private static IEnumerable<string> Lines(PocketPage page, LightTrend trend, TimeSpan since)
    {
        if (page.Plan is { } plan)
        {
            // A limit is met when the light has changed by what is to spare.
            if (plan.Answer.SpareToClean is { } clean && When(trend, -clean, since) is { } toClean)
                yield return $"{(clean.Value >= 0 ? "Past clean" : "Clean again")} {toClean}. {GapWords.How("w", "worked out")}";
            if (plan.Answer.SpareToStretch is { } stretch && When(trend, -stretch, since) is { } toStretch)
                yield return $"{(stretch.Value >= 0 ? "Past stretch" : "Inside stretch")} {toStretch}.";
        }
        if (LightDrift.TimeFor(LightDrift.UsuallyAllowed, trend.PerMinute) is { } pair)
            yield return $"Two frames to be blended: within {Minutes(pair)}.";
    }

    /// <summary>"in about 12 min (8 to 20)", from now on; null when the light does not go there.</summary>
    private static string? When(LightTrend trend, Stops change, TimeSpan since)
    {
        if (trend.Until(change) is not { } time)
            return null;
        TimeSpan about = time.About - since;
        if (about <= TimeSpan.Zero)
            return "about now";
        string late = time.Latest is { } latest ? Figure(latest - since) : "never";
        return $"in about {Minutes(about)} ({Figure(time.Soonest - since)} to {late})";
    }

    private static string Minutes(TimeSpan time) => time.TotalMinutes < 1.5 ? $"{Math.Max(1, Math.Round(time.TotalSeconds / 10)) * 10} s"
        : time.TotalMinutes < 100 ? $"{Math.Round(time.TotalMinutes).ToString("0", CultureInfo.InvariantCulture)} min"
        : $"{time.TotalHours.ToString("0.0", CultureInfo.InvariantCulture)} h";

    private static string Figure(TimeSpan time) => Math.Max(0, Math.Round(time.TotalMinutes)).ToString("0", CultureInfo.InvariantCulture);
}
