namespace Leafstop.Core.Colour;

/// <summary>A colour in CIELAB (CIE 1976): lightness, green to red, blue to yellow.</summary>
/// <param name="L">Lightness, 0 black to 100 white.</param>
/// <param name="A">Negative green, positive red.</param>
/// <param name="B">Negative blue, positive yellow.</param>
public readonly record struct Lab(double L, double A, double B)
{
    /// <summary>Below this ratio to white the cube root gives way to a straight line: (6/29)³ = 216/24389.</summary>
    public const double Knee = 216.0 / 24389;

    private const double Slope = 841.0 / 108, Offset = 4.0 / 29;

    /// <summary>The curve of CIELAB: cube root above <see cref="Knee"/>, else (841/108) t + 4/29. Source: CIE e-ILV 17-23-076, row PER-29. Straight on below zero.</summary>
    /// <param name="ratio">A tristimulus value over the white's.</param>
    public static double Curve(double ratio) => ratio > Knee ? Math.Cbrt(ratio) : Slope * ratio + Offset;

    /// <summary>How steep <see cref="Curve"/> is: 1 / (3 t^(2/3)) above the knee, 841/108 below.</summary>
    /// <param name="ratio">A tristimulus value over the white's.</param>
    public static double CurveSlope(double ratio)
    {
        if (ratio <= Knee) return Slope;
        double root = Math.Cbrt(ratio);
        return 1 / (3 * root * root);
    }

    /// <summary>From XYZ under a white: L* = 116 f(Y) − 16, a* = 500 (f(X) − f(Y)), b* = 200 (f(Y) − f(Z)), each over the white. Rows PER-29 to PER-32.</summary>
    public static Lab FromXyz(Xyz colour, Chromaticity white)
    {
        Xyz w = white.AtLuminance();
        double x = Curve(colour.X / w.X), y = Curve(colour.Y / w.Y), z = Curve(colour.Z / w.Z);
        return new Lab(116 * y - 16, 500 * (x - y), 200 * (y - z));
    }

    /// <summary>Back to XYZ under a white.</summary>
    public Xyz ToXyz(Chromaticity white)
    {
        Xyz w = white.AtLuminance();
        double y = (L + 16) / 116;
        return new Xyz(w.X * Uncurve(y + A / 500), w.Y * Uncurve(y), w.Z * Uncurve(y - B / 200));
    }

    private static double Uncurve(double value) => value > 6.0 / 29 ? value * value * value : (value - Offset) / Slope;
}
