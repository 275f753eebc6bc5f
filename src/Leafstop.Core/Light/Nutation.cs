namespace Leafstop.Core.Light;

/// <summary>The nodding of the Earth's axis, and its tilt.</summary>
/// <param name="LongitudeDegrees">Nutation in longitude Δψ.</param>
/// <param name="ObliquityDegrees">Nutation in obliquity Δε.</param>
/// <param name="TiltDegrees">True obliquity of the ecliptic ε, nutation included.</param>
/// <remarks>Source: [SPA] 3.4, 3.5 and table A4.3 (the series of the IAU 1980 theory, 63 terms). Good to 0.0001° over 1800 to 2100.</remarks>
internal readonly record struct Nutation(double LongitudeDegrees, double ObliquityDegrees, double TiltDegrees)
{
    // Multiples of elongation of the moon, anomaly of the sun, anomaly of the moon, argument of latitude of the moon, node of the moon;
    // then sine of Δψ and its change a century, cosine of Δε and its change a century, in 0.0001 arc seconds.
    private static readonly double[] Terms =
    [
        0, 0, 0, 0, 1, -171996, -174.2, 92025, 8.9,
        -2, 0, 0, 2, 2, -13187, -1.6, 5736, -3.1,
        0, 0, 0, 2, 2, -2274, -0.2, 977, -0.5,
        0, 0, 0, 0, 2, 2062, 0.2, -895, 0.5,
        0, 1, 0, 0, 0, 1426, -3.4, 54, -0.1,
        0, 0, 1, 0, 0, 712, 0.1, -7, 0,
        -2, 1, 0, 2, 2, -517, 1.2, 224, -0.6,
        0, 0, 0, 2, 1, -386, -0.4, 200, 0,
        0, 0, 1, 2, 2, -301, 0, 129, -0.1,
        -2, -1, 0, 2, 2, 217, -0.5, -95, 0.3,
        -2, 0, 1, 0, 0, -158, 0, 0, 0,
        -2, 0, 0, 2, 1, 129, 0.1, -70, 0,
        0, 0, -1, 2, 2, 123, 0, -53, 0,
        2, 0, 0, 0, 0, 63, 0, 0, 0,
        0, 0, 1, 0, 1, 63, 0.1, -33, 0,
        2, 0, -1, 2, 2, -59, 0, 26, 0,
        0, 0, -1, 0, 1, -58, -0.1, 32, 0,
        0, 0, 1, 2, 1, -51, 0, 27, 0,
        -2, 0, 2, 0, 0, 48, 0, 0, 0,
        0, 0, -2, 2, 1, 46, 0, -24, 0,
        2, 0, 0, 2, 2, -38, 0, 16, 0,
        0, 0, 2, 2, 2, -31, 0, 13, 0,
        0, 0, 2, 0, 0, 29, 0, 0, 0,
        -2, 0, 1, 2, 2, 29, 0, -12, 0,
        0, 0, 0, 2, 0, 26, 0, 0, 0,
        -2, 0, 0, 2, 0, -22, 0, 0, 0,
        0, 0, -1, 2, 1, 21, 0, -10, 0,
        0, 2, 0, 0, 0, 17, -0.1, 0, 0,
        2, 0, -1, 0, 1, 16, 0, -8, 0,
        -2, 2, 0, 2, 2, -16, 0.1, 7, 0,
        0, 1, 0, 0, 1, -15, 0, 9, 0,
        -2, 0, 1, 0, 1, -13, 0, 7, 0,
        0, -1, 0, 0, 1, -12, 0, 6, 0,
        0, 0, 2, -2, 0, 11, 0, 0, 0,
        2, 0, -1, 2, 1, -10, 0, 5, 0,
        2, 0, 1, 2, 2, -8, 0, 3, 0,
        0, 1, 0, 2, 2, 7, 0, -3, 0,
        -2, 1, 1, 0, 0, -7, 0, 0, 0,
        0, -1, 0, 2, 2, -7, 0, 3, 0,
        2, 0, 0, 2, 1, -7, 0, 3, 0,
        2, 0, 1, 0, 0, 6, 0, 0, 0,
        -2, 0, 2, 2, 2, 6, 0, -3, 0,
        -2, 0, 1, 2, 1, 6, 0, -3, 0,
        2, 0, -2, 0, 1, -6, 0, 3, 0,
        2, 0, 0, 0, 1, -6, 0, 3, 0,
        0, -1, 1, 0, 0, 5, 0, 0, 0,
        -2, -1, 0, 2, 1, -5, 0, 3, 0,
        -2, 0, 0, 0, 1, -5, 0, 3, 0,
        0, 0, 2, 2, 1, -5, 0, 3, 0,
        -2, 0, 2, 0, 1, 4, 0, 0, 0,
        -2, 1, 0, 2, 1, 4, 0, 0, 0,
        0, 0, 1, -2, 0, 4, 0, 0, 0,
        -1, 0, 1, 0, 0, -4, 0, 0, 0,
        -2, 1, 0, 0, 0, -4, 0, 0, 0,
        1, 0, 0, 0, 0, -4, 0, 0, 0,
        0, 0, 1, 2, 0, 3, 0, 0, 0,
        0, 0, -2, 2, 2, -3, 0, 0, 0,
        -1, -1, 1, 0, 0, -3, 0, 0, 0,
        0, 1, 1, 0, 0, -3, 0, 0, 0,
        0, -1, 1, 2, 2, -3, 0, 0, 0,
        2, -1, -1, 2, 2, -3, 0, 0, 0,
        0, 0, 3, 2, 2, -3, 0, 0, 0,
        2, -1, 0, 2, 2, -3, 0, 0, 0,
    ];

    /// <summary>Nutation and tilt at a time.</summary>
    /// <param name="centuries">Julian centuries of terrestrial time since J2000.0.</param>
    public static Nutation At(double centuries)
    {
        double t = centuries;
        double elongation = Radians(297.85036 + (t * (445267.111480 + (t * (-0.0019142 + (t / 189474))))));
        double sunAnomaly = Radians(357.52772 + (t * (35999.050340 + (t * (-0.0001603 - (t / 300000))))));
        double moonAnomaly = Radians(134.96298 + (t * (477198.867398 + (t * (0.0086972 + (t / 56250))))));
        double latitude = Radians(93.27191 + (t * (483202.017538 + (t * (-0.0036825 + (t / 327270))))));
        double node = Radians(125.04452 + (t * (-1934.136261 + (t * (0.0020708 + (t / 450000))))));
        double psi = 0, epsilon = 0;
        for (int i = 0; i < Terms.Length; i += 9)
        {
            double angle = (Terms[i] * elongation) + (Terms[i + 1] * sunAnomaly) + (Terms[i + 2] * moonAnomaly)
                + (Terms[i + 3] * latitude) + (Terms[i + 4] * node);
            (double sin, double cos) = Math.SinCos(angle);
            psi += (Terms[i + 5] + (Terms[i + 6] * t)) * sin;
            epsilon += (Terms[i + 7] + (Terms[i + 8] * t)) * cos;
        }
        const double UnitsPerDegree = 36_000_000;
        double obliquity = epsilon / UnitsPerDegree;
        return new Nutation(psi / UnitsPerDegree, obliquity, (MeanTiltArcSeconds(t) / 3600) + obliquity);
    }

    // Mean obliquity as [SPA] prints it: a polynomial in units of ten thousand years.
    private static double MeanTiltArcSeconds(double centuries)
    {
        double u = centuries / 100;
        return 84381.448 + (u * (-4680.93 + (u * (-1.55 + (u * (1999.25 + (u * (-51.38 + (u * (-249.67 + (u * (-39.05
            + (u * (7.12 + (u * (27.87 + (u * (5.79 + (u * 2.45)))))))))))))))))));
    }

    private static double Radians(double degrees) => degrees * (Math.PI / 180);
}
