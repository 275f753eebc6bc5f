using System.Globalization;
using System.Text;
using Leafstop.Core.Optics;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Pocket.Screens;

/// <summary>Depth in print terms: what near and far blur on the print at this aperture and its neighbours, and what each gives back.</summary>
internal static class DepthScreen
{
    public static string Of(PocketPage page)
    {
        string set = $"<div class=\"steps\">{Parts.Steps(page, Dials.Of("focal"), Dials.Of("near"), Dials.Of("far"), Dials.Aperture)}</div>";
        (string, string)[] doors = [("go:more", "Back"), ("depth", page.State.DepthOn ? "Counted" : "Count it"), ("go:gap", "Gap")];
        if (page.Print is not { } print)
            return Parts.Inner("Depth", "For which print?", "<p class=\"line\">How much blur is seen depends on the print: name it under More.</p>", set, doors);
        if (page.State.Near <= page.State.Focal || page.State.Near >= page.State.Far)
            return Parts.Inner("Depth", "Near is not nearer than far.", "", set, doors);
        DepthWish wish = page.DepthAt(page.State.Near, page.State.Far);
        FNumber widest = wish.Widest(print, 1), now = page.Aperture;
        string needs = widest.Ratio > 64 ? "No aperture holds both: step the focus" : $"{Holding(widest).ToDisplay()} is the widest that holds both";
        StringBuilder told = new($"<p class=\"line\">Focus at {wish.Demand.Focus.ToDisplay()}. {needs}. {GapWords.How("w", "worked out")}</p>");
        told.Append(Parts.Table(["at", "blur", "diffraction", "ISO"], new[] { -1, 0, 1 }.Select(stops => Row(page, wish, print, stops))));
        told.Append($"<p class=\"sure\">Near and far, mm on the print; you start to see {Hundredths(wish.AllowedOnPrint(print))} (an acuity of 1.43′, assumed). † does not hold both.</p>");
        string verdict = wish.Holds(now, print, 1) ? $"{now.ToDisplay()} holds {Dials.Distance(page.State.Near)} to {Dials.Distance(page.State.Far)}." : $"{now.ToDisplay()} does not hold it.";
        return Parts.Inner("Depth", verdict, told.ToString(), set, doors);
    }

    private static string[] Row(PocketPage page, DepthWish wish, PrintCondition print, int stops)
    {
        FNumber aperture = FNumber.FromRatio(page.Aperture.Ratio * Math.Sqrt(Stops.Of(stops).Ratio));
        var viewing = ViewingCondition.Of(Length.FromMillimetres(print.WidthMm), Length.FromMillimetres(print.ViewingDistanceMm), DepthWish.AcuityWhenOmitted);
        Length point = viewing.OnPrint(Diffraction.FullWidthAtHalfMaximum(aperture, Diffraction.GreenLight), page.Format);
        string holds = wish.Holds(aperture, print, 1) ? "" : "\u00A0\u2020";
        GapAnswer answer = GapAnswer.Of(page.Scene() with { Aperture = aperture });
        string iso = answer.Gap.Value < -Stops.Hair ? "below base" : Html.Iso(Core.Exposure.DialledIso.Of(answer.Iso).Dial);
        return [aperture.ToDisplay() + holds, Hundredths(wish.BlurOnPrint(aperture, print, 1)), Hundredths(point), iso];
    }

    private static FNumber Holding(FNumber needed) =>
        FNumber.FromRatio(Marks.FNumbers(DialStep.Thirds).All.First(m => m.Exact >= needed.Ratio * (1 - Stops.Hair)).Exact);

    private static string Hundredths(Length length) => length.Millimetres.ToString("0.00", CultureInfo.InvariantCulture);
}
