using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;
using Leafstop.Raw.Synthetic;

namespace Leafstop.Raw.Tests.Synthetic;

public sealed class SyntheticBenchTests
{
    private static SampleOptions Small => new() { Width = 600, Height = 400 };

    [Theory]
    [InlineData("2x2")]
    [InlineData("6x6")]
    public void Samples_of_the_scene_scatter_by_shot_noise_and_read_noise(string mosaic)
    {
        // Derived: variance in electrons = expected electrons + (total read noise)^2, pixel by pixel; checked in bands of brightness.
        var options = Small with { Isos = [200, 800, 6400], PixelResponseSpread = 0, Mosaic = BenchMosaic.Named(mosaic)! };
        var bench = new SyntheticBench(options);
        float[] expected = SceneMap.For(600, 400, options.Mosaic, options.SceneSeed, 0, 0).Electrons;
        foreach (int index in new[] { 0, 2, 4 })
        {
            using var frame = bench.Render(index);
            var plan = bench.Frames[index];
            var truth = plan.Truth;
            var squares = new double[4];
            var errors = new double[4];
            var counts = new int[4];
            for (int y = 0; y < frame.Height; y++)
            {
                var row = frame.Row(y);
                for (int x = 0; x < row.Length; x++)
                {
                    double mean = expected[y * 600 + x] * plan.LightScale;
                    double variance = mean + truth.ReadNoiseElectrons * truth.ReadNoiseElectrons;
                    if (mean + 6 * Math.Sqrt(variance) > truth.SaturationElectrons)
                        continue;
                    double error = (row[x] - truth.BlackDn) * truth.GainElectronsPerDn - mean;
                    int band = mean < 3 ? 0 : mean < 30 ? 1 : mean < 300 ? 2 : 3;
                    squares[band] += error * error / variance;
                    errors[band] += error / Math.Sqrt(variance);
                    counts[band]++;
                }
            }
            for (int band = 0; band < 4; band++)
            {
                if (counts[band] < 500)
                    continue;
                // Five standard errors; a Poisson count of mean 0.1 or more with read noise above 1 e has a kurtosis below 4.
                Assert.Equal(0, errors[band] / counts[band], 5 / Math.Sqrt(counts[band]));
                Assert.Equal(1, squares[band] / counts[band], 5 * Math.Sqrt(3.0 / counts[band]));
            }
        }
    }

    [Fact]
    public void Cap_frames_and_masked_borders_show_the_read_noise_and_the_black_level_at_every_iso()
    {
        // Published: the read-noise table of Body A; standard error of a sd 1/sqrt(2 n), SEN-36. Five of them.
        var bench = new SyntheticBench(Small with { Isos = [.. SampleOptions.UsualIsos, 25600] });
        foreach (var plan in bench.Frames.Where(f => f.Role == FrameRole.Cap).DistinctBy(f => f.Iso))
        {
            using var cap = bench.Render(plan.Index);
            AssertDark(plan.Truth, Active(cap));
            using var scene = bench.Render(bench.Frames.First(f => f.Iso == plan.Iso).Index);
            AssertDark(plan.Truth, Masked(scene));
        }
    }

    private static void AssertDark(LevelTruth truth, List<ushort> samples)
    {
        var (mean, sd) = MeanAndSd(samples);
        double error = truth.ReadNoiseDn / Math.Sqrt(samples.Count);
        Assert.Equal(truth.BlackDn, mean, 5 * error);
        Assert.Equal(truth.ReadNoiseDn, sd, 5 * error / Math.Sqrt(2));
    }

    [Fact]
    public void Frames_are_the_same_whatever_the_threads_and_the_order()
    {
        // Derived: identity.
        var options = Small with { Isos = [100, 1600], Faults = new() { HotPixelShare = 0.001, RowBanding = 0.5, SmoothingFromIso = 1600, SmoothingCorrelation = 0.2 } };
        var first = new SyntheticBench(options);
        var second = new SyntheticBench(options);
        for (int i = first.Frames.Length - 1; i >= 0; i--)
        {
            using var one = first.Render(i, threads: 1);
            using var many = second.Render(i, threads: 5);
            Assert.True(one.Samples.Span.SequenceEqual(many.Samples.Span));
        }
    }

    [Fact]
    public void Another_seed_and_another_frame_give_other_noise()
    {
        var one = new SyntheticBench(Small with { Isos = [100] });
        var other = new SyntheticBench(Small with { Isos = [100], Seed = 2 });
        using var a = one.Render(0);
        using var b = one.Render(1);
        using var c = other.Render(0);
        // Derived: two independent frames differ in most samples; mean noise is far above one code.
        Assert.True(Unequal(a, b) > 0.5);
        Assert.True(Unequal(a, c) > 0.5);
    }

    [Fact]
    public void Mid_grey_lies_at_an_eighth_of_the_clip_level_and_the_lights_clip_at_every_level()
    {
        var bench = new SyntheticBench(Small);
        foreach (var plan in bench.Frames.Where(f => f.Role == FrameRole.Scene && f.Index % 2 == 0))
        {
            using var frame = bench.Render(plan.Index);
            double sum = 0;
            int greens = 0;
            for (int y = 100; y < 120; y++)
            {
                for (int x = 356; x < 376; x++)
                {
                    if ((x + y) % 2 == 0)
                        continue;
                    sum += (frame.Row(y)[x] - BodyA.BlackDn) / (BodyA.ClipDn - BodyA.BlackDn);
                    greens++;
                }
            }
            // 12.8 % of the clip level; the card is a little brighter towards the lamp, 2 % over the patch.
            Assert.Equal(0.128, sum / greens, 0.128 * 0.02);
            long clipped = Active(frame).Count(v => v >= BodyA.ClipDn);
            Assert.InRange((double)clipped / (600 * 400), 0.0008, 0.0025);
            Assert.Equal(BodyA.ClipDn, Active(frame).Max());
        }
    }

    [Fact]
    public void Tones_reach_from_deep_shadow_to_white()
    {
        // Derived: counted from the expected electrons of the green samples, in stops from mid-grey.
        var map = SceneMap.For(600, 400, BenchMosaic.TwoByTwo, 1, 0, 0).Electrons;
        var stops = Enumerable.Range(0, map.Length).Where(i => (i / 600 + i % 600) % 2 == 1).Select(i => Math.Log2(map[i] / (0.128 * 50_000))).ToList();
        Assert.InRange(stops.Count(s => s is > -9.5 and < -7.5) / (double)stops.Count, 0.09, 0.16);
        Assert.InRange(stops.Count(s => s is > -1 and < 1.5) / (double)stops.Count, 0.20, 0.35);
        for (int s = -9; s < 2; s++)
            Assert.True(stops.Count(v => v >= s && v < s + 1) > 0.004 * stops.Count, $"Too few samples between {s} and {s + 1} EV.");
    }

    [Fact]
    public void The_metered_ladder_halves_the_time_with_each_stop_and_writes_camera_marks()
    {
        var bench = new SyntheticBench(Small with { Isos = [100, 200, 500, 12800, 25600] });
        var scenes = bench.Frames.Where(f => f.Role == FrameRole.Scene).DistinctBy(f => f.Iso).ToList();
        // Derived: 8 s at ISO 100; 8 / 2^(7/3) = 1.587 at ISO 500, marked 1.6; 1/32 at ISO 25 600, marked 1/30.
        Assert.Equal([8, 4, 8 / Math.Pow(2, 7.0 / 3), 1 / 16.0, 1 / 32.0], scenes.Select(f => f.ShutterSeconds), (a, b) => Math.Abs(a - b) < 1e-12);
        Assert.Equal([8, 4, 1.6, 1 / 15.0, 1 / 30.0], scenes.Select(f => f.ShutterMarkSeconds));
        Assert.Equal(bench.Frames.Select(f => f.TakenAt).Order(), bench.Frames.Select(f => f.TakenAt));
        Assert.All(bench.Frames.Skip(10), f => Assert.Equal(FrameRole.Cap, f.Role));
    }

    [Fact]
    public void The_same_light_ladder_keeps_time_and_light_and_meters_for_800()
    {
        var bench = new SyntheticBench(Small with { Ladder = LadderKind.SameLight, Isos = [100, 400, 500, 800], CapFramesPerLevel = 0 });
        Assert.All(bench.Frames, f => Assert.Equal((1 / 30.0, 100 / 800.0), (f.ShutterMarkSeconds, f.LightScale)));
        Assert.Equal(8, bench.Frames.Length);
    }

    private static double Unequal(MosaicFrame a, MosaicFrame b)
    {
        int different = 0;
        var left = a.Samples.Span;
        var right = b.Samples.Span;
        for (int i = 0; i < left.Length; i++)
            different += left[i] == right[i] ? 0 : 1;
        return (double)different / left.Length;
    }

    internal static List<ushort> Active(MosaicFrame frame)
    {
        var samples = new List<ushort>(frame.Width * frame.Height);
        for (int y = 0; y < frame.Height; y++)
            samples.AddRange(frame.Row(y));
        return samples;
    }

    private static List<ushort> Masked(MosaicFrame frame)
    {
        var samples = new List<ushort>();
        foreach (var area in frame.MaskedAreas)
            for (int y = area.Top; y < area.Bottom; y++)
                samples.AddRange(frame.Samples.Span[(y * frame.Stride + area.Left)..(y * frame.Stride + area.Right)]);
        return samples;
    }

    internal static (double Mean, double Sd) MeanAndSd(IReadOnlyCollection<ushort> samples)
    {
        double mean = samples.Average(v => (double)v);
        return (mean, Math.Sqrt(samples.Sum(v => (v - mean) * (v - mean)) / (samples.Count - 1)));
    }
}
