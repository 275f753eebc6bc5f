using System.Globalization;
using Leafstop.Core.Exposure;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Look.Plan;

/// <summary>The formulas, sources and inputs behind a plan.</summary>
public static class PlanWhy
{
    /// <summary>One statement a number.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="reading">How written numbers were taken.</param>
    public static IReadOnlyList<Statement> Of(ExposurePlan plan, NumberReading reading)
    {
        Scene scene = plan.Scene;
        List<Statement> why = [];
        why.Add(new Statement(reading == NumberReading.Literal
            ? $"Numbers are taken as they stand: {scene.Aperture.ToDisplay()} is {N(scene.Aperture.Ratio)}, {N(scene.Shutter.Seconds)} s, base ISO {N(scene.BaseIso.Speed)}."
            : $"Marks mean exact powers, other numbers are literal: {scene.Aperture.ToDisplay()} is {N(scene.Aperture.Ratio)}, {scene.Shutter.ToDisplay()} is {N(scene.Shutter.Seconds)} s, base ISO {scene.BaseIso.ToDisplay()} is {N(scene.BaseIso.Speed)}."));
        why.Add(new Statement(
            $"Asked: EV100 = log2(N\u00B2/t) \u2212 log2(base/100) = {N(ExposureValue.Of(scene.Aperture, scene.Shutter, scene.BaseIso).Value)}; the light is EV100 {N(scene.Light.Value)}; gap = {N(plan.Answer.Gap.Value)} (EXP-02).",
            HowKnown.WorkedOut));
        why.Add(new Statement($"ISO = base \u00B7 2^gap = {N(plan.Answer.Iso.Speed)}; the nearest third, ties up, is {plan.Iso.Dial.ToDisplay()}.", HowKnown.WorkedOut));
        foreach (Filter filter in scene.FiltersOn.Filters)
            why.Add(new Statement($"{filter.Name}: {N(filter.Stops.Value)} stops, {(scene.LightUncertainty is null ? "seen by the meter" : "taken off the light that was worked out")}.", filter.How));
        foreach (Filter filter in scene.FiltersAfter.Filters)
            why.Add(new Statement($"{filter.Name}: {N(filter.Stops.Value)} stops, fitted since, taken off the light (EXP-44).", filter.How));
        if (scene.Lift.Value > 0)
            why.Add(LimitScaling.Lift(scene.Lift, scene.Limits?.Tags.Lift) is var lift && -lift.Stops == scene.Lift
                ? new Statement($"Lift: {N(scene.Lift.Value)} stops of spare, one for one, in the shadows.", HowKnown.WorkedOut)
                : new Statement($"Lift: {lift.Reason}", lift.How));
        if (scene.WidthKept < 1)
            why.Add(new Statement($"Crop: \u22122 \u00B7 log2({N(scene.WidthKept)}) = {N(-LimitScaling.Crop(scene.WidthKept).Stops.Value)} stops of spare.", HowKnown.WorkedOut));
        if (plan.Limits is { } limits)
        {
            why.Add(new Statement($"Spare = log2(limit / effective ISO), effective ISO {N(plan.Answer.Effective.Speed)}; limits unrounded: clean {N(limits.Clean?.Speed)}, stretch {N(limits.Stretch?.Speed)}.", HowKnown.WorkedOut));
            foreach (LimitShift shift in limits.Shifts)
                why.Add(new Statement($"Limit moved by {N(shift.Stops.Value)} stops{(shift.What == LimitShiftKind.Print ? ", 2 \u00B7 log2 of (distance / width)" : "")}: {shift.Reason}", shift.How));
        }
        if (plan.Foam is { } foam)
            why.Add(new Statement($"Clip lies {N(scene.ClipOverMidGrey.Value)} stops over mid-grey, log2(\u221A2/0.18) (EXP-29); foam at {N(foam.Placed.Value)} leaves {N(foam.Left.Value)}.", HowKnown.WorkedOut));
        if (scene.Depth is { } depth && plan.Print is { } print)
            why.Add(new Statement($"Blur at near and far, (f\u00B2/N)\u00B7|x \u2212 s|/(x\u00B7(s \u2212 f)), focus s at the harmonic mean {depth.Demand.Focus.ToDisplay()}: {N(depth.BlurOnPrint(scene.Aperture, print, scene.WidthKept).Millimetres)} mm on the print (DOF-17, DOF-18).", HowKnown.WorkedOut));
        if (scene.Water is { } water)
            why.Add(new Statement($"Streak = speed \u00B7 time \u00B7 f/(d \u2212 f) / width of the frame = {N(water.Streak(scene.Shutter).Percent)} % (B-01).", HowKnown.WorkedOut));
        if (scene.Leaves is { } leaves && plan.Print is { } on)
            why.Add(new Statement($"Smear = peak speed {(leaves.Peak.Factor > 1 ? leaves.Peak.ToDisplay() : leaves.Peak.Best.ToDisplay())} \u00B7 time \u00B7 f/(d \u2212 f) \u00B7 enlargement = {N(leaves.Smear(scene.Shutter, on, scene.WidthKept).OnPrint.Millimetres)} mm on the print (B-01, B-05); in a lull half that speed.", leaves.How == HowKnown.Measured ? HowKnown.WorkedOut : leaves.How));
        return why;
    }

    /// <summary>A number as the notes write it.</summary>
    internal static string N(double? value) => value is { } number
        ? Math.Round(number, Math.Abs(number) >= 100 ? 1 : Math.Abs(number) < 0.1 ? 6 : 3).ToString("0.######", CultureInfo.InvariantCulture).Replace('-', '\u2212')
        : "unknown";
}
