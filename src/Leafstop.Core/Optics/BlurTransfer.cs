using System.Collections.Immutable;
using Leafstop.Core.Quantities;
using MathNet.Numerics.Integration;

namespace Leafstop.Core.Optics;

/// <summary>Contrast that is left of a fine pattern when blur and diffraction act together.</summary>
/// <remarks>Exact for a perfect lens with a round aperture at one wavelength: the autocorrelation of the defocused pupil,
/// OTF(x) = (4 / π) ∫ from 0 to 1 − x of √(1 − (y + x)²) cos(8 π W x y) dy. It goes negative where a pattern comes out reversed.
/// Range: any x ≥ 0 and |W| x (1 − x) up to 10 000 waves; error below 1e-12 up to 100 waves, below 1e-10 beyond. Rows DIF-11 to DIF-16.</remarks>
public static class BlurTransfer
{
    private const int Order = 20;
    private const int MostPanels = 40_000;

    private static readonly ImmutableArray<(double At, double Weight)> Nodes = Points();

    /// <summary>Defocus at the rim of the pupil, in waves, of a blur disc: W = c / (8 N λ). Row DIF-12.</summary>
    /// <param name="blurDisc">Diameter on the sensor.</param>
    /// <param name="effective">Effective f-number.</param>
    /// <param name="wavelength">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The wavelength is zero.</exception>
    public static double WavesAtRim(Length blurDisc, FNumber effective, Length wavelength) =>
        blurDisc.Millimetres / (8 * effective.Ratio * Diffraction.Wave(wavelength));

    /// <summary>Both together, exact.</summary>
    /// <param name="x">Frequency as a share of the cut-off, not below zero.</param>
    /// <param name="wavesAtRim">Defocus in waves; its sign makes no difference. Times x (1 − x) it is at most 10 000.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static double Exact(double x, double wavesAtRim)
    {
        if (!(x >= 0))
            throw new ArgumentOutOfRangeException(nameof(x), x, "A frequency is not below zero.");
        double turns = 4 * Math.Abs(wavesAtRim) * x * (1 - Math.Min(1, x));
        if (!(turns <= MostPanels))
            throw new ArgumentOutOfRangeException(nameof(wavesAtRim), wavesAtRim, "A defocus is at most ten thousand waves.");
        if (x >= 1)
            return 0;
        // With y + x = cos θ the root and its endless slope at the end disappear: the integrand is sin² θ cos(rate (cos θ − x)).
        // One panel for about a turn of the cosine: its twenty points are exact to degree 39.
        double end = Math.Acos(x);
        double rate = 8 * Math.PI * wavesAtRim * x;
        int panels = 1 + (int)turns;
        double half = end / panels / 2;
        double sum = 0;
        for (int panel = 0; panel < panels; panel++)
        {
            double middle = (2 * panel + 1) * half;
            foreach ((double at, double weight) in Nodes)
            {
                (double sin, double cos) = Math.SinCos(middle + half * at);
                sum += weight * sin * sin * Math.Cos(rate * (cos - x));
            }
        }
        return 4 / Math.PI * half * sum;
    }

    /// <summary>Both together, exact, for a blur disc on the sensor.</summary>
    /// <param name="linePairsPerMillimetre">Frequency on the sensor, not below zero.</param>
    /// <param name="blurDisc">Diameter of the geometric blur on the sensor.</param>
    /// <param name="effective">Effective f-number.</param>
    /// <param name="wavelength">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static double Exact(double linePairsPerMillimetre, Length blurDisc, FNumber effective, Length wavelength) =>
        Exact(linePairsPerMillimetre * Diffraction.Wave(wavelength) * effective.Ratio, WavesAtRim(blurDisc, effective, wavelength));

    /// <summary>Blur alone, without diffraction: 2 J1(π c u) / (π c u). Row DIF-16.</summary>
    /// <param name="linePairsPerMillimetre">Frequency on the sensor, not below zero.</param>
    /// <param name="blurDisc">Diameter of the blur on the sensor.</param>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is below zero.</exception>
    public static double DiscAlone(double linePairsPerMillimetre, Length blurDisc)
    {
        if (!(linePairsPerMillimetre >= 0))
            throw new ArgumentOutOfRangeException(nameof(linePairsPerMillimetre), linePairsPerMillimetre, "A frequency is not below zero.");
        double z = Math.PI * linePairsPerMillimetre * blurDisc.Millimetres;
        return z < 1e-8 ? 1 : 2 * Bessel.J1(z) / z;
    }

    private static ImmutableArray<(double At, double Weight)> Points()
    {
        GaussLegendreRule rule = new(-1, 1, Order);
        return [.. Enumerable.Range(0, rule.Order).Select(i => (rule.GetAbscissa(i), rule.GetWeight(i)))];
    }
}
