using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;
using static Leafstop.Look.Plan.PlanWhy;

namespace Leafstop.Look.Plan;

/// <summary>Formulas, sources and inputs of the parts that stand around a plan; <see cref="PlanWhy"/> has those of the answer itself.</summary>
public static class PartsWhy
{
    /// <summary>One statement a row of the give-up table.</summary>
    public static IReadOnlyList<Statement> GiveUps(ExposurePlan plan) => [.. plan.GiveUp.Select(row => new Statement(
        $"{row.Words}: {Gain(row, plan.Scene)} = {N(row.Gained.Value)} stops. ISO = base \u00B7 2^gap = {N(row.Answer.Iso.Speed)}{Spare(row.Answer)}.", row.How))];

    /// <summary>The two frames: their ISOs, how far the shutters lie apart, and the noise across the mask.</summary>
    public static IReadOnlyList<Statement> TwoFrames(TwoFrameRecipe two) =>
    [
        .. new[] { two.Water, two.Leaves }.Concat(two.Instead).Select(f => new Statement(
            $"{char.ToUpperInvariant(f.For[0])}{f.For[1..]}: gap {N(f.Answer.Gap.Value)} at {f.Aperture.ToDisplay()} and {N(f.Shutter.Seconds)} s; ISO = base \u00B7 2^gap = {N(f.Answer.Iso.Speed)}{Spare(f.Answer)}.", HowKnown.WorkedOut)),
        new($"Apart: log2({N(two.Water.Shutter.Seconds)} s / {N(two.Leaves.Shutter.Seconds)} s) = {N(two.Apart.Value)} stops; from {N(TwoFrameRecipe.TwoFramesFrom.Value)} on no single frame does both in wind (common practice, no source).", HowKnown.RuleOfThumb),
        new($"Across the mask: log2 of the effective ISOs, {N(two.Leaves.Answer.Effective.Speed)} over {N(two.Water.Answer.Effective.Speed)} = {N(two.NoiseMismatch.Value)} stops.", HowKnown.WorkedOut),
    ];

    /// <summary>What the drawing of depth shows; empty where none is asked.</summary>
    public static IReadOnlyList<Statement> Depth(ExposurePlan plan)
    {
        if (plan.Scene.Depth is not { } depth || plan.Print is not { } print)
            return [];
        Angle acuity = depth.Acuity ?? DepthWish.AcuityWhenOmitted;
        return
        [
            new($"Focus at the harmonic mean of near and far: 2 / (1/{depth.Demand.Near.ToDisplay()} + 1/{depth.Demand.Far.ToDisplay()}) = {depth.Demand.Focus.ToDisplay()} (DOF-18).", HowKnown.WorkedOut),
            new($"Held: near = s\u00B7f\u00B2/(f\u00B2 + N\u00B7c\u00B7(s \u2212 f)), far with a minus, f {depth.Demand.Lens.FocalLength.ToDisplay()}, N {N(plan.Scene.Aperture.Ratio)}, c being {N(depth.AllowedOnPrint(print).Millimetres)} mm on the print, carried back to the sensor (DOF-07).", HowKnown.WorkedOut),
            new($"You start to see {N(acuity.Arcminutes)}\u2032 {(depth.Acuity is null ? "(0.25 mm at 60 cm, assumed) " : "")}from {N(print.ViewingDistanceMm)} mm: {N(depth.AllowedOnPrint(print).Millimetres)} mm.", depth.Acuity is null ? HowKnown.RuleOfThumb : HowKnown.WorkedOut),
            new($"Blur at both ends: {N(depth.BlurOnPrint(plan.Scene.Aperture, print, plan.Scene.WidthKept).Millimetres)} mm on the print, the same at near and far by the choice of focus (DOF-17). Diffraction is not in it.", HowKnown.WorkedOut),
        ];
    }

    /// <summary>The ISO over the hours, and where it passes the limits.</summary>
    /// <param name="plan">The plan for the time that was asked.</param>
    /// <param name="openEv100">EV100 without filter at that time.</param>
    public static IReadOnlyList<Statement> Evening(ExposurePlan plan, double openEv100)
    {
        List<Statement> why = [new($"ISO then = {N(plan.Answer.Iso.Speed)} \u00B7 2^({N(openEv100)} \u2212 EV100 then), EV100 without filters; the light is worked out a minute apart and taken as straight between.", HowKnown.WorkedOut)];
        foreach ((string name, Stops? spare) in new[] { ("clean", plan.Answer.SpareToClean), ("stretch", plan.Answer.SpareToStretch) })
        {
            if (spare is { } known)
                why.Add(new Statement($"Your {name} limit is passed where EV100 = {N(openEv100)} \u2212 spare {N(known.Value)} = {N(openEv100 - known.Value)}.", HowKnown.WorkedOut));
        }
        return why;
    }

    /// <summary>The numbers of the cautions, where the answer's own why does not have them.</summary>
    public static IReadOnlyList<Statement> Cautions(ExposurePlan plan) => [.. plan.Cautions.Select(c => OfCaution(c, plan)).OfType<Statement>()];

    /// <summary>Where the noise of the shadows is said to end.</summary>
    public static Statement Shadows(NoiseLimits shadows) => new(
        $"Clean ends where luminance S/N three stops below mid-grey is the published \u201Cfirst excellent\u201D, 40 \u00B7 30.544 / pixels per degree, pixels finer than 60 a degree merged (EXP-30, EXP-33), by the noise that was measured on this body: ISO {N(shadows.Clean?.Speed)}.", HowKnown.WorkedOut);

    private static string Gain(GiveUpRow row, Scene now)
    {
        Scene then = row.After;
        return row.What switch
        {
            GiveUpKind.WaitForLull => $"in a lull a leaf has half its peak speed (a third of its swing has less, derived), so it may be open up to twice as long for the same smear (B-01, B-05); log2({N(then.Shutter.Seconds)} s / {N(now.Shutter.Seconds)} s)",
            GiveUpKind.Polariser or GiveUpKind.OtherFilter => "the stops of the filter, given back to the light",
            GiveUpKind.Aperture or GiveUpKind.FocusSteps => $"2 \u00B7 log2({N(now.Aperture.Ratio)} / {N(then.Aperture.Ratio)}){(row.What == GiveUpKind.FocusSteps ? $"; each step overlaps the next by {Figures.Percent(DepthWish.Overlap)} (DOF-20; the overlap is common practice, no source)" : " (EXP-01)")}",
            GiveUpKind.Shutter or GiveUpKind.TwoFrames => $"log2({N(then.Shutter.Seconds)} s / {N(now.Shutter.Seconds)} s) (EXP-01)",
            GiveUpKind.SmallerPrint => $"2 \u00B7 log2({N(now.PrintAsked?.WidthMm)} mm / {N(then.PrintAsked?.WidthMm)} mm): the limit moves, the ISO stays (EXP-30)",
            GiveUpKind.Average => $"log2({then.FramesAveraged / now.FramesAveraged}): noise falls with the root of the count (PRN-03), the ISO stays and looks like {N(row.Answer.Effective.Speed)}",
            GiveUpKind.Later => "EV100 then less EV100 now",
            GiveUpKind.KeepFrame => $"\u22122 \u00B7 log2({N(now.WidthKept)}) of the width",
            _ => "the lift that is left out, one for one in the shadows",
        };
    }

    private static string Spare(GapAnswer answer) => answer.SpareToClean is { } spare ? $"; spare to clean {N(spare.Value)}" : "";

    private static Statement? OfCaution(Caution caution, ExposurePlan plan)
    {
        Scene scene = plan.Scene;
        string? text = caution.Code switch
        {
            CautionCode.BelowBase => $"Light over: gap {N(plan.Answer.Gap.Value)}. Shutter \u00B7 2^gap, f-number \u00B7 2^(\u2212gap/2), or a filter of as many stops (EXP-02).",
            CautionCode.Foam when plan.Foam is null => $"Clip lies log2(\u221A2/0.18) = {N(scene.ClipOverMidGrey.Value)} stops over metered mid-grey (EXP-29); where foam lies is a rule of thumb until you meter it.",
            CautionCode.Depth => "The aperture that holds both has just the blur that you start to see at near and far (DOF-18); shown is the next smaller mark, its cost 2 \u00B7 log2 of the f-numbers.",
            CautionCode.Diffraction => "Width of a point at half its peak: 1.029 \u00B7 0.55 \u00B5m \u00B7 N, enlarged to the print (DIF-10).",
            CautionCode.LeavesMove => "Still: the longest shutter whose smear, speed \u00B7 time \u00B7 f/(d \u2212 f) \u00B7 enlargement, is what you start to see (B-01, B-05); shown is the mark at or below. In a lull half the speed.",
            CautionCode.WaterLook => "The shutters of a look go as one over the speed of the water, a stop either way (rule of thumb); those of a streak that you wrote are worked out from speed, lens and distance, half a stop either way (B-01).",
            CautionCode.OneFrameOrTwo when plan.TwoFrames is { } two => $"log2({N(two.Water.Shutter.Seconds)} s / {N(two.Leaves.Shutter.Seconds)} s) = {N(two.Apart.Value)} stops between the shutters.",
            CautionCode.LongExposure => "Noise of the dark signal: \u221A(0.1 \u00B7 2^((T \u2212 20)/k) \u00B7 t) electrons, k 6 to 8 \u00B0C (common practice, no source).",
            _ => null,
        };
        return text is null ? null : new Statement(text, caution.How);
    }
}
