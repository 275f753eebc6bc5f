using Leafstop.Core.Sensor;

namespace Leafstop.Core.Tests.Sensor;

/// <summary>A sound metered ladder of invented Body A. Derived: the bins are the table, so the answer must be the table.</summary>
public sealed class KitchenBenchTests
{
    private static readonly double[] Isos = [100, 200, 400, 500, 640, 800, 1600, 3200, 6400];

    private static BenchAnswer Sound() => ExactBench.Metered(Isos).Answer();

    [Fact]
    public void The_ladder_is_named_metered_and_every_level_is_usable()
    {
        BenchAnswer answer = Sound();
        Assert.Equal(LadderKind.Metered, answer.Ladder);
        Assert.Equal(Isos, answer.Levels.Select(l => l.Iso.Speed));
        Assert.All(answer.Levels, l => Assert.True(l.Usable, l.Reason));
    }

    [Fact]
    public void Nothing_is_found_on_a_sound_ladder()
    {
        BenchAnswer answer = Sound();
        Assert.True(answer.Findings.IsEmpty, string.Join("\n", answer.Findings.Select(f => f.Text)));
        Assert.All(answer.Levels, l => Assert.True(l.Flags.IsEmpty, $"{l.Iso.Speed}: {string.Join(", ", l.Flags)}"));
    }

    [Fact]
    public void Gain_read_noise_and_saturation_are_those_of_the_table()
    {
        foreach (Level level in Sound().Levels)
        {
            double iso = level.Iso.Speed;
            // Noise-free bins: what is left is the rounding of the solver.
            Assert.Equal(ExactBench.Gain(iso), level.GainElectronsPerDn!.Value.Value, ExactBench.Gain(iso) * 1e-6);
            Assert.Equal(ExactBench.ReadNoise(iso), level.ReadNoiseElectrons!.Value.Value, 1e-4);
            Assert.Equal(ExactBench.Saturation(iso), level.SaturationElectrons!.Value, ExactBench.Saturation(iso) * 1e-6);
            Assert.True(level.ClipSeen);
        }
    }

    [Fact]
    public void The_step_lies_between_400_and_500_and_is_the_only_one()
    {
        GainStep step = Assert.Single(Sound().GainSteps);
        Assert.Equal((400, 500), (step.Below.Speed, step.Above.Speed));
        Assert.True(step.Ratio > 1.7, $"{step.Ratio}");
        Assert.True(step.DeltaChiSquared > 100, $"{step.DeltaChiSquared}");
    }

    [Fact]
    public void Marked_times_do_not_pass_for_a_drifting_lamp()
    {
        // 8, 4, 2, 1.6, 1.3, 1, 1/2, 1/4, 1/8 s: read literally, 1.6 and 1.3 are off by 0.03 and 0.05 stop.
        Assert.All(Sound().Levels, l => Assert.Equal(0, l.LightErrorStops!.Value, 0.005));
    }

    [Fact]
    public void Times_down_to_a_sixtieth_are_read_as_marks_when_the_light_says_so()
    {
        BenchAnswer answer = ExactBench.Metered(800, 1600, 3200, 6400, 12800).Answer();
        Assert.All(answer.Levels, l => Assert.Equal(0, l.LightErrorStops!.Value, 0.005));
    }

    [Fact]
    public void Times_are_read_as_written_when_the_light_says_so()
    {
        var bench = new ExactBench();
        foreach (double iso in new double[] { 800, 1600, 3200, 6400, 12800 })
            bench.Add(iso, ExactBench.Mark(800 / iso), 8, Math.Log2(ExactBench.Mark(800 / iso) / (800 / iso)));
        Assert.All(bench.Answer().Levels, l => Assert.Equal(0, l.LightErrorStops!.Value, 0.005));
    }

    [Fact]
    public void Cap_frames_are_taken_for_read_noise_and_black()
    {
        ExactBench bench = ExactBench.Metered(Isos);
        foreach (double iso in Isos) bench.AddCaps(iso);
        BenchAnswer answer = bench.Answer();
        Assert.Equal(LadderKind.Metered, answer.Ladder);
        Assert.All(answer.Levels, l =>
        {
            Assert.Equal(ReadNoiseSource.CapFrames, l.ReadNoiseSource);
            Assert.Equal(2, l.CapFrames.Length);
            Assert.Equal(ExactBench.ReadNoise(l.Iso.Speed), l.ReadNoiseElectrons!.Value.Value, 1e-3);
            Assert.All(l.Planes, p => Assert.Equal(BlackSource.CapFrames, p.BlackSource));
        });
    }

    [Fact]
    public void No_order_of_the_files_changes_the_answer()
    {
        ExactBench bench = ExactBench.Metered(Isos);
        var print = new PrintCondition(600, 600);
        BenchAnswer forth = BenchAnalysis.Of(bench.Frames, bench.Pairs, [], print);
        BenchAnswer back = BenchAnalysis.Of([.. bench.Frames.AsEnumerable().Reverse()], [.. bench.Pairs.AsEnumerable().Reverse()], [], print);
        Assert.Equal(forth.Levels.Select(l => (l.Iso.Speed, l.ReadNoiseElectrons)), back.Levels.Select(l => (l.Iso.Speed, l.ReadNoiseElectrons)));
        Assert.Equal(forth.GainSteps, back.GainSteps);
    }
}
