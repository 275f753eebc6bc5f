using System.Collections.Immutable;
using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Text;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Planning;

/// <summary>The give-up table of a scene, in the fixed order of what is lost.</summary>
/// <remarks>A row without its inputs is left out. Each row's stops come from its own inputs, and the scene it carries, planned again, moves by as many: the gap where light
/// is gained, the spare where the print or the count of frames changes.</remarks>
public static class GiveUpTable
{
    /// <summary>No lens opens wider than this here.</summary>
    private const double WidestRatio = 1;

    /// <summary>Focus steps beyond which nobody stacks in a wood.</summary>
    private const int MostStopsOpened = 2;

    /// <summary>Builds the table.</summary>
    /// <param name="scene">The scene.</param>
    /// <param name="now">Its answer as it stands.</param>
    /// <param name="two">The two-frame recipe, when water and leaves are both asked.</param>
    public static ImmutableArray<GiveUpRow> Of(Scene scene, GapAnswer now, TwoFrameRecipe? two)
    {
        Builder table = new(scene, now);
        GiveUpRow?[] rows =
        [
            WaitForLull(table), Polariser(table), OtherFilter(table), Aperture(table), Shutter(table), SmallerPrint(table), Average(table),
            TwoFrames(table, two), FocusSteps(table), Later(table), KeepFrame(table), LiftLess(table),
        ];
        return [.. rows.OfType<GiveUpRow>()];
    }

    private static GiveUpRow? WaitForLull(Builder table)
    {
        Scene scene = table.Scene;
        if (scene.Leaves is not { } leaves || scene.PrintAsked is not { } print
            || leaves.HoldingInLull(print, scene.WidthKept).Mark() is not { } shutter || shutter.Seconds <= scene.Shutter.Seconds * (1 + Stops.Hair))
        {
            return null;
        }
        // Slower than base ISO asks for would only blur more.
        if (table.Now.Gap.Value <= Stops.Hair)
            return null;
        if (shutter.Seconds > scene.Shutter.Seconds * table.Now.Gap.Ratio)
            shutter = ShutterTime.FromSeconds(scene.Shutter.Seconds * table.Now.Gap.Ratio);
        string patience = scene.Trial is { } trial
            ? $"Patience, no stops: {trial.ToSentence(Motion.Chance.UsuallySure)} Frames of one gust are one try."
            : "Patience, no stops: a swinging leaf spends about a third of its time under half its peak speed. Three to five frames a lull, then wait.";
        return table.Row(
            GiveUpKind.WaitForLull, $"Wait for a lull, shoot at {shutter.ToDisplay()}", Stops.FromRatio(shutter.Seconds / scene.Shutter.Seconds),
            scene with { Shutter = shutter },
            patience,
            leaves.How == HowKnown.Measured ? HowKnown.WorkedOut : leaves.How);
    }

    private static GiveUpRow? Polariser(Builder table)
    {
        string advice = table.Now.Verdict is PlanVerdict.Beyond
            ? " Past stretch: turn it to half its effect, or shoot one with and one without; never mix its angles in a blend."
            : " A little noise can be mended at home, glare on wet rock cannot.";
        return FilterOff(table, FilterKind.Polariser, GiveUpKind.Polariser, "Polariser off", "Glare on wet rock and leaves comes back and stays." + advice);
    }

    private static GiveUpRow? OtherFilter(Builder table) =>
        FilterOff(table, FilterKind.NeutralDensity, GiveUpKind.OtherFilter, "Neutral filter off", "Nothing but the longer shutter it was for.")
        ?? FilterOff(table, FilterKind.Other, GiveUpKind.OtherFilter, "Filter off", "What the filter was on for.");

    private static GiveUpRow? FilterOff(Builder table, FilterKind kind, GiveUpKind what, string words, string cost)
    {
        Scene scene = table.Scene;
        if (scene.FiltersOn.First(kind) is { } on && on.Stops.Value > 0)
        {
            return table.Row(
                what, words, on.Stops, scene with { FiltersOn = scene.FiltersOn.Without(on), Metered = scene.Metered + on.Stops }, cost, on.How);
        }
        return scene.FiltersAfter.First(kind) is { } after && after.Stops.Value > 0
            ? table.Row(what, words, after.Stops, scene with { FiltersAfter = scene.FiltersAfter.Without(after) }, cost, after.How)
            : null;
    }

    private static GiveUpRow? Aperture(Builder table)
    {
        Scene scene = table.Scene;
        FNumber wider = Opened(scene.Aperture, 1);
        if (wider.Ratio < WidestRatio)
            return null;
        string cost = "Depth, if the lens opens that far. How much I cannot say without near, far, focal length and format.";
        if (scene.Depth is { } depth && scene.PrintAsked is { } print)
        {
            string blur = $"from {Millimetres(depth.BlurOnPrint(scene.Aperture, print, scene.WidthKept))} to {Millimetres(depth.BlurOnPrint(wider, print, scene.WidthKept))} mm on the print; you start to see {Millimetres(depth.AllowedOnPrint(print))}";
            cost = depth.Holds(wider, print, scene.WidthKept)
                ? $"Nothing you would see: near and far go {blur}."
                : $"Depth: near ({depth.Demand.Near.ToDisplay()}) and far ({depth.Demand.Far.ToDisplay()}) go {blur}.";
        }
        return table.Row(
            GiveUpKind.Aperture, $"{wider.ToDisplay()} instead of {scene.Aperture.ToDisplay()}", Stops.Of(1), scene with { Aperture = wider }, cost, HowKnown.WorkedOut);
    }

    private static GiveUpRow? Shutter(Builder table)
    {
        Scene scene = table.Scene;
        // With leaves to be held and no water, a longer shutter is the lull's row.
        if (scene.Leaves is not null && scene.Water is null)
            return null;
        var longer = ShutterTime.FromSeconds(scene.Shutter.Seconds * 2);
        string cost = scene.Water is { } water
            ? $"The streak grows from {Percent(water.Streak(scene.Shutter).ShareOfWidth)} to {Percent(water.Streak(longer).ShareOfWidth)} of the frame's width{Changed(water, longer)}."
            : "Whatever moves smears twice as far.";
        if (scene.Leaves is { } leaves && scene.PrintAsked is { } print)
            cost += $" Leaves smear {Millimetres(leaves.Smear(longer, print, scene.WidthKept).OnPrint)} mm on the print.";
        return table.Row(
            GiveUpKind.Shutter, $"{longer.ToDisplay()} instead of {scene.Shutter.ToDisplay()}", Stops.Of(1), scene with { Shutter = longer }, cost, HowKnown.WorkedOut);

        // A look that the shutter of now does not give either is not lost.
        string Changed(WaterWish water, ShutterTime then) => (water.Gives(scene.Shutter), water.Gives(then)) switch
        {
            (true, false) => $": no longer {water.Name}",
            (false, true) => $": {water.Name} then",
            _ => "",
        };
    }

    private static GiveUpRow? SmallerPrint(Builder table)
    {
        Scene scene = table.Scene;
        if (GapAnswer.LimitsAsked(scene) is null || scene.PrintAsked is not { } print)
            return null;
        double stops = Wanted(table.Now, most: 2);
        PrintCondition smaller = print with { WidthMm = print.WidthMm * Math.Pow(2, -stops / 2) };
        Stops gained = LimitScaling.Print(print, smaller).Stops;
        string clean = GapAnswer.LimitsAsked(scene with { Print = smaller }) is { Clean: { } exact, CleanDial: { } dial } ? $" Your clean limit becomes {PlanSentences.Number(exact, dial)}." : "";
        return table.Row(
            GiveUpKind.SmallerPrint, $"Print {Centimetres(smaller.WidthMm)} cm, not {Centimetres(print.WidthMm)}", gained, scene with { Print = smaller },
            $"Size on the wall.{clean} The picture is the same, seen from the same {Centimetres(print.ViewingDistanceMm)} cm.", HowKnown.WorkedOut);
    }

    private static GiveUpRow Average(Builder table)
    {
        Scene scene = table.Scene;
        double over = table.Now.Verdict == PlanVerdict.Beyond ? -(table.Now.SpareToStretch ?? default).Value : -(table.Now.SpareToClean ?? default).Value;
        int frames = over > 2 + Stops.Hair ? over > 3 + Stops.Hair ? 16 : 8 : 4;
        return table.Row(
            GiveUpKind.Average, scene.FramesAveraged > 1 ? $"Average {scene.FramesAveraged * frames} frames instead of {scene.FramesAveraged}" : $"Average {frames} frames", Motion.FrameAveraging.Gain(frames), scene with { FramesAveraged = scene.FramesAveraged * frames },
            "Only what stands still: rock and trunks. Water turns longer and softer, leaves ghost: take those from one frame. Stripes do not average away without cap frames.",
            HowKnown.WorkedOut);
    }

    private static GiveUpRow? TwoFrames(Builder table, TwoFrameRecipe? two)
    {
        if (two is null || two.Apart.Value <= Stops.Hair)
            return null;
        Scene scene = table.Scene;
        Stops gained = Stops.FromRatio(two.Water.Shutter.Seconds / scene.Shutter.Seconds);
        // A water shutter shorter than the one that is asked gains nothing; one as long only the leaves, which a lull gives too.
        if (gained.Value < -Stops.Hair || (gained.Value <= Stops.Hair && two.IsOneInLull))
            return null;
        string feasible = two.IsFeasible switch
        {
            true => "Both stay within stretch.",
            false => "One of them is past stretch: see the recipe for what to do instead.",
            null => "Whether both stay within stretch I cannot say.",
        };
        return table.Row(
            GiveUpKind.TwoFrames, "One frame for the water, one for the leaves", gained, scene with { Shutter = two.Water.Shutter },
            $"Masking at home, and not where leaves hang across the water. Water {Told(two.Water)}; leaves {Told(two.Leaves)}. {feasible}", HowKnown.WorkedOut);

        // No dial has an ISO under base.
        string Told(RecipeFrame frame) => Stops.FromRatio(scene.BaseIso.Speed / frame.Iso.Exact.Speed) is { Value: > Stops.Hair } over
            ? $"{frame.Shutter.ToDisplay()} {frame.Aperture.ToDisplay()} at base ISO with {PlanSentences.StopsWords(over)} of light over"
            : frame.ToDisplay();
    }

    private static GiveUpRow? FocusSteps(Builder table)
    {
        Scene scene = table.Scene;
        if (scene.Depth is not { } depth || scene.PrintAsked is not { } print)
            return null;
        int stops = (int)Math.Clamp(Math.Ceiling(Wanted(table.Now, MostStopsOpened) - Stops.Hair), 1, MostStopsOpened);
        FNumber wider = Opened(scene.Aperture, stops);
        // Where the wider aperture holds the depth in one frame there is nothing to step: that is the aperture's row.
        if (wider.Ratio < WidestRatio || depth.Holds(wider, print, scene.WidthKept) || depth.Steps(wider, print, scene.WidthKept) is not { } count)
            return null;
        string leaves = scene.Leaves is not null ? " Focus steps and moving leaves fight each other: every step needs its own lull." : "";
        return table.Row(
            GiveUpKind.FocusSteps, $"{wider.ToDisplay()} in {count} focus steps", Stops.Of(stops), scene with { Aperture = wider },
            $"{count} frames to be stacked, with overlap. Whatever moves between them is lost.{leaves}", HowKnown.WorkedOut);
    }

    private static GiveUpRow? Later(Builder table)
    {
        Scene scene = table.Scene;
        LightAhead[] brighter = [.. scene.Ahead.Where(a => a.Change.Value > Stops.Hair)];
        if (brighter.Length == 0 || table.Now.Verdict is PlanVerdict.Clean)
            return null;
        LightAhead pick = First(table.Now.SpareToClean) ?? First(table.Now.SpareToStretch) ?? brighter.MaxBy(a => a.Change)!;
        string time = pick.At.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture);
        return table.Row(
            GiveUpKind.Later, $"Later, at {time}", pick.Change, scene with { Metered = scene.Metered + pick.Change },
            "The mood of this light. The meter in the field wins over this.", HowKnown.WorkedOut);

        LightAhead? First(Stops? spare) => spare is { } s && s.Value < 0 ? brighter.FirstOrDefault(a => a.Change.Value >= -s.Value - Stops.Hair) : null;
    }

    private static GiveUpRow? KeepFrame(Builder table) => table.Scene.WidthKept < 1
        ? table.Row(
            GiveUpKind.KeepFrame, "Do not crop", -LimitScaling.Crop(table.Scene.WidthKept).Stops, table.Scene with { WidthKept = 1 },
            "The framing: a longer lens or a step closer gives it back.", HowKnown.WorkedOut)
        : null;

    private static GiveUpRow? LiftLess(Builder table) => -LimitScaling.LiftStops(table.Scene.Lift, table.Scene.Limits?.Tags.Lift) is { Value: > Stops.Hair } gained
        ? table.Row(GiveUpKind.LiftLess, "Leave the shadows down", gained, table.Scene with { Lift = default }, "Dark shadows.", HowKnown.WorkedOut)
        : null;

    /// <summary>Stops that bring the picture to clean, else to stretch, when at most so many are needed; else that many; one when it is clean or unknown.</summary>
    private static double Wanted(GapAnswer now, double most)
    {
        double toClean = -(now.SpareToClean ?? default).Value, toStretch = -(now.SpareToStretch ?? default).Value;
        return now.Verdict switch
        {
            PlanVerdict.Clean or PlanVerdict.Unknown => 1,
            _ when toClean > 0 && toClean <= most => toClean,
            _ when toStretch > 0 && toStretch <= most => toStretch,
            _ => most,
        };
    }

    private static FNumber Opened(FNumber aperture, int stops) => FNumber.FromRatio(aperture.Ratio * Math.Pow(2, -stops / 2.0));

    private static string Millimetres(Length length) => length.Millimetres.ToString("0.00", System.Globalization.CultureInfo.InvariantCulture);

    private static string Centimetres(double millimetres) => Written.Short(Math.Round(millimetres / 10));

    private static string Percent(double share) => Say.Percent(share);

    private sealed record Builder(Scene Scene, GapAnswer Now)
    {
        public GiveUpRow Row(GiveUpKind what, string words, Stops gained, Scene after, string cost, HowKnown how)
        {
            var answer = GapAnswer.Of(after);
            bool isBetter = answer.Verdict < Now.Verdict && Now.Verdict != PlanVerdict.Unknown;
            return new GiveUpRow
            {
                What = what,
                Words = words,
                Gained = gained,
                Cost = cost,
                How = how,
                After = after,
                Answer = answer,
                Reaches = isBetter ? answer.Verdict : null,
            };
        }
    }
}
