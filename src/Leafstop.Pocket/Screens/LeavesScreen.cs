using System.Globalization;
using System.Text;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;

namespace Leafstop.Pocket.Screens;

/// <summary>What shutter holds the leaves: from the smear of a trial frame, or from the wind.</summary>
internal static class LeavesScreen
{
    private static readonly double[] Smears = [0.1, 0.17, 0.25, 0.33, 0.5, 0.7, 1, 1.4];

    private const string Caution = "Branches fall in the same gusts: look up before you settle. Local rules and rangers come first.";

    public static string Of(PocketPage page)
    {
        StringBuilder told = new();
        string verdict = "How do they move?";
        StringBuilder set = new();
        set.Append($"<p class=\"picked\">Smear seen on the print at {page.Shutter.ToDisplay()}, mm</p><div class=\"grid four\">");
        foreach (double smear in Smears)
            set.Append(Html.Button($"smear:{Html.Exact(smear)}", "cell num", smear.ToString("0.0#", CultureInfo.InvariantCulture), pressed: page.State.Leaves == "trial" && Math.Abs(page.State.Smear - smear) < 1e-9));
        set.Append("</div>");
        if (page.LeavesWish is { } wish && page.Print is { } print)
        {
            PrintSmear now = wish.Smear(page.Shutter, print, 1);
            HoldingShutter still = wish.Holding(print, 1), lull = wish.HoldingInLull(print, 1);
            verdict = now.Passes ? $"{page.Shutter.ToDisplay()} holds them." : $"{page.Shutter.ToDisplay()} smears them {Hundredths(now.OnPrint)} mm.";
            string known = page.State.Leaves == "wind" ? GapWords.How("t", "rule of thumb") : GapWords.How("w", "worked out");
            told.Append($"<p class=\"line\">You start to see {Hundredths(now.Print.AllowedOnPrint)} mm on the print. Still at {still.ToDisplay()}, in a lull at {lull.ToDisplay()}. {known}</p>");
            told.Append(page.State.Leaves == "wind"
                ? $"<p class=\"line\">{Beaufort.All[page.State.Force].Sign[0].ToString().ToUpperInvariant()}{Beaufort.All[page.State.Force].Sign[1..]}: known to a factor of {wish.Peak.Factor.ToString("0", CultureInfo.InvariantCulture)}. Prove it by trial.</p>"
                : $"<p class=\"line\">From {page.State.Smear.ToString("0.0#", CultureInfo.InvariantCulture)} mm seen at {ShutterTime.FromSeconds(page.State.SmearShutter).ToDisplay()}. Look at the top corners.</p>");
            set.Append("<div class=\"step two\">");
            set.Append(still.Mark() is { } s ? Html.Button($"use:{Html.Exact(s.Seconds)}", "press", $"Use {s.ToDisplay()}") : "<span></span>");
            set.Append(lull.Mark() is { } l ? Html.Button($"use:{Html.Exact(l.Seconds)}", "press", $"Lull: {l.ToDisplay()}") : "<span></span>");
            set.Append("</div>");
        }
        else if (page.Print is null)
        {
            told.Append("<p class=\"line\">Whether a smear is seen depends on the print: name it under More.</p>");
        }
        else
        {
            told.Append("<p class=\"line\">Take a trial frame, look at the top corners, tap the smear. Or tell the wind.</p>");
        }
        told.Append($"<p class=\"sure\">{Caution}</p>");
        (string, string) forget = page.State.Leaves.Length > 0 ? ("leaves", "Leave out") : ("go:pair", "Two frames");
        return Parts.Inner("Leaves", verdict, told.ToString(), set.ToString(), ("go:gap", "Back"), ("go:wind", "Wind"), ("go:keep", "Keep or no"), forget);
    }

    private static string Hundredths(Length length) => length.Millimetres.ToString("0.00", CultureInfo.InvariantCulture);
}
