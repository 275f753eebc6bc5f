namespace Leafstop.Core.Light;

/// <summary>The larger periodic terms of the moon's way as the Earth's centre sees it, mean equinox of date.</summary>
/// <remarks>Source: [MEEUS] chapter 47, tables 47.A and 47.B (a shortened ELP-2000), as read in a public copy; terms under 0.001° are left out, which costs about 0.005° at worst.</remarks>
internal static class MoonSeries
{
    // Multiples of elongation, sun's anomaly, moon's anomaly, argument of latitude; longitude in 1e-6 degrees (sine), distance in metres (cosine).
    private static readonly double[] LongitudeAndDistance =
    [
        0, 0, 1, 0, 6288774, -20905355, 2, 0, -1, 0, 1274027, -3699111, 2, 0, 0, 0, 658314, -2955968, 0, 0, 2, 0, 213618, -569925,
        0, 1, 0, 0, -185116, 48888, 0, 0, 0, 2, -114332, -3149, 2, 0, -2, 0, 58793, 246158, 2, -1, -1, 0, 57066, -152138,
        2, 0, 1, 0, 53322, -170733, 2, -1, 0, 0, 45758, -204586, 0, 1, -1, 0, -40923, -129620, 1, 0, 0, 0, -34720, 108743,
        0, 1, 1, 0, -30383, 104755, 2, 0, 0, -2, 15327, 10321, 0, 0, 1, 2, -12528, 0, 0, 0, 1, -2, 10980, 79661,
        4, 0, -1, 0, 10675, -34782, 0, 0, 3, 0, 10034, -23210, 4, 0, -2, 0, 8548, -21636, 2, 1, -1, 0, -7888, 24208,
        2, 1, 0, 0, -6766, 30824, 1, 0, -1, 0, -5163, -8379, 1, 1, 0, 0, 4987, -16675, 2, -1, 1, 0, 4036, -12831,
        2, 0, 2, 0, 3994, -10445, 4, 0, 0, 0, 3861, -11650, 2, 0, -3, 0, 3665, 14403, 0, 1, -2, 0, -2689, -7003,
        2, 0, -1, 2, -2602, 0, 2, -1, -2, 0, 2390, 10056, 1, 0, 1, 0, -2348, 6322, 2, -2, 0, 0, 2236, -9884,
        0, 1, 2, 0, -2120, 5751, 0, 2, 0, 0, -2069, 0, 2, -2, -1, 0, 2048, -4950, 2, 0, 1, -2, -1773, 4130,
        2, 0, 0, 2, -1595, 0, 4, -1, -1, 0, 1215, -3958, 0, 0, 2, 2, -1110, 0,
    ];

    // The same four multiples; latitude in 1e-6 degrees (sine).
    private static readonly double[] Latitude =
    [
        0, 0, 0, 1, 5128122, 0, 0, 1, 1, 280602, 0, 0, 1, -1, 277693, 2, 0, 0, -1, 173237, 2, 0, -1, 1, 55413, 2, 0, -1, -1, 46271,
        2, 0, 0, 1, 32573, 0, 0, 2, 1, 17198, 2, 0, 1, -1, 9266, 0, 0, 2, -1, 8822, 2, -1, 0, -1, 8216, 2, 0, -2, -1, 4324,
        2, 0, 1, 1, 4200, 2, 1, 0, -1, -3359, 2, -1, -1, 1, 2463, 2, -1, 0, 1, 2211, 2, -1, -1, -1, 2065, 0, 1, -1, -1, -1870,
        4, 0, -1, -1, 1828, 0, 1, 0, 1, -1794, 0, 0, 0, 3, -1749, 0, 1, -1, 1, -1565, 1, 0, 0, 1, -1491, 0, 1, 1, 1, -1475,
        0, 1, 1, -1, -1410, 0, 1, 0, -1, -1344, 1, 0, 0, -1, -1335, 0, 0, 3, 1, 1107, 4, 0, 0, -1, 1021,
    ];

    /// <summary>Longitude and latitude in degrees, distance in kilometres.</summary>
    /// <param name="centuries">Julian centuries of terrestrial time since J2000.0.</param>
    public static (double LongitudeDegrees, double LatitudeDegrees, double DistanceKilometres) At(double centuries)
    {
        double t = centuries;
        double mean = 218.3164477 + (t * (481267.88123421 - (t * 0.0015786)));
        double elongation = Radians(297.8501921 + (t * (445267.1114034 - (t * 0.0018819))));
        double sunAnomaly = Radians(357.5291092 + (t * (35999.0502909 - (t * 0.0001536))));
        double moonAnomaly = Radians(134.9633964 + (t * (477198.8675055 + (t * 0.0087414))));
        double node = Radians(93.2720950 + (t * (483202.0175233 - (t * 0.0036539))));
        // Terms with the sun's anomaly shrink with the Earth's eccentricity.
        double eccentricity = 1 - (t * (0.002516 + (t * 0.0000074)));
        double longitude = (3958 * Math.Sin(Radians(119.75 + (131.849 * t)))) + (1962 * Math.Sin(Radians(mean) - node)), distance = 0;
        for (int i = 0; i < LongitudeAndDistance.Length; i += 6)
        {
            ReadOnlySpan<double> term = LongitudeAndDistance.AsSpan(i, 6);
            double size = Math.Pow(eccentricity, Math.Abs(term[1]));
            (double sin, double cos) = Math.SinCos((term[0] * elongation) + (term[1] * sunAnomaly) + (term[2] * moonAnomaly) + (term[3] * node));
            longitude += size * term[4] * sin;
            distance += size * term[5] * cos;
        }
        double latitude = -2235 * Math.Sin(Radians(mean));
        for (int i = 0; i < Latitude.Length; i += 5)
        {
            ReadOnlySpan<double> term = Latitude.AsSpan(i, 5);
            latitude += Math.Pow(eccentricity, Math.Abs(term[1])) * term[4]
                * Math.Sin((term[0] * elongation) + (term[1] * sunAnomaly) + (term[2] * moonAnomaly) + (term[3] * node));
        }
        return (GeocentricSun.Wrap(mean + (longitude * 1e-6)), latitude * 1e-6, 385000.56 + (distance / 1000));
    }

    private static double Radians(double degrees) => degrees * (Math.PI / 180);
}
