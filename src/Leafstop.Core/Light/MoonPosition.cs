using System.Collections.Immutable;
using Leafstop.Core.Quantities;
using NodaTime;

namespace Leafstop.Core.Light;

/// <summary>Where the moon stands over a place, and how much of it is lit. Moonlight is not in the light model.</summary>
/// <remarks>Source: [MEEUS] chapters 47 and 48, docs/sources.md; parallax as for the sun. Within 0.02° of two libraries (S-29 asks 0.05°), the lit share within 0.003 (asked 0.005).</remarks>
public readonly record struct MoonPosition
{
    private const double DegreesPerRadian = 180 / Math.PI;
    private const double EarthRadiusKilometres = 6378.14;
    private const double KilometresPerAu = 149597870.7;

    private static readonly Duration SearchStep = Duration.FromMinutes(10);

    /// <summary>Altitude of the moon's centre without air.</summary>
    public required Angle Altitude { get; init; }

    /// <summary>Bearing from true north through east.</summary>
    public required Angle Azimuth { get; init; }

    /// <summary>Lit share of the disc, 0 new to 1 full.</summary>
    public required double LitShare { get; init; }

    /// <summary>Height at which the upper limb comes over a level horizon: 34′ of refraction and 15.5′ of half-width. By convention, from memory.</summary>
    public static Angle RiseAltitude { get; } = Angle.FromArcminutes(-49.5);

    /// <summary>The moon over a place.</summary>
    /// <param name="when">The time, 1800 to 2100.</param>
    /// <param name="place">The place.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside 1800 to 2100.</exception>
    public static MoonPosition At(Instant when, Place place)
    {
        GeocentricSun sun = GeocentricSun.At(when);
        double centuries = (sun.JulianDay + (TerrestrialTime.DeltaTSeconds(when) / 86400) - 2451545) / 36525;
        (double mean, double latitude, double distance) = MoonSeries.At(centuries);
        double longitude = mean + sun.NutationLongitudeDegrees;
        (double sinTilt, double cosTilt) = Math.SinCos(sun.TiltDegrees / DegreesPerRadian);
        (double sinLongitude, double cosLongitude) = Math.SinCos(longitude / DegreesPerRadian);
        (double sinLatitude, double cosLatitude) = Math.SinCos(latitude / DegreesPerRadian);
        double ascension = Math.Atan2((sinLongitude * cosTilt) - (sinLatitude / cosLatitude * sinTilt), cosLongitude) * DegreesPerRadian;
        double declination = Math.Asin((sinLatitude * cosTilt) + (cosLatitude * sinTilt * sinLongitude)) * DegreesPerRadian;
        TopocentricSight.Sight seen = new TopocentricSight(place).Of(
            sun.SiderealTimeDegrees + place.Longitude.Degrees - ascension, declination, Math.Asin(EarthRadiusKilometres / distance));
        return new MoonPosition
        {
            Altitude = Angle.FromDegrees(seen.Altitude),
            Azimuth = Angle.FromDegrees(seen.Azimuth),
            LitShare = Lit(cosLatitude * Math.Cos((longitude - sun.LongitudeDegrees) / DegreesPerRadian), sun.DistanceAu * KilometresPerAu, distance),
        };
    }

    /// <summary>When the moon's upper limb passes a level horizon, in time. A passing up and down within ten minutes can be missed.</summary>
    /// <param name="start">Start of the span.</param>
    /// <param name="end">End of the span.</param>
    /// <param name="place">The place.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside 1800 to 2100.</exception>
    public static ImmutableArray<HeightCrossing> RiseAndSet(Instant start, Instant end, Place place)
    {
        ImmutableArray<HeightCrossing>.Builder found = ImmutableArray.CreateBuilder<HeightCrossing>();
        bool wasUp = IsUp(start, place);
        for (Instant before = start; before < end;)
        {
            Instant after = Instant.Min(before + SearchStep, end);
            bool isUp = IsUp(after, place);
            if (isUp != wasUp)
            {
                (Instant low, Instant high) = (before, after);
                while (high - low > Duration.FromSeconds(1))
                {
                    Instant middle = low + ((high - low) / 2);
                    (low, high) = IsUp(middle, place) == isUp ? (low, middle) : (middle, high);
                }
                found.Add(new HeightCrossing(low + ((high - low) / 2), isUp));
            }
            (before, wasUp) = (after, isUp);
        }
        return found.ToImmutable();
    }

    private static bool IsUp(Instant when, Place place) => At(when, place).Altitude >= RiseAltitude;

    // [MEEUS] 48.2 and 48.3: from the angle between sun and moon to the angle at the moon.
    private static double Lit(double cosElongation, double sunKilometres, double moonKilometres)
    {
        double sinElongation = Math.Sqrt(Math.Max(0, 1 - (cosElongation * cosElongation)));
        double phase = Math.Atan2(sunKilometres * sinElongation, moonKilometres - (sunKilometres * cosElongation));
        return (1 + Math.Cos(phase)) / 2;
    }
}
