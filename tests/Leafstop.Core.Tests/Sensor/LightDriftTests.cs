using Leafstop.Core.Sensor;

namespace Leafstop.Core.Tests.Sensor;

/// <summary>The drifting lamp. Derived: the drift is put in, so it is known.</summary>
public sealed class LightDriftTests
{
    private static readonly double[] Isos = [100, 200, 400, 500, 640, 800, 1600, 3200, 6400];

    private static ExactBench WithDrift(double driftingIso, double stops)
    {
        var bench = new ExactBench();
        foreach (double iso in Isos) bench.Add(iso, ExactBench.Mark(800 / iso), 8, iso == driftingIso ? stops : 0);
        return bench;
    }

    [Fact]
    public void Two_frames_with_extra_light_are_named_and_read_as_at_equal_light()
    {
        BenchAnswer answer = WithDrift(1600, 0.4).Answer();
        Finding finding = Assert.Single(answer.Findings);
        Assert.Equal(FindingCode.LightDrift, finding.Code);
        Assert.True(finding.Reshoot);
        Assert.Equal(2, finding.Frames.Length);
        // Published: the scenario's figures, 8.0 measured against a true 6.9.
        Assert.StartsWith("Shoot ISO\u00a01600 again, twice. Both frames had 0.4 stop more light than the rest. At equal light they read 6.9 ±", finding.Text, StringComparison.Ordinal);
        Assert.Contains("not 8.", finding.Text, StringComparison.Ordinal);
        Level level = answer.Levels.Single(l => l.Iso.Speed == 1600);
        Assert.True(level.Usable);
        Assert.Contains(LevelFlag.LightDrift, level.Flags);
        Assert.Equal(0.4, level.LightErrorStops!.Value, 0.01);
    }

    [Fact]
    public void At_equal_light_800_stays_better_than_1600()
    {
        BenchAnswer answer = WithDrift(1600, 0.4).Answer();
        double At(double iso) => MeteredTone.SignalToNoise(answer.Levels.Single(l => l.Iso.Speed == iso).Model!, -3);
        Assert.True(At(800) > At(1600));
        Assert.Equal(6.9, At(1600), 0.05); // Published: the scenario's true value, one decimal.
        Assert.Equal(9.9, At(800), 0.05); // Published: the scenario's table.
    }

    [Theory]
    [InlineData(0.15)]
    [InlineData(-0.15)]
    [InlineData(1)]
    [InlineData(-1)]
    public void Drift_of_the_least_and_the_most_is_found_where_it_is(double stops)
    {
        BenchAnswer answer = WithDrift(400, stops).Answer();
        Level off = Assert.Single(answer.Levels, l => l.Flags.Contains(LevelFlag.LightDrift));
        Assert.Equal(400, off.Iso.Speed);
        Assert.Equal(stops, off.LightErrorStops!.Value, 0.02);
    }

    [Fact]
    public void Light_within_a_tenth_of_a_stop_is_no_drift() =>
        Assert.Empty(WithDrift(400, 0.08).Answer().Findings);

    [Fact]
    public void A_same_light_ladder_with_a_drifting_lamp_is_found_too()
    {
        var bench = new ExactBench();
        foreach (double iso in new double[] { 100, 200, 400, 800, 1600 })
            bench.Add(iso, 1 / 30.0, 8, Math.Log2(iso / 800) + (iso == 400 ? 0.3 : 0));
        BenchAnswer answer = bench.Answer();
        Assert.Equal(LadderKind.SameLight, answer.Ladder);
        Assert.Equal(400, Assert.Single(answer.Levels, l => l.Flags.Contains(LevelFlag.LightDrift)).Iso.Speed);
    }

    [Fact]
    public void Two_frames_of_a_pair_with_different_light_are_flicker()
    {
        ExactBench bench = ExactBench.Metered(Isos).ChangePairPlanes(800, p => p with { BrightnessRatio = 1.15 });
        Finding finding = Assert.Single(bench.Answer().Findings);
        Assert.Equal(FindingCode.Flicker, finding.Code);
        Assert.Contains("0.2 stop", finding.Text, StringComparison.Ordinal);
    }
}
