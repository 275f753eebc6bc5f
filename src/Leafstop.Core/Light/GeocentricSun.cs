using NodaTime;

namespace Leafstop.Core.Light;

/// <summary>The sun as seen from the centre of the Earth, with the steps that lead there. Degrees unless said.</summary>
/// <remarks>
/// Source: [SPA] 3.1 to 3.9, docs/sources.md. Apparent place: nutation and aberration included. Error under 0.0003° over 1800 to 2100, plus 0.00001° for each second that
/// ΔT is off. Checked by S-02, S-03, S-09 and S-10.
/// </remarks>
public readonly record struct GeocentricSun
{
    private const double DegreesPerRadian = 180 / Math.PI;

    /// <summary>Julian day, UT.</summary>
    public required double JulianDay { get; init; }

    /// <summary>Heliocentric longitude of the Earth, 0 to 360.</summary>
    public required double EarthLongitudeDegrees { get; init; }

    /// <summary>Heliocentric latitude of the Earth.</summary>
    public required double EarthLatitudeDegrees { get; init; }

    /// <summary>Distance, au.</summary>
    public required double DistanceAu { get; init; }

    /// <summary>Nutation in longitude.</summary>
    public required double NutationLongitudeDegrees { get; init; }

    /// <summary>Nutation in obliquity.</summary>
    public required double NutationObliquityDegrees { get; init; }

    /// <summary>True obliquity of the ecliptic.</summary>
    public required double TiltDegrees { get; init; }

    /// <summary>Apparent longitude, 0 to 360.</summary>
    public required double LongitudeDegrees { get; init; }

    /// <summary>Apparent right ascension, 0 to 360.</summary>
    public required double RightAscensionDegrees { get; init; }

    /// <summary>Apparent declination.</summary>
    public required double DeclinationDegrees { get; init; }

    /// <summary>Mean longitude of the sun, 0 to 360.</summary>
    public required double MeanLongitudeDegrees { get; init; }

    /// <summary>Apparent sidereal time at Greenwich, 0 to 360.</summary>
    public double SiderealTimeDegrees => Wrap(MeanSiderealDegrees(JulianDay) + EquinoxDegrees);

    /// <summary>Equation of time, minutes: sundial minus clock.</summary>
    /// <remarks>[SPA] A.1.</remarks>
    public double EquationOfTimeMinutes
    {
        get
        {
            double degrees = MeanLongitudeDegrees - 0.0057183 - RightAscensionDegrees + EquinoxDegrees;
            return 4 * Math.IEEERemainder(degrees, 360);
        }
    }

    /// <summary>What nutation adds to sidereal time.</summary>
    internal double EquinoxDegrees => NutationLongitudeDegrees * Math.Cos(TiltDegrees / DegreesPerRadian);

    /// <summary>The sun at a time, with the ΔT of <see cref="TerrestrialTime"/>.</summary>
    /// <param name="when">The time, 1800 to 2100.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside 1800 to 2100.</exception>
    public static GeocentricSun At(Instant when) => At(Reach.Checked(when), TerrestrialTime.DeltaTSeconds(when));

    /// <summary>The sun at a time, with a ΔT of your own.</summary>
    /// <param name="when">The time.</param>
    /// <param name="deltaTSeconds">TT − UT1, s.</param>
    public static GeocentricSun At(Instant when, double deltaTSeconds) => At(TerrestrialTime.JulianDay(when), deltaTSeconds);

    internal static GeocentricSun At(double julianDay, double deltaTSeconds)
    {
        double centuries = (julianDay + (deltaTSeconds / 86400) - 2451545) / 36525;
        double millennia = centuries / 10;
        double earthLongitude = Wrap(EarthSeries.LongitudeRadians(millennia) * DegreesPerRadian);
        double earthLatitude = EarthSeries.LatitudeRadians(millennia) * DegreesPerRadian;
        double distance = EarthSeries.DistanceAu(millennia);
        Nutation nutation = Nutation.At(centuries);
        double aberration = -20.4898 / (3600 * distance);
        double longitude = Wrap(earthLongitude + 180 + nutation.LongitudeDegrees + aberration);
        (double sinTilt, double cosTilt) = Math.SinCos(nutation.TiltDegrees / DegreesPerRadian);
        (double sinLongitude, double cosLongitude) = Math.SinCos(longitude / DegreesPerRadian);
        (double sinLatitude, double cosLatitude) = Math.SinCos(-earthLatitude / DegreesPerRadian);
        double ascension = Math.Atan2((sinLongitude * cosTilt) - (sinLatitude / cosLatitude * sinTilt), cosLongitude);
        double declination = Math.Asin((sinLatitude * cosTilt) + (cosLatitude * sinTilt * sinLongitude));
        return new GeocentricSun
        {
            JulianDay = julianDay,
            EarthLongitudeDegrees = earthLongitude,
            EarthLatitudeDegrees = earthLatitude,
            DistanceAu = distance,
            NutationLongitudeDegrees = nutation.LongitudeDegrees,
            NutationObliquityDegrees = nutation.ObliquityDegrees,
            TiltDegrees = nutation.TiltDegrees,
            LongitudeDegrees = longitude,
            RightAscensionDegrees = Wrap(ascension * DegreesPerRadian),
            DeclinationDegrees = declination * DegreesPerRadian,
            MeanLongitudeDegrees = Wrap(280.4664567 + (millennia * (360007.6982779 + (millennia * (0.03032028
                + (millennia * ((1 / 49931.0) - (millennia * ((1 / 15300.0) + (millennia / 2000000)))))))))),
        };
    }

    /// <summary>Mean sidereal time at Greenwich, degrees, not reduced. [SPA] 3.8.1.</summary>
    internal static double MeanSiderealDegrees(double julianDay)
    {
        double t = (julianDay - 2451545) / 36525;
        return 280.46061837 + (360.98564736629 * (julianDay - 2451545)) + (t * t * (0.000387933 - (t / 38710000)));
    }

    /// <summary>The angle in 0 to 360.</summary>
    internal static double Wrap(double degrees)
    {
        double rest = degrees % 360;
        return rest < 0 ? rest + 360 : rest;
    }
}
