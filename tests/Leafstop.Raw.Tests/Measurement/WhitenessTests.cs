using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;
using Leafstop.Raw.Measurement;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Measurement;

public sealed class WhitenessTests
{
    private const int Width = 960, Height = 480;

    public static TheoryData<string, double[]> Filters => new()
    {
        // Published: SEN-39, 3x3 box, and SEN-40, 3x3 binomial: correlation at lag 1 is 2/3 for both.
        { "SEN-39", [1, 1, 1] },
        { "SEN-40", [1, 2, 1] },
    };

    [Theory]
    [MemberData(nameof(Filters))]
    public void A_smoothing_filter_leaves_its_published_fingerprint(string row, double[] kernel)
    {
        PairPlane plane = Measure(PlainFrames.Mono, seed => Filtered(seed, kernel));
        // Row and column offsets are taken off: 1/480 of the correlation. Noise of the estimate: about 2/sqrt(460800) = 0.003.
        Assert.True(Math.Abs(plane.CorrelationX - 2.0 / 3) < 0.012 && Math.Abs(plane.CorrelationY - 2.0 / 3) < 0.012, $"{row}: {plane.CorrelationX:F4} and {plane.CorrelationY:F4}, published 0.6667.");
    }

    [Theory]
    [InlineData("2x2")]
    [InlineData("6x6")]
    public void White_noise_has_no_correlation_beyond_its_standard_error(string mosaic)
    {
        // Published: SEN-45, |rho| stays below 4/sqrt(n) on an unfiltered plane.
        MosaicPattern pattern = mosaic == "2x2" ? PlainFrames.TwoByTwo : PlainFrames.SixBySix;
        foreach (PairPlane plane in MeasureAll(pattern, seed => new Gaussian(seed).Field(Width * Height)))
        {
            double limit = 4 / Math.Sqrt(plane.CorrelationSamples) + 3.0 / Height;
            Assert.InRange(plane.CorrelationX, -limit, limit);
            Assert.InRange(plane.CorrelationY, -limit, limit);
        }
    }

    /// <summary>Published: SEN-26, the sd of one frame is that of the difference over √2, so its variance is half. The differences are 3, −1, −3 and 1: sd √5 about their mean of 0.</summary>
    [Fact]
    public void One_frame_has_half_the_variance_of_the_difference()
    {
        PairSums sums = Assert.Single(PairSums.OfSites(
            PlainFrames.Of([103, 100, 99, 104], 2, PlainFrames.Mono), PlainFrames.Of([100, 101, 102, 103], 2, PlainFrames.Mono)));
        Assert.Equal(Math.Sqrt(5) / Math.Sqrt(2), Math.Sqrt(sums.VarianceDn2), 1e-12);
    }

    [Fact]
    public void Rounding_to_whole_numbers_adds_the_published_variance()
    {
        // Published: SEN-46, true sd 0.5, mean on a code 0.325413, between codes 0.341254 (SEN-10: about s^2 + 1/12).
        // Standard error of a variance from 460 800 pairs: sqrt(2/n) = 0.21 %; four of them.
        foreach (var (mean, expected) in ((double, double)[])[(512, 0.325413), (512.5, 0.341254)])
        {
            PairSums sums = PairSums.OfSites(Rounded(1), Rounded(2))[0];
            Assert.Equal(expected, sums.VarianceDn2, 4 * 0.0021 * expected);

            MosaicFrame Rounded(int seed) => PlainFrames.Of([.. new Gaussian(seed + (int)(10 * mean)).Field(Width * Height).Select(z => (ushort)Math.Round(mean + 0.5 * z))], Width, PlainFrames.Mono, mean);
        }
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(2)]
    public void Row_offsets_are_measured_apart_from_grain(double share)
    {
        // Derived: rows offset by a known sd; grain of 5 DN stays 5 DN.
        PairPlane plane = Measure(PlainFrames.Mono, seed =>
        {
            double[] field = new Gaussian(seed).Field(Width * Height);
            double[] rows = new Gaussian(seed + 50).Field(Height);
            for (int i = 0; i < field.Length; i++) field[i] += share * rows[i / Width];
            return field;
        });
        // 480 rows tell a variance to sqrt(3/480) = 8 %, so an sd to 4 %; three of them. Grain: 460 800 samples, 0.1 %.
        Assert.Equal(5 * share, plane.RowNoiseDn, 0.12 * 5 * share);
        Assert.Equal(Math.Sqrt(25 + 1.0 / 12), Math.Sqrt(PhotonTransfer.DarkVariance(plane.Bins).Value), 0.025);
        Assert.InRange(plane.ColumnNoiseDn, 0, 0.15 * 5);
        Assert.InRange(plane.CorrelationX, -0.01, 0.01);
    }

    /// <summary>Derived: each half of a row has its own offset, so the mean of the row takes off only what they share. Of an offset of sd s there is left s²/2 against 1:
    /// 0.11 at 0.5 and 0.67 at 2 times the grain. Across the middle the halves disagree: at most 16 of 480 neighbours eight cells apart, 3 % of that.</summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(2)]
    public void Bands_that_break_off_half_way_are_no_filter(double share)
    {
        PairPlane[] planes = MeasureAll(PlainFrames.TwoByTwo, seed =>
        {
            double[] field = new Gaussian(seed).Field(Width * Height), halves = new Gaussian(seed + 50).Field(2 * Height);
            for (int i = 0; i < field.Length; i++) field[i] += share * halves[2 * (i / Width) + (i % Width < Width / 2 ? 0 : 1)];
            return field;
        });
        foreach (PairPlane plane in planes)
            Assert.InRange(plane.CorrelationX, -0.02, 0.02 + 0.04 * share * share / (2 + share * share));
    }

    private static double[] Filtered(int seed, double[] kernel)
    {
        double[] white = new Gaussian(seed).Field(Width * Height), result = new double[white.Length];
        for (int y = 0; y < Height; y++)
        {
            for (int x = 0; x < Width; x++)
            {
                double sum = 0;
                for (int dy = -1; dy <= 1; dy++)
                    for (int dx = -1; dx <= 1; dx++)
                        sum += kernel[dy + 1] * kernel[dx + 1] * white[(y + dy + Height) % Height * Width + (x + dx + Width) % Width];
                result[y * Width + x] = sum / 3;
            }
        }

        return result;
    }

    private static PairPlane Measure(MosaicPattern pattern, Func<int, double[]> noise) => Assert.Single(MeasureAll(pattern, noise));

    private static PairPlane[] MeasureAll(MosaicPattern pattern, Func<int, double[]> noise)
    {
        GroupSurvey group = GroupMeasurement.Survey(["1", "2"], name => PlainFrames.Of(
            [.. noise(name[0]).Select(z => (ushort)Math.Round(512 + 5 * z))], Width, pattern, 512, 16383, name));
        PairSurvey pair = Assert.Single(group.Pairs);
        Assert.True(pair.IsCap);
        return [.. pair.Planes];
    }
}
