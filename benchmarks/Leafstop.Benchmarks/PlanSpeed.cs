using System.Globalization;
using Leafstop.Core.Exposure;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Benchmarks;

/// <summary>One plan with every wish and every row, and a sweep of 10 000 pairs of aperture and shutter.</summary>
internal static class PlanSpeed
{
    private const int WarmUp = 2000, Batch = 100;
    private const double PlanBoundMs = 1, SweepBoundMs = 100;

    public static int Run(string[] args)
    {
        int times = args is [var count] && int.TryParse(count, NumberStyles.None, CultureInfo.InvariantCulture, out int n) ? Math.Max(1, n) : 7;
        Scene scene = Full();
        FNumber[] apertures = [.. Enumerable.Range(0, 100).Select(i => FNumber.FromRatio(Math.Pow(2, i * 0.05 + 1)))];
        ShutterTime[] shutters = [.. Enumerable.Range(0, 100).Select(i => ShutterTime.FromSeconds(Math.Pow(2, i * 0.15 - 10)))];
        int rows = Planner.Plan(scene).GiveUp.Length;
        for (int i = 0; i < WarmUp; i++)
            Planner.Plan(scene);
        for (int i = 0; i < 5; i++)
            Planner.Sweep(scene, apertures, shutters);
        double plan = Clock.Best(times, () =>
        {
            for (int i = 0; i < Batch; i++)
                Planner.Plan(scene);
        }) * 1000 / Batch;
        double words = Clock.Best(times, () =>
        {
            for (int i = 0; i < Batch; i++)
                PlanSentences.Of(Planner.Plan(scene));
        }) * 1000 / Batch;
        int candidates = 0;
        double sweep = Clock.Best(times, () => candidates = Planner.Sweep(scene, apertures, shutters).Length) * 1000;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"one plan, {rows} rows, all wishes: {plan:0.000} ms, with its sentences {words:0.000} ms (bound {PlanBoundMs} ms)"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"sweep of {candidates} pairs: {sweep:0.0} ms (bound {SweepBoundMs} ms)"));
        return words < PlanBoundMs && sweep < SweepBoundMs ? 0 : 1;
    }

    private static Scene Full()
    {
        var lens = Lens.Of(Length.FromMillimetres(35));
        PrintCondition print = new(600, 600);
        DateTimeOffset dawn = new(2026, 10, 17, 7, 0, 0, TimeSpan.FromHours(1));
        return new Scene
        {
            Aperture = FNumber.FromMarking(11),
            Shutter = ShutterTime.FromMarking(0.25),
            Metered = ExposureValue.Of(4),
            BaseIso = Iso.FromSpeed(100),
            FiltersOn = new FilterSet([Filter.Polariser(Stops.Of(1.5)), Filter.FromFactor(8)]),
            Limits = NoiseLimits.Of(Iso.FromSpeed(800), Iso.FromSpeed(3200), new LimitTags("a body", print, ToneKind.Smooth, NoiseTreatment.None), LimitOrigin.Given),
            Print = new PrintCondition(900, 700),
            Lift = Stops.Of(1),
            WidthKept = 0.8,
            FoamOverMidGrey = Stops.Of(2.7),
            Depth = new DepthWish(DepthDemand.Of(lens, SubjectDistance.FromMetres(1.5), SubjectDistance.Infinity), FrameFormat.FullFrame),
            Water = WaterWish.For(WaterView.Of(lens, SubjectDistance.FromMetres(6), FrameFormat.FullFrame), Core.Quantities.Speed.FromMetresPerSecond(1), Streak.FromPercent(4)),
            Leaves = new LeavesWish(MovingSubject.Of(lens, SubjectDistance.FromMetres(10)), SpeedBand.WithinFactor(Core.Quantities.Speed.FromMetresPerSecond(0.25), 3), FrameFormat.FullFrame, HowKnown.RuleOfThumb),
            Ahead = [.. Enumerable.Range(1, 180).Select(m => new LightAhead(dawn.AddMinutes(m), Stops.Of(m / 12.0)))],
        };
    }
}
