using Leafstop.Core.Colour;
using Leafstop.Core.Developing;

namespace Leafstop.Core.Tests.Developing;

/// <summary>Derived: closed forms and round trips.</summary>
public sealed class CameraColourTests
{
    private static readonly ColourMatrix Invented = new(1.1122, -0.3533, -0.1413, -0.5139, 1.3894, 0.0910, -0.0074, 0.0804, 0.3459);

    [Fact]
    public void A_balanced_neutral_stays_neutral_exactly()
    {
        foreach (Chromaticity light in (Chromaticity[])[Chromaticity.D65, Chromaticity.D50, Chromaticity.Of(0.4476, 0.4074)])
        {
            var (r, g, b) = CameraColour.FromMatrix(Invented, light).ToSrgb.Apply(0.4, 0.4, 0.4);
            Assert.Equal(0.4, r, 1e-12);
            Assert.Equal(0.4, g, 1e-12);
            Assert.Equal(0.4, b, 1e-12);
        }
    }

    [Fact]
    public void Under_the_light_of_the_matrix_a_colour_comes_back()
    {
        // What the camera records of an sRGB colour under D65, balanced for D65 white.
        ColourMatrix seen = Invented * RgbSpace.Srgb.MatrixToXyz;
        var (wr, wg, wb) = seen.Apply(1, 1, 1);
        var (r, g, b) = seen.Apply(0.5, 0.2, 0.1);
        var (red, green, blue) = CameraColour.FromMatrix(Invented, Chromaticity.D65).ToSrgb.Apply(r / wr, g / wg, b / wb);
        Assert.Equal(0.5, red, 1e-9);
        Assert.Equal(0.2, green, 1e-9);
        Assert.Equal(0.1, blue, 1e-9);
    }

    [Fact]
    public void A_matrix_that_makes_colours_one_is_refused()
    {
        Assert.Throws<ArgumentException>(() => CameraColour.FromMatrix(new ColourMatrix(1, 0, 0, 1, 0, 0, 1, 0, 0), Chromaticity.D65));
        Assert.Throws<ArgumentException>(() => CameraColour.FromMatrix(ColourMatrix.Diagonal(-1, 1, 1), Chromaticity.D65));
    }
}
