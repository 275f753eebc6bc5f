using CsCheck;
using Leafstop.Core.Exposure;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Planning;

/// <summary>Derived: what holds of every plan, on random scenes.</summary>
public sealed class PlanPropertyTests
{
    private const double Exact = 1e-9;

    private static readonly Gen<PrintCondition> Prints = Gen.Select(Gen.Double[100, 2000], Gen.Double[200, 3000], (w, d) => new PrintCondition(w, d));

    private static readonly Gen<NoiseLimits?> Limits = Gen.Select(Gen.Double[100, 6400], Gen.Double[0, 4], Prints, Gen.Int[0, 3], (clean, apart, print, kind) => kind switch
    {
        0 => null,
        1 => NoiseLimits.Of(Iso.FromSpeed(clean), null, new LimitTags("a body", print, ToneKind.Smooth, NoiseTreatment.None), LimitOrigin.Given),
        _ => NoiseLimits.Of(Iso.FromSpeed(clean), Iso.FromSpeed(clean * Math.Pow(2, apart)), new LimitTags("a body", print, ToneKind.Smooth, NoiseTreatment.None), LimitOrigin.Given),
    });

    private static readonly Gen<FilterSet> Filters = Gen.Select(Gen.Int[0, 4], Gen.Double[0.3, 3], (kind, stops) => kind switch
    {
        0 => FilterSet.None,
        1 => new FilterSet([Filter.Polariser(Stops.Of(stops))]),
        2 => new FilterSet([Filter.FromFactor(Math.Pow(2, stops))]),
        _ => new FilterSet([Filter.Polariser(Stops.Of(1.5)), Filter.FromStops(Stops.Of(stops))]),
    });

    private static readonly Gen<LeavesWish?> Leaves = Gen.Select(Gen.Bool, Gen.Double[0.005, 1], Gen.Double[1, 50], Gen.Double[14, 200], (has, speed, distance, focal) =>
    {
        if (!has)
            return null;
        return new LeavesWish(MovingSubject.Of(Lens.Of(Length.FromMillimetres(focal)), SubjectDistance.FromMetres(distance)), SpeedBand.WithinFactor(Speed.FromMetresPerSecond(speed), 3), FrameFormat.FullFrame, HowKnown.RuleOfThumb);
    });

    private static readonly Gen<WaterWish?> Water = Gen.Select(Gen.Int[0, 2], Gen.Double[0.2, 8], Gen.Double[2, 50], Gen.Double[1, 20], (kind, speed, distance, percent) =>
    {
        var view = WaterView.Of(Lens.Of(Length.FromMillimetres(35)), SubjectDistance.FromMetres(distance), FrameFormat.FullFrame);
        return kind switch
        {
            0 => null,
            1 => WaterWish.For(view, Speed.FromMetresPerSecond(speed), Streak.FromPercent(percent)),
            _ => WaterWish.For(view, Speed.FromMetresPerSecond(speed), WaterLook.Textured),
        };
    });

    private static readonly Gen<DepthWish?> Depth = Gen.Select(Gen.Bool, Gen.Double[0.5, 5], (has, near) => has ? Scenes.DepthFrom(near) : null);

    private static readonly Gen<Scene> All = Gen.Select(
        Gen.Select(Gen.Double[1.4, 32], Gen.Double[-13, 5], Gen.Double[4, 16], Gen.Double[50, 400]),
        Gen.Select(Limits, Prints, Gen.Bool, Filters, Filters),
        Gen.Select(Gen.Double[0, 3], Gen.Double[0.2, 1], Gen.Int[1, 8], Gen.Bool),
        Gen.Select(Depth, Water, Leaves, Gen.Double[-0.1, 0.1]),
        (exposure, asked, used, wishes) => new Scene
        {
            Aperture = FNumber.FromRatio(exposure.Item1),
            Shutter = ShutterTime.FromSeconds(Math.Pow(2, exposure.Item2)),
            Metered = ExposureValue.Of(exposure.Item3),
            BaseIso = Iso.FromSpeed(exposure.Item4),
            Limits = asked.Item1,
            Print = asked.Item3 ? asked.Item2 : null,
            FiltersOn = asked.Item4,
            FiltersAfter = asked.Item5,
            Lift = used.Item4 ? Stops.Of(used.Item1) : default,
            WidthKept = used.Item4 ? used.Item2 : 1,
            FramesAveraged = used.Item3,
            Depth = wishes.Item1,
            Water = wishes.Item2,
            Leaves = wishes.Item3,
            Ahead = [.. Enumerable.Range(1, 20).Select(m => new LightAhead(new DateTimeOffset(2026, 3, 1, 6, m, 0, TimeSpan.Zero), Stops.Of(m * wishes.Item4)))],
        });

    /// <summary>Where light is gained the gap moves by the row's stops; where the print, the crop, the lift or the count of frames changes, the spare does.</summary>
    [Fact]
    public void Planning_again_with_a_row_applied_moves_by_that_rows_stops() => All.Sample(scene =>
    {
        ExposurePlan plan = Planner.Plan(scene);
        foreach (GiveUpRow row in plan.GiveUp)
        {
            ExposurePlan again = Planner.Plan(row.After);
            bool isLight = row.What is not (GiveUpKind.SmallerPrint or GiveUpKind.Average or GiveUpKind.KeepFrame or GiveUpKind.LiftLess);
            double byGap = (plan.Answer.Gap - again.Answer.Gap).Value;
            if (Math.Abs(byGap - (isLight ? row.Gained.Value : 0)) > Exact)
                return false;
            if (plan.Answer.SpareToClean is { } before && Math.Abs((again.Answer.SpareToClean!.Value - before).Value - row.Gained.Value) > Exact)
                return false;
            if (again.Answer.Verdict != row.Answer.Verdict || again.Iso != row.Iso)
                return false;
        }
        return true;
    }, iter: 500);

    [Fact]
    public void More_light_never_asks_for_more_ISO() => Gen.Select(All, Gen.Double[0, 5]).Sample((scene, more) =>
    {
        ExposurePlan dark = Planner.Plan(scene), bright = Planner.Plan(scene with { Metered = scene.Metered + Stops.Of(more) });
        return bright.Iso.Exact.Speed <= dark.Iso.Exact.Speed * (1 + Exact) && bright.Iso.Dial.Speed <= dark.Iso.Dial.Speed
            && bright.Answer.Verdict <= dark.Answer.Verdict;
    }, iter: 500);

    [Fact]
    public void The_same_scene_gives_the_same_plan() => All.Sample(scene =>
    {
        ExposurePlan a = Planner.Plan(scene), b = Planner.Plan(scene);
        return a.Answer == b.Answer && a.GiveUp.SequenceEqual(b.GiveUp) && a.Cautions.SequenceEqual(b.Cautions) && PlanSentences.Of(a) == PlanSentences.Of(b);
    }, iter: 100);

    [Fact]
    public void Rows_come_in_the_fixed_order_and_gain_something() => All.Sample(scene =>
    {
        ExposurePlan plan = Planner.Plan(scene);
        GiveUpKind[] kinds = [.. plan.GiveUp.Select(r => r.What)];
        return kinds.SequenceEqual(kinds.Distinct().Order()) && plan.GiveUp.All(r => r.Gained.Value > 0 || r.What == GiveUpKind.TwoFrames);
    }, iter: 300);

    /// <summary>A row says that it reaches clean or stretch exactly when its own numbers do and the plan's did not.</summary>
    [Fact]
    public void A_row_that_reaches_a_limit_says_so() => All.Sample(scene =>
    {
        ExposurePlan plan = Planner.Plan(scene);
        return plan.GiveUp.All(r => plan.Answer.Verdict == PlanVerdict.Unknown ? r.Reaches is null
            : r.Answer.Verdict < plan.Answer.Verdict ? r.Reaches == r.Answer.Verdict : r.Reaches is null);
    }, iter: 300);

    [Fact]
    public void Gap_and_spare_add_up_to_the_room_above_base() => All.Sample(scene =>
    {
        GapAnswer answer = GapAnswer.Of(scene);
        if (answer.SpareToClean is not { } spare)
            return true;
        double room = GapAnswer.LimitsAsked(scene)!.Clean!.Above(scene.BaseIso).Value;
        return Math.Abs(spare.Value + answer.Gap.Value + GapAnswer.StopsUsed(scene).Value - room) < Exact;
    });

    /// <summary>A sweep says of each pair what a plan says of it.</summary>
    [Fact]
    public void A_sweep_agrees_with_single_plans() => All.Sample(scene =>
    {
        FNumber[] apertures = [FNumber.FromMarking(5.6), FNumber.FromMarking(11)];
        ShutterTime[] shutters = [ShutterTime.FromMarking(0.25), ShutterTime.FromMarking(1 / 60.0)];
        return Planner.Sweep(scene, apertures, shutters).All(c => c.Answer == GapAnswer.Of(scene with { Aperture = c.Aperture, Shutter = c.Shutter }));
    }, iter: 500);
}
