using CsCheck;
using Leafstop.Core.Colour;

namespace Leafstop.Core.Tests.Colour;

public sealed class RgbSpaceTests
{
    // Published: PER-35, from the chromaticities of IEC 61966-2-1; seven decimals printed.
    [Fact]
    public void The_matrix_of_sRGB_follows_from_its_chromaticities()
    {
        ColourMatrix m = RgbSpace.Srgb.MatrixToXyz;
        double[,] printed =
        {
            { 0.4123908, 0.3575843, 0.1804808 },
            { 0.2126390, 0.7151687, 0.0721923 },
            { 0.0193308, 0.1191948, 0.9505322 },
        };
        for (int row = 0; row < 3; row++)
            for (int column = 0; column < 3; column++)
                Assert.Equal(printed[row, column], m[row, column], 1e-7);
    }

    // Published: PER-36, Bradford from D65 (0.3127, 0.3290) to D50 (0.3457, 0.3585); seven decimals printed.
    [Fact]
    public void Bradford_brings_D65_to_D50_as_published()
    {
        ColourMatrix m = BradfordAdaptation.Matrix(Chromaticity.D65, Chromaticity.D50);
        double[,] printed =
        {
            { 1.0479298, 0.0229469, -0.0501923 },
            { 0.0296278, 0.9904344, -0.0170738 },
            { -0.0092430, 0.0150552, 0.7518743 },
        };
        for (int row = 0; row < 3; row++)
            for (int column = 0; column < 3; column++)
                Assert.Equal(printed[row, column], m[row, column], 1e-6);
    }

    // Derived: adaptation takes one white exactly to the other, and back to itself.
    [Fact]
    public void A_white_becomes_the_other_white()
    {
        Xyz d65 = Chromaticity.D65.AtLuminance(), d50 = Chromaticity.D50.AtLuminance();
        var (x, y, z) = BradfordAdaptation.Matrix(Chromaticity.D65, Chromaticity.D50).Apply(d65.X, d65.Y, d65.Z);
        Assert.Equal((d50.X, d50.Y, d50.Z), (x, y, z), (a, b) => Math.Abs(a.Item1 - b.Item1) + Math.Abs(a.Item2 - b.Item2) + Math.Abs(a.Item3 - b.Item3) < 1e-12);
        ColourMatrix back = BradfordAdaptation.Matrix(Chromaticity.D50, Chromaticity.D65) * BradfordAdaptation.Matrix(Chromaticity.D65, Chromaticity.D50);
        Assert.Equal(1, back.M11, 1e-12);
        Assert.Equal(0, back.M12, 1e-12);
        Assert.Equal(1, back.M33, 1e-12);
    }

    // Derived: the white of a space is R = G = B = 1, and its Z follows from xy as 1.08906 (trap 15 of the check table).
    [Fact]
    public void Equal_parts_are_the_white()
    {
        Xyz white = RgbSpace.Srgb.ToXyz(LinearRgb.Neutral(1));
        Assert.Equal(0.95046, white.X, 1e-5);
        Assert.Equal(1, white.Y, 1e-12);
        Assert.Equal(1.08906, white.Z, 1e-5);
    }

    [Fact] // Derived: a round trip, rounding only.
    public void There_and_back_is_where_it_was() =>
        Gen.Select(Gen.Double[-0.2, 2], Gen.Double[-0.2, 2], Gen.Double[-0.2, 2]).Sample((r, g, b) =>
        {
            LinearRgb back = RgbSpace.Srgb.FromXyz(RgbSpace.Srgb.ToXyz(new LinearRgb(r, g, b)));
            return Math.Abs(back.R - r) < 1e-12 && Math.Abs(back.G - g) < 1e-12 && Math.Abs(back.B - b) < 1e-12;
        });

    [Fact]
    public void What_cannot_be_undone_is_refused()
    {
        Assert.Throws<InvalidOperationException>(() => default(ColourMatrix).Inverse());
        Assert.Throws<ArgumentOutOfRangeException>(() => Chromaticity.Of(0.3, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => ColourMatrix.Identity[3, 0]);
    }
}
