using System.Collections.Immutable;
using System.Globalization;
using Leafstop.Core.Exposure;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Text;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Planning;

/// <summary>What to mind about a scene, each thing once, what touches the picture first and safety last.</summary>
internal static class CautionList
{
    /// <summary>Less room than this and foam is worth a look, stops.</summary>
    private const double LittleRoom = 0.5;

    /// <summary>From this shutter on water shows its movement; nobody stops a fall with it.</summary>
    private const double FlowingSeconds = 1.0 / 32;

    public static ImmutableArray<Caution> Of(Scene scene, GapAnswer now, TwoFrameRecipe? two)
    {
        Caution?[] all =
        [
            BelowBase(scene, now), BeyondDial(now), Limits(scene, now), Foam(scene, now), Depth(scene), Diffracted(scene), Leaves(scene), Water(scene),
            OneOrTwo(two), StepsAndLeaves(scene), Missing(scene), Averaged(scene), Long(scene), WaterSafety(scene), WoodSafety(scene), SunSafety(scene),
        ];
        return [.. all.OfType<Caution>()];
    }

    private static Caution? BelowBase(Scene scene, GapAnswer now)
    {
        if (now.Gap.Value >= -Stops.Hair)
            return null;
        var shorter = ShutterTime.FromSeconds(scene.Shutter.Seconds * now.Gap.Ratio);
        FNumber smaller = FNumber.FromRatio(scene.Aperture.Ratio * Math.Pow(2, -now.Gap.Value / 2));
        string aperture = smaller.Ratio <= 32 * (1 + Stops.Hair) ? $", {smaller.NearestMark().ToDisplay()}" : "";
        return new Caution(
            CautionCode.BelowBase,
            $"The ISO would lie below base: at ISO {scene.BaseIso.ToDisplay()} use {Nearest(shorter)}{aperture}, or a neutral filter of {PlanSentences.StopsWords(-now.Gap)}.",
            HowKnown.WorkedOut);
    }

    private static Caution? BeyondDial(GapAnswer now) => now.Gap.Value > 0 && DialledIso.Of(now.Iso).IsBeyondDial
        ? new Caution(CautionCode.BeyondDial, "No camera dials an ISO that high: something has to be given up first.")
        : null;

    private static Caution? Limits(Scene scene, GapAnswer now)
    {
        if (scene.LimitsAsked?.Refusal is not null)
            return new Caution(CautionCode.NoLimits, $"The limits that are known do not answer for what is asked, so whether ISO {DialledIso.Of(now.Iso).Dial.ToDisplay()} is clean {ForPrint(scene.PrintAsked)} I cannot say.");
        if (GapAnswer.LimitsAsked(scene) is not { } limits)
        {
            return new Caution(
                CautionCode.NoLimits,
                $"No limits are known, so whether ISO {DialledIso.Of(now.Iso).Dial.ToDisplay()} is clean {ForPrint(scene.Print)} I cannot say. With limits, worked out for a measured camera or your own, I would tell what is to spare and which of these brings you back.");
        }
        return limits.Shifts.IsEmpty ? null
            : new Caution(CautionCode.LimitsConverted, $"{string.Join(" ", limits.Shifts.Select(s => s.Reason))} {LimitScaling.BandingCaveat}", limits.Shifts.Any(s => s.How == HowKnown.RuleOfThumb) ? HowKnown.RuleOfThumb : HowKnown.WorkedOut);
    }

    private static string ForPrint(PrintCondition? print) => print is null
        ? "for a print you have not named"
        : $"for a print {Length.FromMillimetres(print.WidthMm).ToDisplay()} wide seen from {Length.FromMillimetres(print.ViewingDistanceMm).ToDisplay()}";

    private static Caution? Foam(Scene scene, GapAnswer now)
    {
        if (scene.FoamOverMidGrey is not { } placed)
        {
            return scene.Water is not null || (scene.Leaves is null && scene.Shutter.Seconds >= FlowingSeconds)
                ? new Caution(
                    CautionCode.Foam,
                    $"Foam in shade lies 2 to 2.7 stops over mid-grey and the raw clips at about {Figure(scene.ClipOverMidGrey.Value)}: with white water in the frame check the highlights.",
                    HowKnown.RuleOfThumb)
                : null;
        }
        var room = HighlightRoom.Of(placed, now.Iso, now.Iso, scene.ClipOverMidGrey);
        if (room.IsClipped)
        {
            return new Caution(
                CautionCode.Foam,
                $"Foam at {Figure(placed.Value)} stops over mid-grey is clipped by {Figure(-room.Left.Value)}: at the same shutter ISO {room.HighestIso.ToDisplay()} or lower keeps it, or bracket −{room.BracketStops}. Sun on it adds 2 stops or more.",
                HowKnown.WorkedOut);
        }
        return room.Left.Value > LittleRoom
            ? null
            : new Caution(CautionCode.Foam, $"Foam has {Figure(room.Left.Value)} stop left to the clip: check the highlights. Sun on it adds 2 stops or more.", HowKnown.WorkedOut);
    }

    private static Caution? Depth(Scene scene)
    {
        if (scene.Depth is not { } depth || scene.PrintAsked is not { } print || depth.Holds(scene.Aperture, print, scene.WidthKept))
            return null;
        FNumber needed = depth.Widest(print, scene.WidthKept);
        string way = needed.Ratio > 64
            ? "No aperture holds both: step the focus."
            : $"{Smaller(needed).ToDisplay()} would hold both and costs {PlanSentences.StopsWords(Stops.Of(2 * Math.Log2(Smaller(needed).Ratio / scene.Aperture.Ratio)))}.";
        return new Caution(
            CautionCode.Depth,
            $"{scene.Aperture.ToDisplay()} focused at {depth.Demand.Focus.ToDisplay()} leaves near and far {Hundredths(depth.BlurOnPrint(scene.Aperture, print, scene.WidthKept))} mm of blur on the print; you start to see {Hundredths(depth.AllowedOnPrint(print))}{(depth.Acuity is null ? " (an acuity of 1.43′, assumed)" : "")}. {way}",
            HowKnown.WorkedOut);
    }

    private static FNumber Smaller(FNumber needed)
    {
        foreach (Mark mark in Marks.FNumbers(DialStep.Thirds).All)
        {
            if (mark.Exact >= needed.Ratio * (1 - Stops.Hair))
                return FNumber.FromRatio(mark.Exact);
        }
        return needed;
    }

    private static Caution? Diffracted(Scene scene)
    {
        if (scene.PrintAsked is not { } print || (scene.Depth?.Format ?? scene.Water?.View.Format ?? scene.Leaves?.Format) is not { } format)
            return null;
        Angle acuity = scene.Leaves?.Acuity ?? scene.Depth?.Acuity ?? Motion.JudgedPrint.AcuityWhenOmitted;
        var viewing = ViewingCondition.Of(Length.FromMillimetres(print.WidthMm), Length.FromMillimetres(print.ViewingDistanceMm), acuity);
        Length blur = viewing.OnPrint(Diffraction.FullWidthAtHalfMaximum(scene.Aperture, Diffraction.GreenLight), format, scene.WidthKept);
        return blur <= viewing.FinestDetail
            ? null
            : new Caution(
                CautionCode.Diffraction,
                $"Diffraction at {scene.Aperture.ToDisplay()} spreads every point to {Hundredths(blur)} mm on the print, everywhere; you start to see {Hundredths(viewing.FinestDetail)}.",
                HowKnown.WorkedOut);
    }

    private static Caution? Leaves(Scene scene)
    {
        if (scene.Leaves is not { } leaves || scene.PrintAsked is not { } print)
            return null;
        Motion.PrintSmear smear = leaves.Smear(scene.Shutter, print, scene.WidthKept);
        if (smear.Passes)
        {
            // Held at the best guess, but the guess is wide.
            Motion.HoldingShutter fast = leaves.Holding(leaves.Peak.High, print, scene.WidthKept);
            return fast.Exact is { } needed && needed.Seconds < scene.Shutter.Seconds * (1 - Stops.Hair)
                ? new Caution(CautionCode.LeavesMove, $"{scene.Shutter.ToDisplay()} holds the leaves if they move as guessed; at the fast end of the guess they want {fast.ToDisplay()}.{Spread(leaves)}", leaves.How)
                : null;
        }
        return new Caution(
            CautionCode.LeavesMove,
            $"At {scene.Shutter.ToDisplay()} a leaf at the height of its swing smears {Hundredths(smear.OnPrint)} mm on the print; you start to see {Hundredths(smear.Print.AllowedOnPrint)}{(leaves.Acuity is null ? " (an acuity of 1′, assumed)" : "")}. Still at {leaves.Holding(print, scene.WidthKept).ToDisplay()}, in a lull at {leaves.HoldingInLull(print, scene.WidthKept).ToDisplay()}.{Spread(leaves)}",
            leaves.How);
    }

    private static string Spread(LeavesWish leaves) => leaves.Peak.Factor > 1 + Stops.Hair
        ? $" Their speed, {leaves.Peak.Best.ToDisplay()}, is known to a factor of {Written.Short(Math.Round(leaves.Peak.Factor))}: prove it by trial and look at the top corners."
        : " Prove it by trial and look at the top corners.";

    private static Caution? Water(Scene scene)
    {
        if (scene.Water is not { Wanted: { } wanted } water || water.Gives(scene.Shutter) == true)
            return null;
        string toward = scene.Shutter < wanted.Shortest ? "too short" : "too long";
        return new Caution(
            CautionCode.WaterLook,
            $"{scene.Shutter.ToDisplay()} is {toward} for {water.Name}: that wants {Nearest(wanted.Shortest)} to {Nearest(wanted.Longest)}. The streak is {Say.Percent(water.Streak(scene.Shutter).ShareOfWidth)} of the frame's width. Flow pulses: shoot one either side.",
            water.How);
    }

    private static Caution? OneOrTwo(TwoFrameRecipe? two)
    {
        if (two is null)
            return null;
        string apart = $"The water wants {two.Water.Shutter.ToDisplay()}, the leaves {two.Leaves.Shutter.ToDisplay()}: {PlanSentences.StopsWords(two.Apart)} apart.";
        string advice = two.IsOneInLull ? " In a lull one frame does both."
            : two.NeedsTwo ? " No single frame does both in this wind. Keep aperture, focus, polariser and white balance, and shoot the pair within a minute while the light changes."
            : " One frame in a deep lull, or two.";
        return new Caution(CautionCode.OneFrameOrTwo, apart + advice + (two.NeedsTwo ? " Not where leaves hang across the water." : ""), HowKnown.RuleOfThumb);
    }

    private static Caution? StepsAndLeaves(Scene scene) => scene is { Depth: not null, Leaves: not null }
        ? new Caution(CautionCode.FocusStepsAndLeaves, "Focus steps and moving leaves fight each other: step the focus only where nothing moves.")
        : null;

    private static Caution? Missing(Scene scene) => scene.PrintAsked is null && (scene.Depth is not null || scene.Leaves is not null)
        ? new Caution(CautionCode.MissingInput, "Whether depth and leaves hold depends on the print: name its width and the distance it is seen from.")
        : null;

    private static Caution? Averaged(Scene scene) => scene is { FramesAveraged: > 1, Water: not null }
        ? new Caution(
            CautionCode.Averaging,
            $"{scene.FramesAveraged} frames of {scene.Shutter.ToDisplay()} averaged are not {scene.Shutter.ToDisplay()} of water but a longer, softer texture: take the water from one frame.")
        : null;

    private static Caution? Long(Scene scene)
    {
        if (scene.Shutter <= DarkSignal.OwnLimitsAbove)
            return null;
        double celsius = scene.SensorCelsius ?? DarkSignal.TypicalCelsius;
        double slow = DarkSignal.NoiseElectrons(scene.Shutter, celsius, DarkSignal.SlowDoubling);
        double fast = DarkSignal.NoiseElectrons(scene.Shutter, celsius, DarkSignal.FastDoubling);
        string noise = Math.Abs(slow - fast) < 0.05 ? One(slow) : $"{One(Math.Min(slow, fast))} to {One(Math.Max(slow, fast))}";
        string subtraction = scene.Shutter >= DarkSignal.SubtractionFrom
            ? " On a warm night consider long-exposure noise reduction, or cap frames of your own at the same temperature."
            : "";
        return new Caution(
            CautionCode.LongExposure,
            $"Limits above 10 s are tested separately, with the temperature noted. A sensor at {One(celsius)} °C adds about {noise} electrons of noise in {scene.Shutter.ToDisplay()}, and hot pixels.{subtraction}",
            HowKnown.RuleOfThumb);
    }

    private static Caution? WaterSafety(Scene scene) => scene.Water is not null || scene.FoamOverMidGrey is not null
        ? new Caution(CautionCode.WaterSafety, "Wet rock: feet first, then frame. Cloudier or louder water or debris: leave. Local rules and rangers come before anything said here.")
        : null;

    private static Caution? WoodSafety(Scene scene) => scene.Leaves is { Peak.Best.MetresPerSecond: > 0 }
        ? new Caution(CautionCode.WoodSafety, "Branches fall in the same gusts you are timing: look up before you settle. Local rules and rangers come first.")
        : null;

    private static Caution? SunSafety(Scene scene) => scene.SunIsUp == true
        ? new Caution(CautionCode.SunSafety, "With the sun near the frame do not look at it through a lens, keep such frames brief, and keep the cap on while you wait.")
        : null;

    private static string Nearest(ShutterTime time)
    {
        ShutterTime mark = time.NearestMark();
        // Beyond the ends of the dial the time itself says more.
        return (Math.Abs(Math.Log2(mark.Seconds / time.Seconds)) < 0.5 ? mark : time).ToDisplay();
    }

    private static string Figure(double value) => value.ToString("0.0#", CultureInfo.InvariantCulture);

    private static string One(double value) => value.ToString("0.#", CultureInfo.InvariantCulture).Replace('-', '\u2212');

    private static string Hundredths(Length length) => length.Millimetres.ToString("0.00", CultureInfo.InvariantCulture);
}
