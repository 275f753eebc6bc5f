using Leafstop.Core.Developing;
using Leafstop.Core.Sensor;
using Leafstop.Testing;

namespace Leafstop.Core.Tests.Sensor;

public sealed class LuminanceNoiseTests
{
    // Derived: white noise is put through the interpolation, weighed to luminance (PER-35) and merged in squares of 1 and 3 pixels; 600 × 600 pixels with some ten alike tell a variance
    // to 1 %, the 14 400 squares of 3 to 1.2 %.
    [Theory]
    [InlineData("2x2", true)]
    [InlineData("6x6", true)]
    [InlineData("2x2", false)]
    [InlineData("6x6", false)]
    public void The_luminance_factor_is_that_of_noise_really_interpolated(string mosaic, bool sharedDetail)
    {
        MosaicPattern pattern = mosaic == "2x2"
            ? new() { Rows = 2, Columns = 2, Letters = "GRBG" }
            : new() { Rows = 6, Columns = 6, Letters = "GGRGGBGGBGGRBRGRBGGGBGGRGGRGGBRBGBRG" };
        MosaicInterpolation interpolation = sharedDetail ? MosaicInterpolation.SharedDetail(pattern) : MosaicInterpolation.Bilinear(pattern);
        // The shipped figures are those of the interpolation of judged crops, wherever in the cell the colours start.
        LuminanceNoise factor = sharedDetail ? LuminanceNoise.For(mosaic) : LuminanceNoise.Of(interpolation);
        int side = 600, full = side + 2 * interpolation.Margin;
        Gaussian noise = new(21);
        float[][] channels = interpolation.Apply([.. Enumerable.Range(0, full * full).Select(_ => (float)noise.Next())], full, 0, 0);
        foreach (int merged in new[] { 1, 3 })
        {
            // Squares of 3 begin every 5 pixels, so that they meet every place of the cell.
            int step = merged == 1 ? 1 : 5;
            double squares = 0;
            int count = 0;
            for (int y = 0; y + merged <= side; y += step)
            {
                for (int x = 0; x + merged <= side; x += step, count++)
                {
                    double sum = 0;
                    for (int dy = 0; dy < merged; dy++)
                    {
                        for (int dx = 0; dx < merged; dx++)
                        {
                            int at = (y + dy) * side + x + dx;
                            sum += 0.2126390 * channels[0][at] + 0.7151687 * channels[1][at] + 0.0721923 * channels[2][at];
                        }
                    }
                    squares += sum * sum / Math.Pow(merged, 4);
                }
            }
            Assert.Equal(1, squares / count * Math.Pow(factor.SignalToNoiseGain(merged), 2), merged == 1 ? 0.03 : 0.05);
        }
    }

    [Fact] // Derived: without filters nothing is interpolated, and m × m merged pixels have m times the ratio.
    public void A_sensor_without_filters_keeps_its_ratio()
    {
        Assert.Equal(1, LuminanceNoise.For("1x1").SignalToNoiseGain(1), 1e-12);
        Assert.Equal(3, LuminanceNoise.For("1x1").SignalToNoiseGain(3), 1e-12);
    }

    // Derived: merging many pixels leaves the noise of the samples there were: densities 1/4, 1/2, 1/4 on 2×2; 8, 20 and 8 of 36 on 6×6 (PER-35 weights). Equal weights are the best there are; on 6×6
    // samples count a little unequally, which may cost half a percent.
    [Theory]
    [InlineData("2x2", 4, 2)]
    [InlineData("6x6", 4.5, 1.8)]
    public void Many_merged_pixels_have_the_light_of_their_samples(string mosaic, double redBlue, double green)
    {
        double variance = (0.2126390 * 0.2126390 + 0.0721923 * 0.0721923) * redBlue + 0.7151687 * 0.7151687 * green;
        double share = LuminanceNoise.For(mosaic).SignalToNoiseGain(1000) / 1000 * Math.Sqrt(variance);
        Assert.InRange(share, mosaic == "2x2" ? 0.999 : 0.995, 1.0015); // the rim of the square still counts for a thousandth
    }
}
