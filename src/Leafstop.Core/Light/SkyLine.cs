using Leafstop.Core.Quantities;

namespace Leafstop.Core.Light;

/// <summary>What the sun comes out from behind: the level horizon, the sea seen from a height, a ridge. Heights at which an event counts.</summary>
public sealed record SkyLine
{
    private const double HighestEyeMetres = 9000;

    private SkyLine(double eyeHeightMetres, Angle? ridge) => (EyeHeightMetres, Ridge) = (eyeHeightMetres, ridge);

    /// <summary>The level horizon, without a ridge.</summary>
    public static SkyLine Level { get; } = new(0, null);

    /// <summary>Centre of the sun, airless, at sunrise and sunset: 34′ of refraction and 16′ of half-width below the horizon. By convention (S-11, [NOAA]).</summary>
    public static Angle RiseAltitude { get; } = Angle.FromArcminutes(-50);

    /// <summary>Civil twilight, by convention (S-13).</summary>
    public static Angle CivilAltitude { get; } = Angle.FromDegrees(-6);

    /// <summary>Nautical twilight, by convention (S-13).</summary>
    public static Angle NauticalAltitude { get; } = Angle.FromDegrees(-12);

    /// <summary>Astronomical twilight, by convention (S-13).</summary>
    public static Angle AstronomicalAltitude { get; } = Angle.FromDegrees(-18);

    /// <summary>Height of the eye over the sea that forms the horizon, m.</summary>
    public double EyeHeightMetres { get; }

    /// <summary>Height of the ridge as it is seen, all round; null when there is none.</summary>
    public Angle? Ridge { get; }

    /// <summary>The same, seen from so many metres over the sea: rise and set are taken at the lowered horizon.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not 0 to 9000; the message is for the person.</exception>
    public SkyLine FromEyeHeight(double metres) => metres is >= 0 and <= HighestEyeMetres
        ? new SkyLine(metres, Ridge)
        : throw new ArgumentOutOfRangeException(nameof(metres), metres, "The height of the eye over the sea is from 0 to 9000 metres.");

    /// <summary>The same with a ridge as high as it is seen, all round.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not 0° to below 90°; the message is for the person.</exception>
    public SkyLine WithRidge(Angle apparent) => apparent.Degrees is >= 0 and < 90
        ? new SkyLine(EyeHeightMetres, apparent)
        : throw new ArgumentOutOfRangeException(nameof(apparent), apparent.Degrees, "The height of a ridge is from 0 to under 90 degrees.");

    /// <summary>How far the sea's horizon lies under the level: 1.76′ √H, H in metres.</summary>
    /// <remarks>Form of the nautical almanac, from memory, row S-17; ordinary refraction in it. Range 0 to 9000 m.</remarks>
    public Angle Dip => Angle.FromArcminutes(1.76 * Math.Sqrt(EyeHeightMetres));

    /// <summary>Airless altitude of the sun's centre at which its upper limb comes over the horizon.</summary>
    public Angle SunriseAltitude => RiseAltitude - Dip;

    /// <summary>Airless altitude of the sun's centre at which its upper limb comes over the ridge: h0 − R(h0) − 0.2667°; null without a ridge.</summary>
    /// <remarks>Row S-18, refraction S-16. 0.02° at ordinary air.</remarks>
    public Angle? RidgeSunAltitude => Ridge is { } ridge ? ridge - Refraction.FromApparent(ridge) - SunPosition.SemiDiameter : null;

    /// <summary>How much of the sun's disc stands clear, 0 to 1.</summary>
    /// <param name="sunAltitude">Airless altitude of the sun's centre.</param>
    /// <remarks>The area of a circle over a straight edge, for an evenly bright disc. With a ridge the ridge is the edge, else the horizon.</remarks>
    public double ShareOfDisc(Angle sunAltitude)
    {
        double edge = (RidgeSunAltitude ?? SunriseAltitude).Degrees;
        // Half-widths of the sun that stand clear, from −1 (just hidden) to 1 (just free).
        double clear = ((sunAltitude.Degrees - edge) / SunPosition.SemiDiameter.Degrees) - 1;
        return clear switch
        {
            <= -1 => 0,
            >= 1 => 1,
            _ => 0.5 + ((Math.Asin(clear) + (clear * Math.Sqrt(1 - (clear * clear)))) / Math.PI),
        };
    }
}
