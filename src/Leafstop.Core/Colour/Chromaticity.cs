namespace Leafstop.Core.Colour;

/// <summary>A colour without its brightness, CIE 1931 x and y.</summary>
public sealed record Chromaticity
{
    /// <summary>Daylight white D65, (0.3127, 0.3290). Tables print Z between 1.0888 and 1.0891; these two numbers give 1.08906.</summary>
    public static Chromaticity D65 { get; } = Of(0.3127, 0.3290);

    /// <summary>White of printing and of profiles, D50, (0.3457, 0.3585).</summary>
    public static Chromaticity D50 { get; } = Of(0.3457, 0.3585);

    private Chromaticity(double x, double y) => (X, Y) = (x, y);

    /// <summary>x.</summary>
    public double X { get; }

    /// <summary>y.</summary>
    public double Y { get; }

    /// <summary>Takes x and y.</summary>
    /// <exception cref="ArgumentOutOfRangeException">y is not above zero, or one is not finite.</exception>
    public static Chromaticity Of(double x, double y) => double.IsFinite(x) && double.IsFinite(y) && y > 0
        ? new Chromaticity(x, y)
        : throw new ArgumentOutOfRangeException(nameof(y), (x, y), "A chromaticity is finite and its y is above zero.");

    /// <summary>The colour of this chromaticity at a luminance: X = x Y / y, Z = (1 − x − y) Y / y.</summary>
    /// <param name="luminance">1 for white.</param>
    public Xyz AtLuminance(double luminance = 1) => new(X / Y * luminance, luminance, (1 - X - Y) / Y * luminance);
}
