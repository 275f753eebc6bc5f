using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Scenarios;

/// <summary>The acceptance scenarios of the job that concern measuring, on Body A. Derived: their numbers follow from Body A's table.</summary>
public sealed class AcceptanceTests
{
    [Fact]
    public void The_kitchen_bench_is_a_metered_ladder_with_its_step_between_400_and_500()
    {
        SampleOptions options = AccuracyTests.Options(31, "2x2", 2) with { Isos = [100, 200, 400, 500, 640, 800, 1600, 3200, 6400] };
        BenchAnswer answer = SyntheticMeasurement.Answer(options);
        Assert.Equal(LadderKind.Metered, answer.Ladder);
        Assert.Equal(9, answer.Levels.Length);
        Truth.HoldsFor(answer, options);
        GainStep step = Assert.Single(answer.GainSteps);
        Assert.Equal((400, 500), (step.Below.Speed, step.Above.Speed));
        Assert.All(answer.Levels, l => Assert.Equal(ReadNoiseSource.CapFrames, l.ReadNoiseSource));
        Assert.Equal([LimitTone.MidGrey, LimitTone.Minus3Ev], answer.PredictedLimits.Select(l => l.Tone));
    }

    [Fact]
    public void Lift_or_dial_answers_as_the_table_of_body_A_does()
    {
        // f/8, 1/30; 100, 400, 500, 800; the scene meters for 800.
        SampleOptions options = AccuracyTests.Options(32, "2x2", 2) with { Ladder = LadderKind.SameLight, Isos = [100, 400, 500, 800], Width = 1800, Height = 1200 };
        BenchAnswer answer = SyntheticMeasurement.Answer(options);
        Assert.Equal(LadderKind.SameLight, answer.Ladder);
        LiftOrDial lift = Assert.Single(answer.LiftOrDial, l => l.Shot.Speed == 100 && l.LiftedTo.Speed == 800);
        Assert.InRange(At(lift, 0).ShareLost, -0.01, 0.01);
        Assert.Equal(0.15, At(lift, -5).ShareLost, 0.03);
        Assert.Equal(0.36, At(lift, -5).StopsLost, 0.08);
        Assert.Equal(0.24, At(lift, -6).ShareLost, 0.04);
        Assert.Equal(3.0, lift.HighlightStopsKept, 0.03);
        Assert.Equal(500, answer.StopAt!.Speed);
        LiftOrDial best = Assert.Single(answer.LiftOrDial, l => l.Shot.Speed == 500 && l.LiftedTo.Speed == 800);
        Assert.Equal(2.0 / 3, best.HighlightStopsKept, 0.03);
        Assert.InRange(At(best, -6).ShareLost, 0, 0.03);
    }

    [Fact]
    public void The_drifting_lamp_is_seen_and_read_at_equal_light()
    {
        SampleOptions options = AccuracyTests.Options(33, "2x2", 0) with { Isos = [100, 200, 400, 800, 1600, 3200], Faults = new SampleFaults { LampDriftIso = 1600, LampDriftStops = 0.4 } };
        BenchAnswer answer = SyntheticMeasurement.Answer(options);
        Level drifted = Assert.Single(answer.Levels, l => l.Iso.Speed == 1600), other = Assert.Single(answer.Levels, l => l.Iso.Speed == 800);
        Assert.Equal(0.4, drifted.LightErrorStops!.Value, 0.02);
        // A signal-to-noise ratio three stops below mid-grey at equal light, from the models: 6.9 ± 3 %, and 800 stays better than 1600.
        double atEqualLight = AtMinusThree(drifted);
        Assert.Equal(6.9, atEqualLight, 0.03 * 6.9);
        Assert.True(AtMinusThree(other) > atEqualLight);
        Finding finding = Assert.Single(answer.Findings, f => f.Code == FindingCode.LightDrift);
        Assert.True(finding.Reshoot);
        Assert.Equal(drifted.Frames, finding.Frames);
        Assert.Contains("0.4 stop more light", finding.Text, StringComparison.Ordinal);
        Assert.Contains("6.9", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_helpful_camera_is_left_off_the_curve_from_6400()
    {
        SampleOptions options = AccuracyTests.Options(34, "2x2", 2) with { Isos = [100, 400, 800, 1600, 3200, 6400], Faults = new SampleFaults { SmoothingFromIso = 6400, SmoothingCorrelation = 0.24 } };
        BenchAnswer answer = SyntheticMeasurement.Answer(options);
        Level smoothed = Assert.Single(answer.Levels, l => !l.Usable);
        Assert.Equal(6400, smoothed.Iso.Speed);
        Assert.Equal(0.24, smoothed.NeighbourCorrelation!.Value, 0.015);
        Assert.Contains(LevelFlag.Smoothed, smoothed.Flags);
        Assert.NotNull(smoothed.Reason);
        Assert.DoesNotContain(answer.LiftOrDial, l => l.Shot.Speed == 6400 || l.LiftedTo.Speed == 6400);
    }

    [Fact]
    public void A_ladder_in_one_light_does_not_say_how_high_one_can_go()
    {
        SampleOptions options = AccuracyTests.Options(35, "2x2", 0) with { Ladder = LadderKind.SameLight, Isos = [100, 200, 400, 800, 1600, 3200, 6400] };
        BenchAnswer answer = SyntheticMeasurement.Answer(options);
        Assert.Equal(LadderKind.SameLight, answer.Ladder);
        Finding only = Assert.Single(answer.Findings, f => f.Code == FindingCode.SameLightOnly);
        Assert.Contains("8 s", only.Text, StringComparison.Ordinal);
        Assert.Empty(answer.PredictedLimits);
        LiftOrDial widest = answer.LiftOrDial.MaxBy(l => l.HighlightStopsKept)!;
        Assert.Equal(6, widest.HighlightStopsKept, 0.05);
    }

    [Fact]
    public void A_folder_with_both_ladders_is_split_frame_by_frame()
    {
        SampleOptions metered = AccuracyTests.Options(36, "2x2", 0) with { Isos = [100, 200, 400, 800, 1600, 3200, 6400, 12800, 25600], FramesPerLevel = 1 };
        SampleOptions same = metered with { Ladder = LadderKind.SameLight, Isos = [100, 200, 400, 500, 800, 1600, 3200, 6400, 12800], Start = metered.Start.AddMinutes(20), Seed = 77 };
        BenchAnswer answer = SyntheticMeasurement.Answer(metered, same);
        Assert.Equal(LadderKind.Mixed, answer.Ladder);
        Assert.Equal(18, answer.Levels.Sum(l => l.Frames.Length));
        foreach (Level level in answer.Levels)
        {
            string ladder = level.Ladder == LadderKind.Metered ? "0:" : "1:";
            Assert.All(level.Frames, f => Assert.StartsWith(ladder, f, StringComparison.Ordinal));
        }

        Assert.Contains(answer.Findings, f => f.Code == FindingCode.MixedLadders);
    }

    /// <summary>E12 again, with pairs, a lamp that was turned between the ladders (so that they cross in the light and not in the settings) and clocks that do not part them.</summary>
    [Theory]
    [InlineData("100 200 400 500 640 800 1600 3200 6400", "100 200 400 500 640 800 1600 3200 6400", 0)]
    [InlineData("100 125 160 200 250 320 400 500 640 800 1000 1250 1600", "100 400 500 800", 0)]
    [InlineData("100 200 400 800 1600 3200", "100 400 500 800", 40)]
    public void Ladders_that_cross_in_the_light_are_told_apart_by_their_settings(string meteredIsos, string sameIsos, int minutes)
    {
        SampleOptions metered = AccuracyTests.Options(37, "2x2", 0) with { Isos = Isos(meteredIsos) };
        SampleOptions same = metered with { Ladder = LadderKind.SameLight, Isos = Isos(sameIsos), Start = metered.Start.AddMinutes(minutes), Seed = 78 };
        BenchAnswer answer = SyntheticMeasurement.Answer(metered, same);
        Assert.Equal(LadderKind.Mixed, answer.Ladder);
        Assert.Equal(2 * (metered.Isos.Length + same.Isos.Length), answer.Levels.Sum(l => l.Frames.Length));
        foreach (Level level in answer.Levels)
        {
            string ladder = level.Ladder == LadderKind.Metered ? "0:" : "1:";
            Assert.All(level.Frames, f => Assert.StartsWith(ladder, f, StringComparison.Ordinal));
            Assert.Equal(0, level.LightErrorStops!.Value, 0.1);
            Assert.True(level.Usable, level.Reason);
        }

        Assert.DoesNotContain(answer.Findings, f => f.Reshoot);

        static ImmutableArray<double> Isos(string list) => [.. list.Split(' ').Select(i => double.Parse(i, System.Globalization.CultureInfo.InvariantCulture))];
    }

    private static LiftLoss At(LiftOrDial lift, double tone) => Assert.Single(lift.Losses, l => l.ToneEv == tone);

    private static double AtMinusThree(Level level) => level.Model!.SignalToNoise(0.128 * level.SaturationElectrons!.Value / 8);
}
