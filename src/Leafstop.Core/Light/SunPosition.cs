using Leafstop.Core.Quantities;
using NodaTime;

namespace Leafstop.Core.Light;

/// <summary>Where the centre of the sun stands over a place.</summary>
/// <remarks>
/// Source: [SPA], docs/sources.md. Altitude and azimuth are good to 0.005° over 1800 to 2100 and all latitudes, the difference UT1 − UTC included (S-25); promised is 0.01°.
/// Checked by S-01 to S-03, S-21 (three libraries) and by a fourth library at 1000 places and times.
/// </remarks>
public readonly record struct SunPosition
{
    /// <summary>Mean half-width of the sun. By convention 16′ (S-11).</summary>
    public static Angle SemiDiameter { get; } = Angle.FromArcminutes(16);

    /// <summary>Altitude of the sun's centre without air, from the true horizontal plane.</summary>
    public required Angle Altitude { get; init; }

    /// <summary>Bearing, 0° to 360° from true north through east. Means little within 0.1° of the zenith and at the poles.</summary>
    public required Angle Azimuth { get; init; }

    /// <summary>Altitude as seen through ordinary air (1010 mbar, 10 °C); below −0.8333° without air.</summary>
    public Angle ApparentAltitude => ApparentAltitudeIn(1010, 10);

    /// <summary>Altitude as seen through the air that there is.</summary>
    /// <param name="pressureMillibars">Pressure, mbar.</param>
    /// <param name="temperatureCelsius">Temperature, °C.</param>
    public Angle ApparentAltitudeIn(double pressureMillibars, double temperatureCelsius) =>
        Altitude + Refraction.BySpa(Altitude, pressureMillibars, temperatureCelsius);

    /// <summary>The sun over a place.</summary>
    /// <param name="when">The time, 1800 to 2100.</param>
    /// <param name="place">The place.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside 1800 to 2100.</exception>
    public static SunPosition At(Instant when, Place place) => At(when, place, TerrestrialTime.DeltaTSeconds(Reach.Checked(when)));

    /// <summary>The sun over a place, with a ΔT of your own.</summary>
    /// <param name="when">The time.</param>
    /// <param name="place">The place.</param>
    /// <param name="deltaTSeconds">TT − UT1, s.</param>
    public static SunPosition At(Instant when, Place place, double deltaTSeconds)
    {
        TopocentricSight.Sight seen = Sight(GeocentricSun.At(when, deltaTSeconds), place);
        return new SunPosition { Altitude = Angle.FromDegrees(seen.Altitude), Azimuth = Angle.FromDegrees(seen.Azimuth) };
    }

    internal static TopocentricSight.Sight Sight(GeocentricSun sun, Place place) => new TopocentricSight(place).Of(
        sun.SiderealTimeDegrees + place.Longitude.Degrees - sun.RightAscensionDegrees, sun.DeclinationDegrees, ParallaxRadians(sun.DistanceAu));

    /// <summary>Horizontal parallax: 8.794″ at 1 au.</summary>
    internal static double ParallaxRadians(double distanceAu) => 8.794 / (3600 * distanceAu) * (Math.PI / 180);
}
