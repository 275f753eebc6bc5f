using Leafstop.Core.Quantities;

namespace Leafstop.Core.Light;

/// <summary>By how much the air lifts the sun. Three forms that are in use, by their sources.</summary>
/// <remarks>They agree within 0.002° above 5° and within 0.01° at the horizon for ordinary air. Below the horizon, and over cold water or warm sand, the real lift can differ by
/// tenths of a degree: that is weather, not formula.</remarks>
public static class Refraction
{
    private const double RadiansPerDegree = Math.PI / 180;

    /// <summary>The lift by the piecewise form of the US government's solar calculator.</summary>
    /// <param name="airless">Altitude without air.</param>
    /// <remarks>Source: [NOAA], docs/sources.md, row S-14. Fixed ordinary air; no range limit, 0 at the zenith.</remarks>
    public static Angle ByNoaa(Angle airless)
    {
        double h = airless.Degrees;
        double t = Math.Tan(airless.Radians);
        double arcSeconds = h switch
        {
            > 85 => 0,
            >= 5 => (58.1 / t) - (0.07 / Math.Pow(t, 3)) + (0.000086 / Math.Pow(t, 5)),
            >= -0.575 => 1735 + (h * (-518.2 + (h * (103.4 + (h * (-12.79 + (h * 0.711))))))),
            _ => -20.774 / t,
        };
        return Angle.FromDegrees(arcSeconds / 3600);
    }

    /// <summary>The lift by the form of the solar position algorithm, for the air that there is.</summary>
    /// <param name="airless">Altitude without air.</param>
    /// <param name="pressureMillibars">Pressure at the place, above 0, mbar.</param>
    /// <param name="temperatureCelsius">Temperature, above −273, °C.</param>
    /// <remarks>Source: [SPA] 3.14.2, row S-15. Only meant while the sun's upper limb can be seen; below −0.8333° it returns zero.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">Pressure or temperature not in range.</exception>
    public static Angle BySpa(Angle airless, double pressureMillibars = 1010, double temperatureCelsius = 10)
    {
        if (!(pressureMillibars is >= 0 and <= 1200))
            throw new ArgumentOutOfRangeException(nameof(pressureMillibars), pressureMillibars, "A pressure is from 0 to 1200 mbar.");
        if (!(temperatureCelsius is > -100 and < 100))
            throw new ArgumentOutOfRangeException(nameof(temperatureCelsius), temperatureCelsius, "A temperature of the air is between -100 and 100 °C.");
        double e = airless.Degrees;
        if (e < -50 / 60.0)
            return Angle.FromDegrees(0);
        double arcMinutes = 1.02 / Math.Tan((e + (10.3 / (e + 5.11))) * RadiansPerDegree);
        return Angle.FromArcminutes(pressureMillibars / 1010 * (283 / (273 + temperatureCelsius)) * arcMinutes);
    }

    /// <summary>The lift from the altitude that is seen.</summary>
    /// <param name="apparent">Altitude as seen, −2° to 90°.</param>
    /// <remarks>Source: Bennett 1982, form from memory, row S-16; 0.1′ as physics.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">Below −2° or above 90°.</exception>
    public static Angle FromApparent(Angle apparent)
    {
        double h = apparent.Degrees;
        if (!(h is >= -2 and <= 90.000001))
            throw new ArgumentOutOfRangeException(nameof(apparent), h, "An apparent altitude is from -2 to 90 degrees here.");
        return Angle.FromArcminutes(1 / Math.Tan((h + (7.31 / (h + 4.4))) * RadiansPerDegree));
    }
}
