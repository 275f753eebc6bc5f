using Leafstop.Core.Developing;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Viewing;

public sealed class VisibleNoiseTests
{
    // Pixels per degree: 100 ppi screen at 60 cm; prints of 120 and 60 cm from 8256 pixels seen from 60 cm (PRN-01's formula).
    private static readonly double[] PixelsPerDegree = [41.2, 72.0, 144.1];

    public static TheoryData<double, double, string> Ladder => new(
        from iso in new[] { 100.0, 800, 3200, 12800 } from tone in new[] { 0.0, -5 } from mosaic in new[] { "2x2", "6x6" } select (iso, tone, mosaic));

    // Derived: the same chain twice, once by adding up covariances, once on seeded noise. 10 % is what is asked. A patch of 512 pixels tells lightness to half a percent, b*, of which
    // the eye takes the coarsest part, to 3 %. At −5 EV and ISO 12 800 half of all values are cut off at black: followed to 4 %.
    [Theory]
    [MemberData(nameof(Ladder))]
    public void What_is_worked_out_is_what_is_measured(double iso, double toneEv, string mosaic) =>
        AgreeAt(new() { Iso = iso, ToneEv = toneEv, Mosaic = Named(mosaic), Side = 512, Seed = (int)iso + (int)(10 * -toneEv) }, PixelsPerDegree);

    // The same for three stops under, and for a small print, whose degree holds more pixels: the patch is larger so that it holds as many degrees.
    [Theory]
    [InlineData("2x2", 512, 144.1)]
    [InlineData("6x6", 1024, 216.1)]
    public void It_holds_for_other_tones_and_smaller_prints(string mosaic, int side, double perDegree) =>
        AgreeAt(new() { Iso = 12800, ToneEv = -3, Mosaic = Named(mosaic), Side = side, Seed = 77 }, [perDegree]);

    [Fact] // Derived: plain bilinear, whose noise is published (SEN-48), goes through the same way.
    public void It_holds_for_plain_bilinear() =>
        AgreeAt(new() { Iso = 1600, ToneEv = 0, Bilinear = true, Side = 512, Seed = 5 }, PixelsPerDegree);

    private static void AgreeAt(DevelopedPatch patch, IEnumerable<double> pixelsPerDegree)
    {
        DevelopedNoise predicted = patch.Predicted();
        NoiseImage image = patch.Image();
        foreach (double perDegree in pixelsPerDegree)
        {
            VisibleNoise worked = predicted.Seen(perDegree), measured = VisibleNoiseMeasurement.Of(image, perDegree).Grain;
            Assert.Equal(1, measured.Lightness / worked.Lightness, 0.1);
            Assert.Equal(1, measured.RedGreen / worked.RedGreen, 0.1);
            Assert.Equal(1, measured.YellowBlue / worked.YellowBlue, 0.1);
            Assert.Equal(1, measured.Weighted / worked.Weighted, 0.1);
            // The covariance may be near zero: 5 % of the two spreads.
            Assert.Equal(worked.LightnessWithRedGreen, measured.LightnessWithRedGreen, 0.05 * worked.Lightness * worked.RedGreen);
        }
    }

    // Derived: with light alone (no read noise) the noise squared goes with ISO, and where a degree holds many pixels with one over their number: (distance / width)² of light keeps the
    // look. Without filters noise is white, and 288 pixels a degree are many: 0.02 stop. Interpolated colours share noise over five pixels, so it takes 600 of them to come within 0.05 stop; from the
    // 60 cm print of a 45-megapixel frame to one of 40 cm the law promises 0.17 stop more than the eye's blur gives, which is half a dial step.
    [Theory]
    [InlineData("1x1", 288, 1.5, 0.02)]
    [InlineData("1x1", 288, 2, 0.02)]
    [InlineData("2x2", 600, 1.5, 0.05)]
    [InlineData("2x2", 144.1, 1.5, 0.2)]
    [InlineData("6x6", 144.1, 1.5, 0.2)]
    public void Grain_follows_distance_over_width_squared(string mosaic, double perDegree, double finer, double stops)
    {
        MosaicPattern pattern = mosaic == "1x1" ? new() { Rows = 1, Columns = 1, Letters = "M" } : Named(mosaic);
        var interpolation = MosaicInterpolation.SharedDetail(pattern);
        double near = Lightness(400, perDegree), far = Lightness(400 * finer * finer, perDegree * finer);
        Assert.Equal(0, 2 * Math.Log2(near / far), stops);

        double Lightness(double iso, double pixelsPerDegree)
        {
            PlaneTone tone = new(new NoiseModel(1, 0, 5_000_000 / iso), 5_000_000 / iso * MeteredTone.MidGreyShare, Math.Sqrt(2));
            return DevelopedNoise.Of(interpolation, [.. pattern.PlaneNames().Select(_ => tone)], DevelopedPatch.CameraToSrgb, DevelopedPatch.Curve).Seen(pixelsPerDegree).Lightness;
        }
    }

    [Fact] // Derived: SEN-50's weights 100, 5, 12 of the variances of L* and a* and their covariance, by hand: √(4 + 0.05 · 9 + 0.12 · 1.5).
    public void The_one_number_weighs_as_published() =>
        Assert.Equal(Math.Sqrt(4.63), new VisibleNoise(2, 3, 9, 1.5).Weighted, 1e-12);

    [Fact] // Published: WB-01: a neutral of 0.5, 1, 0.6 has the gains 2, 1, 1.667, and a red sd of 4 becomes 8.
    public void White_balance_multiplies_noise_as_it_does_light()
    {
        PlaneTone red = new(new NoiseModel(1, Math.Sqrt(6), 1), 10, 2);
        Assert.Equal(8, Math.Sqrt(red.Variance), 1e-12);
        Assert.Equal(20, red.Mean, 1e-12);
    }

    [Fact]
    public void What_is_no_patch_is_refused()
    {
        float[][] small = [new float[63 * 64], new float[63 * 64], new float[63 * 64]];
        Assert.Throws<ArgumentException>(() => NoiseImage.FromPair(63, small, small));
        float[][] spoilt = [new float[64 * 64], new float[64 * 64], [.. Enumerable.Repeat(float.NaN, 64 * 64)]];
        Assert.Throws<ArgumentException>(() => NoiseImage.FromPair(64, spoilt, spoilt));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DevelopedPatch { Iso = 100, ToneEv = 0 }.Predicted().Seen(0));
    }

    private static MosaicPattern Named(string mosaic) => mosaic == "2x2" ? DevelopedPatch.TwoByTwo : DevelopedPatch.SixBySix;
}
