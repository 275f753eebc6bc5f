using CsCheck;
using Leafstop.Core.Colour;

namespace Leafstop.Core.Tests.Colour;

public sealed class LabTests
{
    // Published: PER-29, CIE e-ILV: (6/29)³ = 216/24389, L* = 8 there, and below it L* is 24389/27 times the ratio.
    [Fact]
    public void The_knee_is_where_the_definition_puts_it()
    {
        Assert.Equal(0.0088564517, Lab.Knee, 1e-10);
        Assert.Equal(8, 116 * Lab.Curve(Lab.Knee) - 16, 1e-12);
        Assert.Equal(903.2963, (116 * Lab.Curve(0.004) - 16) / 0.004, 1e-4);
    }

    [Theory] // Published: PER-30, formula of the CIE, values computed elsewhere to seven decimals.
    [InlineData(0.18, 49.4961076)]
    [InlineData(0.5, 76.0692610)]
    [InlineData(0.01, 8.9914424)]
    [InlineData(0.0001, 0.0903296)]
    public void Lightness_of_greys_is_as_published(double luminance, double lightness)
    {
        var grey = Lab.FromXyz(RgbSpace.Srgb.ToXyz(LinearRgb.Neutral(luminance)), Chromaticity.D65);
        Assert.Equal(lightness, grey.L, 1e-6);
        Assert.Equal(0, grey.A, 1e-9); // Derived: greys have no colour.
        Assert.Equal(0, grey.B, 1e-9);
    }

    [Fact] // Published: PER-32, white from xy (0.3127, 0.3290).
    public void A_colour_is_as_published()
    {
        var lab = Lab.FromXyz(new Xyz(0.2, 0.3, 0.4), Chromaticity.D65);
        Assert.Equal(61.65422221, lab.L, 1e-6);
        Assert.Equal(-37.31986865, lab.A, 1e-6);
        Assert.Equal(-9.34309034, lab.B, 1e-6);
    }

    [Fact] // Derived: a round trip, rounding only, also below the knee and slightly below black.
    public void There_and_back_is_where_it_was() =>
        Gen.Select(Gen.Double[-0.01, 1.2], Gen.Double[-0.01, 1.2], Gen.Double[-0.01, 1.2]).Sample((x, y, z) =>
        {
            Xyz back = Lab.FromXyz(new Xyz(x, y, z), Chromaticity.D50).ToXyz(Chromaticity.D50);
            return Math.Abs(back.X - x) < 1e-12 && Math.Abs(back.Y - y) < 1e-12 && Math.Abs(back.Z - z) < 1e-12;
        });

    [Fact] // Derived: the slope is the limit of small steps.
    public void The_slope_is_that_of_the_curve() =>
        Gen.Double[0.0001, 1].Where(t => Math.Abs(t - Lab.Knee) > 1e-5).Sample(t =>
            Math.Abs((Lab.Curve(t + 1e-7) - Lab.Curve(t - 1e-7)) / 2e-7 / Lab.CurveSlope(t) - 1) < 1e-5);
}
