using Leafstop.Core.Quantities;

namespace Leafstop.Core.Light;

/// <summary>Light that falls on level open ground under an average clear sky, by the height of the sun. Rival published forms are methods of their own.</summary>
/// <remarks>An instant may have half or double of any such mean: ±1 stop (L-07). Whether the height in <see cref="ByPolynomial"/> is meant with or without air is not settled in its
/// sources; it is taken without, which is worth 0.4 stop at the horizon and 0.05 stop at 5°. Haze, snow and the colour of dusk are in none of them.</remarks>
public static class ClearSky
{
    /// <summary>Starlight and airglow: what is left when the sun is far below, lx.</summary>
    public const double NightLux = 0.002;

    // From the sun's height (degrees) upwards: l0 to l3 of log10 E = l0 + l1 x + l2 x² + l3 x³, x = height / 90°.
    private static readonly (double Above, double L0, double L1, double L2, double L3)[] Pieces =
    [
        (20, 3.74, 3.97, -4.07, 1.47),
        (5, 3.05, 13.28, -45.98, 64.33),
        (-0.8, 2.88, 22.26, -207.64, 1034.30),
        (-5, 2.88, 21.81, -258.11, -858.36),
        (-12, 2.70, 12.17, -431.69, -1899.83),
        (-18, 13.84, 262.72, 1447.42, 2797.93),
    ];

    /// <summary>Sun and sky together, −90° to 90°.</summary>
    /// <param name="sunAltitude">Height of the sun's centre.</param>
    /// <remarks>Source: [C171] family, coefficients from [TOOL], docs/sources.md, row L-01. Fits its tables to 0.02 in log10; pieces join within 1 %, but at −18° it jumps from 0.00064 lx to the
    /// constant <see cref="NightLux"/>. See <see cref="WithNight"/>.</remarks>
    public static Illuminance ByPolynomial(Angle sunAltitude)
    {
        double h = sunAltitude.Degrees, x = h / 90;
        foreach ((double above, double l0, double l1, double l2, double l3) in Pieces)
        {
            if (h > above)
                return Illuminance.FromLux(Math.Pow(10, l0 + (x * (l1 + (x * (l2 + (x * l3)))))));
        }
        return Illuminance.FromLux(NightLux);
    }

    /// <summary><see cref="ByPolynomial"/>, never less than starlight: the light that the rest of this program uses.</summary>
    /// <param name="sunAltitude">Height of the sun's centre.</param>
    /// <remarks>Differs from the polynomial only between −15° and −18°, where that one falls under its own night.</remarks>
    public static Illuminance WithNight(Angle sunAltitude) => Illuminance.FromLux(Math.Max(NightLux, ByPolynomial(sunAltitude).Lux));

    /// <summary>Sun and sky together in closed form.</summary>
    /// <param name="apparentAltitude">Height of the sun's centre as seen, −10° to 90°; lower it runs to zero.</param>
    /// <param name="skyDivisor">1 clear, 2 thin cloud, 3 average cloud, 10 dark stratus (L-05).</param>
    /// <remarks>Source: [C171] via [SKY], row L-03. Within 20 % of the polynomial from −10° to 90° (L-04).</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The divisor is below 1.</exception>
    public static Illuminance ByClosedForm(Angle apparentAltitude, double skyDivisor = 1)
    {
        if (!(skyDivisor is >= 1 and <= 1000))
            throw new ArgumentOutOfRangeException(nameof(skyDivisor), skyDivisor, "A sky divisor is 1 (clear) or more.");
        const double X = 753.66156;
        double h = apparentAltitude.Degrees, u = Math.Sin(apparentAltitude.Radians);
        double s = Math.Asin(X * Math.Cos(apparentAltitude.Radians) / (X + 1));
        double m = (X * (Math.Cos(s) - u)) + Math.Cos(s);
        double light = (Math.Exp(-0.21 * m) * u) + (0.0289 * Math.Exp(-0.042 * m) * (1 + ((h + 90) * u / 57.29577951)));
        return Illuminance.FromLux(Math.Max(0, 133775 * light / skyDivisor));
    }

    /// <summary>The sky's part alone, sun above the horizon: 0.8 + 15.5 √sin h, klx.</summary>
    /// <param name="sunAltitude">Height of the sun's centre, 0° to 90°; below it gives its value at 0°.</param>
    /// <remarks>Source: IES RP-21 (1984), constants from memory, row L-06. Under 6° it alone exceeds the whole of the polynomial, so take the smaller.</remarks>
    public static Illuminance SkyPart(Angle sunAltitude) => Illuminance.FromLux(1000 * (0.8 + (15.5 * Math.Sqrt(Math.Max(0, Math.Sin(sunAltitude.Radians))))));

    /// <summary>The direct sun's part alone on level ground: 127.5 e^(−0.21/sin h) sin h, klx.</summary>
    /// <param name="sunAltitude">Height of the sun's centre; zero light at and below 0°.</param>
    /// <remarks>Source: IES RP-21 (1984), constants from memory, row L-06.</remarks>
    public static Illuminance SunPart(Angle sunAltitude)
    {
        double sine = Math.Sin(sunAltitude.Radians);
        return Illuminance.FromLux(sine <= 0 ? 0 : 127500 * Math.Exp(-0.21 / sine) * sine);
    }

    /// <summary>Light under a closed grey sky: 0.3 + 21 sin h, klx.</summary>
    /// <param name="sunAltitude">Height of the sun's centre, 0° to 90°.</param>
    /// <remarks>Source: IES RP-21 (1984), constants from memory, row L-06.</remarks>
    public static Illuminance OvercastSky(Angle sunAltitude) => Illuminance.FromLux(1000 * (0.3 + (21 * Math.Max(0, Math.Sin(sunAltitude.Radians)))));
}
