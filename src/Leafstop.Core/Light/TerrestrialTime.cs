using NodaTime;

namespace Leafstop.Core.Light;

/// <summary>ΔT: by how much the even time of the heavens runs ahead of the turning Earth.</summary>
/// <remarks>
/// Source: Espenak and Meeus, Five Millennium Canon of Solar Eclipses (2006), polynomials for ΔT; coefficients from memory, checked by S-01 to S-09 and by
/// sun-crosscheck.csv. Range 1800 to 2150. Up to 2005 good to 1 s; by 2026 about 6 s too large, by 2100 unknown to about a minute. The sun moves 0.00001° a second,
/// so this costs under 0.001°. UT1 is taken equal to UTC (S-25: at most 0.9 s, 0.0038° of hour angle).
/// </remarks>
public static class TerrestrialTime
{
    /// <summary>ΔT = TT − UT1, in seconds.</summary>
    /// <param name="when">The time; the promise holds for 1800 to 2100.</param>
    public static double DeltaTSeconds(Instant when)
    {
        // The polynomials are in years; a mean year counted from 2000-01-01 is near enough (ΔT changes by a second a year).
        double year = 2000 + ((JulianDay(when) - 2451544.5) / 365.2425);
        return year switch
        {
            < 1860 => Polynomial(year - 1800, 13.72, -0.332447, 0.0068612, 0.0041116, -0.00037436, 0.0000121272, -0.0000001699, 0.000000000875),
            < 1900 => Polynomial(year - 1860, 7.62, 0.5737, -0.251754, 0.01680668, -0.0004473624, 1 / 233174.0),
            < 1920 => Polynomial(year - 1900, -2.79, 1.494119, -0.0598939, 0.0061966, -0.000197),
            < 1941 => Polynomial(year - 1920, 21.20, 0.84493, -0.076100, 0.0020936),
            < 1961 => Polynomial(year - 1950, 29.07, 0.407, -1 / 233.0, 1 / 2547.0),
            < 1986 => Polynomial(year - 1975, 45.45, 1.067, -1 / 260.0, -1 / 718.0),
            < 2005 => Polynomial(year - 2000, 63.86, 0.3345, -0.060374, 0.0017275, 0.000651814, 0.00002373599),
            < 2050 => Polynomial(year - 2000, 62.92, 0.32217, 0.005589),
            _ => Polynomial((year - 1820) / 100, -20, 0, 32) - (0.5628 * (2150 - year)),
        };
    }

    /// <summary>The Julian day of a time, in days of UT.</summary>
    internal static double JulianDay(Instant when) => 2440587.5 + (when.ToUnixTimeTicks() / (double)NodaConstants.TicksPerDay);

    private static double Polynomial(double t, params ReadOnlySpan<double> coefficients)
    {
        double total = 0;
        for (int i = coefficients.Length - 1; i >= 0; i--)
            total = (total * t) + coefficients[i];
        return total;
    }
}
