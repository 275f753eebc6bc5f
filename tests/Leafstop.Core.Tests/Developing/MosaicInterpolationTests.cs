using Leafstop.Core.Developing;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Tests.Developing;

public sealed class MosaicInterpolationTests
{
    private static readonly MosaicPattern TwoByTwo = new() { Rows = 2, Columns = 2, Letters = "RGGB" };
    private static readonly MosaicPattern SixBySix = new() { Rows = 6, Columns = 6, Letters = "GGRGGBGGBGGRBRGRBGGGBGGRGGRGGBRBGBRG" };
    private static readonly MosaicPattern Unfiltered = new() { Rows = 1, Columns = 1, Letters = "M" };

    public static TheoryData<string, string> All => new(
        from mosaic in new[] { "2x2", "6x6", "1x1" } from kind in new[] { "bilinear", "shared" } select (mosaic, kind));

    /// <summary>Published: SEN-48.</summary>
    [Fact]
    public void Plain_bilinear_leaves_the_published_share_of_the_noise()
    {
        MosaicInterpolation plain = MosaicInterpolation.Bilinear(TwoByTwo);
        // Exact in binary fractions.
        Assert.Equal(0.5625, plain.NoiseShare(0), 1e-15);
        Assert.Equal(0.625, plain.NoiseShare(1), 1e-15);
        Assert.Equal(0.5625, plain.NoiseShare(2), 1e-15);
        // The same figures, and those of neighbours, were worked out on their own for merged pixels.
        Assert.Equal(LuminanceNoise.Of(plain).VarianceShare(1, 1), plain.NoiseShare(1), 1e-15);
    }

    /// <summary>Derived: the figures of the weights against the variance and covariance of white noise that went through them.</summary>
    [Theory]
    [MemberData(nameof(All))]
    public void Noise_that_comes_out_is_the_noise_of_the_weights(string mosaic, string kind)
    {
        MosaicInterpolation interpolation = Of(mosaic, kind);
        const int side = 606;
        double[] planes = [4, 1, 1.2, 2.25];
        double[] variances = planes[..interpolation.Mosaic.PlaneNames().Count];
        var noise = Noise(interpolation, side, variances, seed: 5);
        float[][] channels = interpolation.Apply(noise, side, firstRow: 3, firstColumn: 1);
        int across = side - 2 * interpolation.Margin, n = (across - 2) * (across - 1);
        for (int a = 0; a < channels.Length; a++)
        {
            for (int b = 0; b < channels.Length; b++)
            {
                foreach (var (dx, dy) in new[] { (0, 0), (1, 0), (0, 1), (2, 1) })
                {
                    double sum = 0;
                    for (int y = 0; y < across - 1; y++)
                        for (int x = 0; x < across - 2; x++)
                            sum += (double)channels[a][y * across + x] * channels[b][(y + dy) * across + x + dx];
                    // The largest variance is 4; samples that share noise count less than n: 5 standard errors of some 360 000 values with ten alike.
                    Assert.Equal(interpolation.NoiseCovariance(a, b, dx, dy, variances), sum / n, 5 * 4 * Math.Sqrt(2.0 * 10 / n));
                }
            }
        }
    }

    /// <summary>Derived: side by side, and at the ends of rows one by one, against the kernel of each pixel.</summary>
    [Theory]
    [MemberData(nameof(All))]
    public void Every_pixel_is_the_sum_of_its_kernel(string mosaic, string kind)
    {
        MosaicInterpolation interpolation = Of(mosaic, kind);
        const int width = 53, height = 31;
        float[] samples = Noise(interpolation, width, [.. interpolation.Mosaic.PlaneNames().Select(_ => 1.0)], seed: 9)[..(width * height)];
        int margin = interpolation.Margin, across = width - 2 * margin, down = height - 2 * margin;
        float[][] channels = interpolation.Apply(samples, width, firstRow: 5, firstColumn: 4);
        for (int c = 0; c < channels.Length; c++)
        {
            Assert.Equal(across * down, channels[c].Length);
            for (int i = 0; i < channels[c].Length; i++)
            {
                int x = i % across + margin, y = i / across + margin;
                double sum = interpolation.Kernel(5 + y, 4 + x, c).Sum(tap => tap.Weight * samples[(y + tap.Dy) * width + x + tap.Dx]);
                Assert.Equal(sum, channels[c][i], 1e-5);
            }
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Flat_areas_of_any_colour_come_out_exact(string mosaic, string kind)
    {
        MosaicInterpolation interpolation = Of(mosaic, kind);
        double[] colour = [0.7, 0.2, 1.4];
        float[] flat = Painted(interpolation, 30, 2, 5, (_, _, channel) => colour[channel]);
        float[][] channels = interpolation.Apply(flat, 30, 2, 5);
        // Single precision, some 40 terms.
        for (int c = 0; c < channels.Length; c++) Assert.All(channels[c], v => Assert.Equal(colour[c], v, 5e-6));
    }

    [Theory]
    [InlineData("2x2")]
    [InlineData("6x6")]
    public void Grey_ramps_come_out_exact_with_shared_detail(string mosaic)
    {
        MosaicInterpolation interpolation = Of(mosaic, "shared");
        float[] ramp = Painted(interpolation, 40, 0, 0, (x, y, _) => 0.01 * x + 0.02 * y);
        int across = 40 - 2 * interpolation.Margin;
        foreach (float[] channel in interpolation.Apply(ramp, 40, 0, 0))
            for (int i = 0; i < channel.Length; i++) Assert.Equal(0.01 * (i % across + interpolation.Margin) + 0.02 * (i / across + interpolation.Margin), channel[i], 5e-6);
    }

    /// <summary>Derived: a scene that is known everywhere, sampled through the mosaic.</summary>
    [Theory]
    [InlineData("2x2", 0.5)]
    [InlineData("6x6", 0.5)]
    public void Fine_detail_comes_out_with_less_than_half_the_error_of_the_plain_mean(string mosaic, double most)
    {
        double shared = Error("shared"), plain = Error("bilinear");
        Assert.True(shared < most * plain, $"{shared:G3} against {plain:G3}");

        double Error(string kind)
        {
            MosaicInterpolation interpolation = Of(mosaic, kind);
            const int side = 120;
            float[] seen = Painted(interpolation, side, 0, 0, Scene);
            float[][] channels = interpolation.Apply(seen, side, 0, 0);
            int across = side - 2 * interpolation.Margin;
            double sum = 0;
            for (int c = 0; c < 3; c++)
                for (int i = 0; i < channels[c].Length; i++)
                    sum += Math.Pow(channels[c][i] - Scene(i % across + interpolation.Margin, i / across + interpolation.Margin, c), 2);
            return Math.Sqrt(sum / (3 * across * across));
        }

        // Waves in many directions down to 4 pixels, the same in all colours, on colours that change slowly.
        static double Scene(int x, int y, int channel)
        {
            double detail = 0;
            for (int i = 0; i < 12; i++)
            {
                double angle = i * 2.399, length = 4 + 1.1 * i;
                detail += Math.Sqrt(length) * Math.Sin(2 * Math.PI * (x * Math.Cos(angle) + y * Math.Sin(angle)) / length + i);
            }

            return 0.5 + 0.01 * detail + 0.1 * Math.Sin((x + 2 * y + 40 * channel) / 25.0);
        }
    }

    /// <summary>Pinned: the figures that docs/decisions/0011-linear-interpolation-for-judged-crops.md states.</summary>
    [Theory]
    [InlineData("2x2", 1.027, 0.927, 1.027, 0.895)]
    [InlineData("6x6", 1, 0.937, 1, 0.921)]
    public void The_noise_that_is_left_is_as_written_down(string mosaic, double red, double green, double blue, double luminance)
    {
        MosaicInterpolation interpolation = Of(mosaic, "shared");
        double[] even = [.. interpolation.Mosaic.PlaneNames().Select(_ => 1.0)], weights = [0.2126390, 0.7151687, 0.0721923];
        double[] shares = [.. Enumerable.Range(0, 3).Select(interpolation.NoiseShare)];
        double sum = (from a in Enumerable.Range(0, 3) from b in Enumerable.Range(0, 3) select weights[a] * weights[b] * interpolation.NoiseCovariance(a, b, 0, 0, even)).Sum();
        Assert.Equal([red, green, blue, luminance], [.. shares.Append(sum).Select(v => Math.Round(v, 3))], (a, b) => Math.Abs(a - b) < 1e-9);
    }

    [Fact]
    public void Mixing_before_and_after_is_the_same()
    {
        MosaicInterpolation interpolation = Of("6x6", "shared");
        float[] first = Noise(interpolation, 60, [1, 1, 1], 1), second = Noise(interpolation, 60, [1, 1, 1], 2);
        float[] mixed = [.. first.Zip(second, (a, b) => 0.3f * a + 0.7f * b)];
        float[][] after = interpolation.Apply(mixed, 60, 4, 2), a = interpolation.Apply(first, 60, 4, 2), b = interpolation.Apply(second, 60, 4, 2);
        for (int c = 0; c < 3; c++)
            for (int i = 0; i < after[c].Length; i++) Assert.Equal(0.3 * a[c][i] + 0.7 * b[c][i], after[c][i], 1e-5);
    }

    [Fact]
    public void A_recorded_value_stays_as_it_is()
    {
        foreach (string mosaic in new[] { "2x2", "6x6", "1x1" })
        {
            foreach (string kind in new[] { "bilinear", "shared" })
            {
                MosaicInterpolation interpolation = Of(mosaic, kind);
                for (int site = 0; site < interpolation.ChannelOfSite.Length; site++)
                {
                    int row = site / interpolation.Mosaic.Columns, column = site % interpolation.Mosaic.Columns;
                    InterpolationTap own = Assert.Single(interpolation.Kernel(row, column, interpolation.ChannelOfSite[site]));
                    Assert.Equal((0, 0, 1.0), (own.Dx, own.Dy, own.Weight));
                }
            }
        }
    }

    [Fact]
    public void What_does_not_fit_is_refused()
    {
        MosaicInterpolation interpolation = Of("2x2", "shared");
        Assert.Throws<ArgumentOutOfRangeException>(() => interpolation.Kernel(0, 0, 3));
        Assert.Throws<ArgumentException>(() => interpolation.Apply(new float[16], 4, 0, 0));
        Assert.Throws<ArgumentException>(() => interpolation.Apply(new float[101], 10, 0, 0));
        Assert.Throws<ArgumentException>(() => interpolation.NoiseCovariance(0, 0, 0, 0, [1, 1, 1]));
    }

    private static MosaicInterpolation Of(string mosaic, string kind)
    {
        MosaicPattern pattern = mosaic switch { "2x2" => TwoByTwo, "6x6" => SixBySix, _ => Unfiltered };
        return kind == "shared" ? MosaicInterpolation.SharedDetail(pattern) : MosaicInterpolation.Bilinear(pattern);
    }

    private static float[] Painted(MosaicInterpolation interpolation, int side, int firstRow, int firstColumn, Func<int, int, int, double> scene)
    {
        MosaicPattern mosaic = interpolation.Mosaic;
        return
        [
            .. Enumerable.Range(0, side * side).Select(i => (float)scene(
                i % side, i / side, interpolation.ChannelOfSite[(i / side + firstRow) % mosaic.Rows * mosaic.Columns + (i % side + firstColumn) % mosaic.Columns])),
        ];
    }

    private static float[] Noise(MosaicInterpolation interpolation, int side, double[] planeVariances, int seed)
    {
        var random = new Random(seed);
        MosaicPattern mosaic = interpolation.Mosaic;
        IReadOnlyList<int> planes = mosaic.PlaneOfSite();
        return
        [
            .. Enumerable.Range(0, side * side).Select(i =>
            {
                double normal = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
                // The region starts at row 3, column 1 of the active area.
                return (float)(normal * Math.Sqrt(planeVariances[planes[(i / side + 3) % mosaic.Rows * mosaic.Columns + (i % side + 1) % mosaic.Columns]]));
            }),
        ];
    }
}
