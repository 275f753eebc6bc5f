using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>How hard gusts blow and how far apart they come.</summary>
public static class Gusts
{
    /// <summary>Highest 2 s over the mean of 10 min on open ground in ordinary storms: 1.40 (W-08). Durst 1960 as quoted in J. Appl. Meteorol. Climatol. 48
    /// (2009) 534; others find 10 to 15 % more.</summary>
    public const double OpenGroundFactor = 1.40;

    /// <summary>Peak over mean from the intensity of turbulence: 1 + 2.5·I. Form after Harstveit 1996, 2.5 from memory (W-09).</summary>
    /// <param name="intensity">Standard deviation over mean, 0 to 2: about 0.16 in the open, 0.86 near the floor of an old stand (W-03).</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static double Factor(double intensity) => intensity is >= 0 and <= 2
        ? 1 + 2.5 * intensity
        : throw new ArgumentOutOfRangeException(nameof(intensity), intensity, "An intensity of turbulence is from 0 to 2.");

    /// <summary>Shortest and longest usual time between gusts over a wood: 6 to 10 canopy heights at the speed they travel (W-10).</summary>
    /// <param name="canopy">Height of the trees, 1 to 100 m.</param>
    /// <param name="travel">Speed at which gusts travel, at least 0.1 m/s: about that of the wind above the trees.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static (TimeSpan Shortest, TimeSpan Longest) Spacing(Length canopy, Speed travel)
    {
        if (!(canopy.Metres is >= 1 and <= 100))
            throw new ArgumentOutOfRangeException(nameof(canopy), canopy.Metres, "Trees are from 1 to 100 m high.");
        if (travel.MetresPerSecond < 0.1)
            throw new ArgumentOutOfRangeException(nameof(travel), travel.MetresPerSecond, "Gusts travel at 0.1 m/s or faster.");
        TimeSpan Heights(double count) => TimeSpan.FromSeconds(count * canopy.Metres / travel.MetresPerSecond);
        return (Heights(6), Heights(10));
    }
}
