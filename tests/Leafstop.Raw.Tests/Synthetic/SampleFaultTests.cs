using Leafstop.Core.Sensor;
using Leafstop.Raw.Synthetic;

namespace Leafstop.Raw.Tests.Synthetic;

public sealed class SampleFaultTests
{
    private static SampleOptions Small => new() { Width = 600, Height = 400, Isos = [800, 1600], PixelResponseSpread = 0 };

    [Theory]
    [InlineData("2x2", 0.2424242424, 0.8124038405)]
    [InlineData("6x6", 0.2424242424, 0.8124038405)]
    [InlineData("2x2", 0.06, null)]
    public void Smoothing_gives_cap_frames_the_correlation_asked_for_and_lowers_their_noise(string mosaic, double correlation, double? sdRatio)
    {
        // Derived: kernel [k, 1 - 2k, k]; k = 0.1 gives correlation 0.2424 and sd ratio 0.8124.
        var bench = new SyntheticBench(Small with { Mosaic = BenchMosaic.Named(mosaic)!, Faults = new() { SmoothingFromIso = 1600, SmoothingCorrelation = correlation } });
        var plan = bench.Frames.First(f => f.Role == FrameRole.Cap && f.Iso == 1600);
        using var cap = bench.Render(plan.Index);
        var truth = plan.Truth;
        double products = 0, squares = 0;
        long pairs = 0, all = 0;
        var letters = bench.Options.Mosaic.Letters;
        int cell = bench.Options.Mosaic.Columns;
        for (int y = 0; y < cap.Height; y++)
        {
            var row = cap.Row(y);
            int line = y % cell * cell;
            for (int x = 0; x < row.Length; x++)
            {
                double d = row[x] - truth.BlackDn;
                squares += d * d;
                all++;
                int next = x + 1;
                while (next < row.Length && letters[line + next % cell] != letters[line + x % cell])
                    next++;
                if (next == row.Length)
                    continue;
                products += d * (row[next] - truth.BlackDn);
                pairs++;
            }
        }
        double variance = squares / all, rounding = 1.0 / 12;
        double analogue = truth.ReadNoiseDn * truth.ReadNoiseDn - rounding;
        // Five standard errors; neighbours that share samples widen them by less than 1.3.
        double error = 5 * 1.3 / Math.Sqrt(all);
        Assert.Equal(correlation, products / pairs / (variance - rounding), error);
        Assert.Equal(sdRatio ?? truth.SmoothingSdRatio, Math.Sqrt((variance - rounding) / analogue), error);
        Assert.Equal(truth.SmoothingSdRatio, sdRatio ?? truth.SmoothingSdRatio, 1e-9);
    }

    [Fact]
    public void An_arithmetic_iso_leaves_every_second_code_empty_and_keeps_the_read_noise_in_electrons()
    {
        // Published: SEN-49, digital gain: codes used become every 2nd value, read noise in electrons unchanged, saturation in electrons halves.
        var bench = new SyntheticBench(Small with { Faults = new() { ArithmeticIso = 1600 } });
        var plan = bench.Frames.First(f => f.Role == FrameRole.Cap && f.Iso == 1600);
        Assert.Equal(800, plan.Truth.ArithmeticFromIso);
        using var scene = bench.Render(2);
        var codes = SyntheticBenchTests.Active(scene).Distinct().Where(v => v < BodyA.ClipDn).ToList();
        Assert.Single(codes.Select(v => v % 2).Distinct());
        using var cap = bench.Render(plan.Index);
        var samples = SyntheticBenchTests.Active(cap);
        double sd = SyntheticBenchTests.MeanAndSd(samples).Sd * plan.Truth.GainElectronsPerDn;
        Assert.Equal(BodyA.ReadNoiseElectrons(800), sd, 5 * sd / Math.Sqrt(2.0 * samples.Count));
        Assert.Equal(BodyA.SaturationElectrons(800) / 2, plan.Truth.SaturationElectrons, 1e-9);
    }

    [Fact]
    public void A_drifting_lamp_gives_both_frames_of_its_level_more_light()
    {
        // Derived: 0.4 stop is a factor of 1.3195; the sum over the unclipped frame is known to far better than the tolerance.
        var bench = new SyntheticBench(Small with { Faults = new() { LampDriftIso = 1600, LampDriftStops = 0.4 } });
        var clean = new SyntheticBench(Small);
        foreach (int index in new[] { 2, 3 })
        {
            using var drifted = bench.Render(index);
            using var honest = clean.Render(index);
            double ratio = Grey(drifted) / Grey(honest);
            Assert.Equal(1.3195, ratio, 0.004);
        }
        using var before = bench.Render(0);
        using var same = clean.Render(0);
        Assert.True(before.Samples.Span.SequenceEqual(same.Samples.Span));

        static double Grey(Frames.MosaicFrame frame)
        {
            double sum = 0;
            for (int y = 80; y < 150; y++)
                for (int x = 330; x < 400; x++)
                    sum += frame.Row(y)[x] - BodyA.BlackDn;
            return sum;
        }
    }

    [Fact]
    public void A_moved_tripod_shifts_the_picture_from_its_second_frame_on_for_good()
    {
        var bench = new SyntheticBench(Small with { Isos = [400, 800, 1600], Faults = new() { MovedIso = 800, MovedXPx = 1.5, MovedYPx = -0.7 } });
        Assert.Equal([0, 0, 0, 1.5, 1.5, 1.5], bench.Frames.Take(6).Select(f => f.ShiftXPx));
        // Derived: by a whole mosaic cell the shifted picture is the old one, apart from lens shading, which belongs to the lens and stays. Single precision: 1e-5.
        float[] still = SceneMap.For(600, 400, BenchMosaic.TwoByTwo, 1, 0, 0).Electrons, moved = SceneMap.For(600, 400, BenchMosaic.TwoByTwo, 1, 2, -4).Electrons;
        for (int y = 10; y < 390; y += 7)
        {
            for (int x = 10; x < 590; x += 3)
            {
                float before = still[y * 600 + x] / Shading(x, y), after = moved[(y - 4) * 600 + x + 2] / Shading(x + 2, y - 4);
                Assert.Equal(1, after / before, 1e-5);
            }
        }

        static float Shading(int x, int y) => SceneMap.Shading((x + 0.5) * 1.5 / 600, (y + 0.5) / 400);
    }

    [Fact]
    public void A_shift_of_half_a_pixel_is_what_interpolation_between_pixels_gives()
    {
        // Derived: the scene holds nothing finer than the pixels can carry, so the six-point interpolation (3, -25, 150, 150, -25, 3) / 256 of the still
        // picture is the picture moved by half a pixel, up to what six points cannot see of an edge of one pixel's blur: 1 % of light in the mean of all pixels
        // is far above that and far below what a wrong direction or size gives (over 5 %).
        var oneColour = new MosaicPattern { Rows = 1, Columns = 1, Letters = "G" };
        float[] still = SceneMap.For(600, 400, oneColour, 1, 0, 0).Electrons, moved = SceneMap.For(600, 400, oneColour, 1, 0.5, 0).Electrons;
        double right = 0, wrong = 0;
        int count = 0;
        for (int y = 250; y < 390; y++)
        {
            for (int x = 410; x < 590; x++)
            {
                double interpolated = Between(still.AsSpan(y * 600 + x - 3, 6)), otherWay = Between(still.AsSpan(y * 600 + x - 2, 6)), truth = moved[y * 600 + x];
                right += Math.Abs(interpolated / truth - 1);
                wrong += Math.Abs(otherWay / truth - 1);
                count++;
            }
        }
        Assert.Equal(0, right / count, 0.01);
        Assert.True(wrong / count > 0.05);

        static double Between(ReadOnlySpan<float> six) => (3 * (six[0] + six[5]) - 25 * (six[1] + six[4]) + 150 * (six[2] + six[3])) / 256.0;
    }

    [Fact]
    public void Hot_pixels_are_the_same_in_every_frame_and_as_many_as_asked_for()
    {
        var bench = new SyntheticBench(Small with { Isos = [100], Faults = new() { HotPixelShare = 0.002 } });
        var hot = new List<HashSet<int>>();
        foreach (int index in new[] { 2, 3 })
        {
            using var cap = bench.Render(index);
            // 200 electrons are 61 codes at ISO 100; the read noise is 1.1 codes.
            var places = new HashSet<int>();
            for (int i = 0; i < cap.Samples.Length; i++)
                if (cap.Samples.Span[i] > BodyA.BlackDn + 40)
                    places.Add(i);
            hot.Add(places);
        }
        Assert.Equal(hot[0], hot[1]);
        double expected = 0.002 * 648 * 432;
        Assert.Equal(expected, hot[0].Count, 5 * Math.Sqrt(expected));
    }

    [Fact]
    public void Row_banding_moves_whole_rows_of_each_frame()
    {
        var bench = new SyntheticBench(Small with { Faults = new() { RowBanding = 0.5 } });
        var plan = bench.Frames.First(f => f.Role == FrameRole.Cap);
        using var cap = bench.Render(plan.Index);
        var means = new List<double>();
        for (int y = 0; y < cap.Height; y++)
        {
            double sum = 0;
            foreach (ushort v in cap.Row(y))
                sum += v;
            means.Add(sum / cap.Width);
        }
        double mean = means.Average(), variance = means.Sum(m => (m - mean) * (m - mean)) / (means.Count - 1);
        // Derived: offsets of half the read noise, plus what white noise leaves in a mean of 600 samples. Five standard errors of a sd, n = 400.
        double r = plan.Truth.ReadNoiseDn, expected = r * Math.Sqrt(0.25 + 1.0 / 600);
        Assert.Equal(expected, Math.Sqrt(variance), 5 * expected / Math.Sqrt(2 * 400));
    }

    [Fact]
    public void Clipped_black_cuts_half_of_the_dark_noise_away()
    {
        var bench = new SyntheticBench(Small with { Faults = new() { ClippedBlackFromIso = 1600 } });
        var plan = bench.Frames.First(f => f.Role == FrameRole.Cap && f.Iso == 1600);
        using var cap = bench.Render(plan.Index);
        var samples = SyntheticBenchTests.Active(cap);
        Assert.Equal(0, samples.Min());
        // Derived: half of the samples lie below black; sd 6.9 codes, and 0.4 of a code lies between black and 512.
        Assert.Equal(0.5, samples.Count(v => v == 0) / (double)samples.Count, 0.06);
        Assert.All(cap.TagBlackDn, b => Assert.Equal(0, b));
    }

    [Theory]
    [InlineData(0.003)]
    [InlineData(0.01)]
    public void The_pixels_differ_in_sensitivity_by_the_share_asked_for(double spread)
    {
        // Derived: the mean of many frames of one pixel over its expectation scatters by the spread; steps of a 32nd of it add nothing.
        var steps = PixelResponse.For(600, 400).Steps;
        double squares = steps.Sum(s => (double)s * s) / steps.Length;
        Assert.Equal(spread, spread * Math.Sqrt(squares) / PixelResponse.StepsPerSigma, spread * 5 / Math.Sqrt(2.0 * steps.Length));
    }

    [Fact]
    public void A_fault_at_an_iso_that_the_ladder_lacks_is_refused_by_name()
    {
        var refusal = Assert.Throws<ArgumentException>(() => new SyntheticBench(Small with { Faults = new() { MovedIso = 640 } }));
        Assert.Contains("640", refusal.Message, StringComparison.Ordinal);
    }
}
