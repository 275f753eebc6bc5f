using Leafstop.Core.Colour;

namespace Leafstop.Core.Viewing;

/// <summary>A colour as the eye sends it on: lightness, red against green, blue against yellow, still in linear light.</summary>
/// <remarks>The three axes of CIELAB before its cube root: Y, X − Y and Y − Z, each over the white. A neutral has zero in the last two, and filtering each
/// by its own contrast sensitivity cannot tint an even field. Other opponent matrices in use agree only in parts (trap 17 of the check table), so none of them is taken.</remarks>
/// <param name="Lightness">Y over the white's.</param>
/// <param name="RedGreen">X − Y, each over the white's.</param>
/// <param name="YellowBlue">Y − Z, each over the white's.</param>
public readonly record struct OpponentColour(double Lightness, double RedGreen, double YellowBlue)
{
    /// <summary>From linear sRGB to the three axes.</summary>
    public static ColourMatrix FromLinearRgb { get; } = Matrix();

    /// <summary>The three axes of a colour.</summary>
    public static OpponentColour Of(LinearRgb colour)
    {
        var (lightness, redGreen, yellowBlue) = FromLinearRgb.Apply(colour.R, colour.G, colour.B);
        return new OpponentColour(lightness, redGreen, yellowBlue);
    }

    /// <summary>The colour in CIELAB under D65; straight on below black.</summary>
    public Lab ToLab()
    {
        double x = Lab.Curve(RedGreen + Lightness), y = Lab.Curve(Lightness), z = Lab.Curve(Lightness - YellowBlue);
        return new Lab(116 * y - 16, 500 * (x - y), 200 * (y - z));
    }

    private static ColourMatrix Matrix()
    {
        Xyz white = Chromaticity.D65.AtLuminance();
        return new ColourMatrix(0, 1, 0, 1, -1, 0, 0, 1, -1) * ColourMatrix.Diagonal(1 / white.X, 1 / white.Y, 1 / white.Z) * RgbSpace.Srgb.MatrixToXyz;
    }
}
