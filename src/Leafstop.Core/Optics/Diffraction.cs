using Leafstop.Core.Quantities;

namespace Leafstop.Core.Optics;

/// <summary>What the wave nature of light does to a point seen through a round aperture, the lens itself being perfect.</summary>
/// <remarks>One wavelength. Where the image of a close subject is meant, the f-number is the effective one, <see cref="Lens.EffectiveAperture"/>.</remarks>
public static class Diffraction
{
    /// <summary>First dark ring: diameter = 2 j11 / π · λ N with j11 the first zero of the Bessel function J1. Row DIF-01; usually rounded to 2.44.</summary>
    public const double AiryConstant = 2.4393397826782857;

    /// <summary>Full width at half maximum of the point's image over λ N. Row DIF-10.</summary>
    public const double HalfMaximumConstant = 1.0289940;

    /// <summary>550 nm, the middle of what the eye sees best (common practice, no source).</summary>
    public static readonly Length GreenLight = Length.FromMillimetres(550e-6);

    /// <summary>Diameter on the sensor of the first dark ring.</summary>
    /// <param name="effective">Effective f-number.</param>
    /// <param name="wavelength">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The wavelength is zero.</exception>
    public static Length AiryDiameter(FNumber effective, Length wavelength) => Length.FromMillimetres(AiryConstant * Wave(wavelength) * effective.Ratio);

    /// <summary>Width on the sensor at half of the peak: how wide a point looks.</summary>
    /// <param name="effective">Effective f-number.</param>
    /// <param name="wavelength">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The wavelength is zero.</exception>
    public static Length FullWidthAtHalfMaximum(FNumber effective, Length wavelength) =>
        Length.FromMillimetres(HalfMaximumConstant * Wave(wavelength) * effective.Ratio);

    /// <summary>The finest pattern that gets through at all, line pairs per millimetre on the sensor: 1 / (λ N). Row DIF-04.</summary>
    /// <param name="effective">Effective f-number.</param>
    /// <param name="wavelength">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The wavelength is zero.</exception>
    public static double CutOffPerMillimetre(FNumber effective, Length wavelength) => 1 / (Wave(wavelength) * effective.Ratio);

    /// <summary>Contrast that is left of a pattern in perfect focus: (2 / π)(acos x − x √(1 − x²)), zero from x = 1. Row DIF-06.</summary>
    /// <param name="x">Frequency as a share of the cut-off, not below zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Below zero or no number.</exception>
    public static double Contrast(double x) => x >= 0
        ? x >= 1 ? 0 : 2 / Math.PI * (Math.Acos(x) - x * Math.Sqrt((1 - x) * (1 + x)))
        : throw new ArgumentOutOfRangeException(nameof(x), x, "A frequency is not below zero.");

    internal static double Wave(Length wavelength) => wavelength.Millimetres > 0
        ? wavelength.Millimetres
        : throw new ArgumentOutOfRangeException(nameof(wavelength), wavelength.Millimetres, "A wavelength is above zero.");
}
