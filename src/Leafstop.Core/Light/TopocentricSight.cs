namespace Leafstop.Core.Light;

/// <summary>From a body's place as the Earth's centre sees it to where it stands over one spot of ground.</summary>
/// <remarks>Source: [SPA] 3.11 to 3.14 (parallax on the 1/298.257 spheroid). Airless. Near the zenith and at the poles the azimuth turns quickly or
/// means little; altitude stays exact there (S-26).</remarks>
internal readonly struct TopocentricSight
{
    private const double RadiansPerDegree = Math.PI / 180;
    private const double EarthRadiusMetres = 6378140;

    private readonly double _sinLatitude, _cosLatitude, _rhoSin, _rhoCos;

    /// <summary>Longitude, degrees.</summary>
    public double LongitudeDegrees { get; }

    public TopocentricSight(Place place)
    {
        (_sinLatitude, _cosLatitude) = Math.SinCos(place.Latitude.Radians);
        LongitudeDegrees = place.Longitude.Degrees;
        // At the poles the tangent is huge but finite, and atan takes it.
        double u = Math.Atan(0.99664719 * Math.Tan(place.Latitude.Radians));
        double height = place.ElevationMetres / EarthRadiusMetres;
        _rhoCos = Math.Cos(u) + (height * _cosLatitude);
        _rhoSin = (0.99664719 * Math.Sin(u)) + (height * _sinLatitude);
    }

    /// <summary>Where a body stands.</summary>
    /// <param name="hourAngleDegrees">Geocentric hour angle at the spot, west positive.</param>
    /// <param name="declinationDegrees">Geocentric declination.</param>
    /// <param name="parallaxRadians">Horizontal parallax: the Earth's radius over the body's distance.</param>
    public Sight Of(double hourAngleDegrees, double declinationDegrees, double parallaxRadians)
    {
        double sinParallax = Math.Sin(parallaxRadians);
        (double sinHour, double cosHour) = Math.SinCos(hourAngleDegrees * RadiansPerDegree);
        (double sinDeclination, double cosDeclination) = Math.SinCos(declinationDegrees * RadiansPerDegree);
        double shift = Math.Atan2(-_rhoCos * sinParallax * sinHour, cosDeclination - (_rhoCos * sinParallax * cosHour));
        double declination = Math.Atan2((sinDeclination - (_rhoSin * sinParallax)) * Math.Cos(shift), cosDeclination - (_rhoCos * sinParallax * cosHour));
        double hour = (hourAngleDegrees * RadiansPerDegree) - shift;
        (sinHour, cosHour) = Math.SinCos(hour);
        (sinDeclination, cosDeclination) = Math.SinCos(declination);
        double up = (_sinLatitude * sinDeclination) + (_cosLatitude * cosDeclination * cosHour);
        double south = (cosHour * _sinLatitude * cosDeclination) - (sinDeclination * _cosLatitude);
        double west = sinHour * cosDeclination;
        // The arc tangent keeps its digits at the zenith, where the arc sine loses half of them.
        double altitude = Math.Atan2(up, Math.Sqrt((south * south) + (west * west)));
        return new Sight(
            altitude / RadiansPerDegree,
            GeocentricSun.Wrap((Math.Atan2(west, south) / RadiansPerDegree) + 180),
            hour / RadiansPerDegree,
            declination / RadiansPerDegree,
            shift / RadiansPerDegree);
    }

    /// <summary>What is seen from the spot, degrees; the azimuth counts from north through east.</summary>
    internal readonly record struct Sight(double Altitude, double Azimuth, double HourAngle, double Declination, double AscensionShift);
}
