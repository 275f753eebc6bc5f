using System.Globalization;
using System.Text;
using Leafstop.Core.Exposure;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;

namespace Leafstop.Pocket.Screens;

/// <summary>How far the water runs across the frame, the shutter for the streak that is liked, and the same streak with the other lenses.</summary>
internal static class WaterScreen
{
    private const string Caution = "Feet first, then frame; the tripod is no handrail. Cloudier or louder water, or debris: leave. Local rules come first.";

    public static string Of(PocketPage page)
    {
        string doors = Html.Doors(("go:gap", "Back"), ("water", page.State.WaterOn ? "Counted" : "Count it"), ("go:leaves", "Leaves"), ("go:pair", "Two frames"));
        string set = $"<div class=\"steps\">{Parts.Steps(page, Dials.Of("focal"), Dials.Of("water"), Dials.Of("speed"), Dials.Of("taste"))}{Use(page)}</div>";
        if (page.WaterView is not { } view)
            return $"<section class=\"told\"><h1 class=\"pv\">No lens focuses so near: step back.</h1></section>{set}{doors}";
        Streak streak = view.StreakOf(page.WaterSpeed, page.Shutter);
        LookReading look = WaterLooks.Of(page.WaterSpeed, page.Shutter, WaterLooks.UsualTexture);
        StringBuilder told = new($"<p class=\"line\">{char.ToUpperInvariant(look.ToDisplay()[0])}{look.ToDisplay()[1..]}. {GapWords.How("t", "rule of thumb")}</p>");
        if (Others(page, view) is { Length: > 0 } others)
            told.Append($"<p class=\"line\">The same streak: {others}. {GapWords.How("w", "worked out")}</p>");
        told.Append($"<p class=\"sure\">{Caution}</p>");
        return $"<section class=\"told\"><p class=\"where\">Water</p><h1 class=\"pv\">A streak of {Html.Text(streak.ToDisplay())} at {page.Shutter.ToDisplay()}.</h1>{told}</section>{set}{doors}";
    }

    private static string Use(PocketPage page)
    {
        if (page.WaterWish?.Wanted is not { } wanted)
            return "";
        ShutterTime shutter = wanted.Middle.NearestMark();
        string words = Math.Abs(Math.Log2(shutter.Seconds / page.State.Shutter)) < Stops.Hair ? $"{shutter.ToDisplay()} gives it" : $"Use {shutter.ToDisplay()}";
        return $"<div class=\"step one\">{Html.Button($"use:{Html.Exact(shutter.Seconds)}", "press", $"{words}, {Html.Thirds(Gap(page, shutter))} under")}</div>";
    }

    private static Stops Gap(PocketPage page, ShutterTime shutter) =>
        ExposureGap.Of(page.Aperture, shutter, ExposureValue.Of(page.State.Light!.Value), page.BaseIso);

    /// <summary>"70 mm 1/8 s, gap 1 more" for the three lenses of the bag that are nearest to this one, from the same spot.</summary>
    private static string Others(PocketPage page, WaterView view)
    {
        List<string> all = [];
        IEnumerable<double> nearest = page.Data.Lenses.Where(f => Math.Abs(f - page.State.Focal) > 0.01 && f < page.State.WaterDistance).OrderBy(f => Math.Abs(Math.Log(f / page.State.Focal))).Take(3).Order();
        foreach (double focal in nearest)
        {
            var other = WaterView.Of(Lens.Of(Length.FromMillimetres(focal)), SubjectDistance.FromMillimetres(page.State.WaterDistance), page.Format);
            StreakConversion converted = view.ConvertTo(other, page.Shutter);
            Stops grows = converted.GapGrows();
            string gap = grows.NearestThird().Value == 0 ? "same gap" : $"gap {Html.Size(grows)} {(grows.Value > 0 ? "more" : "less")}";
            all.Add($"{focal.ToString("0.#", CultureInfo.InvariantCulture)}\u00A0mm {converted.Mark().ToDisplay()}, {gap}");
        }
        return string.Join("; ", all);
    }
}
