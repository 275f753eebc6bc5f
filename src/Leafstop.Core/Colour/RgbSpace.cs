namespace Leafstop.Core.Colour;

/// <summary>An RGB space given by its three primaries and its white, in linear light.</summary>
/// <remarks>The matrix follows from the chromaticities: each primary is scaled so that R = G = B = 1 is the white. Source: IEC 61966-2-1 for
/// sRGB's numbers, row PER-35.</remarks>
public sealed class RgbSpace
{
    /// <summary>sRGB: primaries (0.64, 0.33), (0.30, 0.60), (0.15, 0.06), white D65. Its tone curve is <see cref="SrgbCurve"/>.</summary>
    public static RgbSpace Srgb { get; } = FromChromaticities(Chromaticity.Of(0.64, 0.33), Chromaticity.Of(0.30, 0.60), Chromaticity.Of(0.15, 0.06), Chromaticity.D65);

    private RgbSpace(ColourMatrix toXyz, Chromaticity white) => (MatrixToXyz, MatrixFromXyz, White) = (toXyz, toXyz.Inverse(), white);

    /// <summary>White: R = G = B = 1.</summary>
    public Chromaticity White { get; }

    /// <summary>From linear RGB to XYZ relative to <see cref="White"/>; the middle row is the luminance.</summary>
    public ColourMatrix MatrixToXyz { get; }

    /// <summary>From XYZ to linear RGB.</summary>
    public ColourMatrix MatrixFromXyz { get; }

    /// <summary>Takes three primaries and a white.</summary>
    /// <exception cref="InvalidOperationException">The primaries lie on one line.</exception>
    public static RgbSpace FromChromaticities(Chromaticity red, Chromaticity green, Chromaticity blue, Chromaticity white)
    {
        Xyz r = red.AtLuminance(), g = green.AtLuminance(), b = blue.AtLuminance(), w = white.AtLuminance();
        ColourMatrix primaries = new(r.X, g.X, b.X, r.Y, g.Y, b.Y, r.Z, g.Z, b.Z);
        var (ofRed, ofGreen, ofBlue) = primaries.Inverse().Apply(w.X, w.Y, w.Z);
        return new RgbSpace(primaries * ColourMatrix.Diagonal(ofRed, ofGreen, ofBlue), white);
    }

    /// <summary>A colour of this space as XYZ.</summary>
    public Xyz ToXyz(LinearRgb colour)
    {
        var (x, y, z) = MatrixToXyz.Apply(colour.R, colour.G, colour.B);
        return new Xyz(x, y, z);
    }

    /// <summary>XYZ as a colour of this space; outside 0 to 1 where the space does not reach it.</summary>
    public LinearRgb FromXyz(Xyz colour)
    {
        var (r, g, b) = MatrixFromXyz.Apply(colour.X, colour.Y, colour.Z);
        return new LinearRgb(r, g, b);
    }
}
