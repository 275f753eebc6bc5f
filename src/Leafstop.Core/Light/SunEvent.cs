using Leafstop.Core.Quantities;
using NodaTime;

namespace Leafstop.Core.Light;

/// <summary>What the sun does on a day, in the order of an ordinary one.</summary>
public enum SunEventKind
{
    /// <summary>Rises through −18°: the first trace of light.</summary>
    AstronomicalDawn,

    /// <summary>Rises through −12°.</summary>
    NauticalDawn,

    /// <summary>Rises through −6°: things can be told apart.</summary>
    CivilDawn,

    /// <summary>The upper limb comes over the horizon.</summary>
    Sunrise,

    /// <summary>The upper limb comes over the ridge: direct sun arrives.</summary>
    SunOverRidge,

    /// <summary>Crosses the meridian: due south or north.</summary>
    Transit,

    /// <summary>The upper limb goes behind the ridge: direct sun leaves.</summary>
    SunBehindRidge,

    /// <summary>The upper limb goes under the horizon.</summary>
    Sunset,

    /// <summary>Sets through −6°.</summary>
    CivilDusk,

    /// <summary>Sets through −12°.</summary>
    NauticalDusk,

    /// <summary>Sets through −18°: full night.</summary>
    AstronomicalDusk,
}

/// <summary>What became of an event on a local civil day.</summary>
public enum SunState
{
    /// <summary>It happens, at the time given.</summary>
    Happens,

    /// <summary>The sun stays above that height all day.</summary>
    AboveAllDay,

    /// <summary>The sun stays below that height all day.</summary>
    BelowAllDay,

    /// <summary>It does not fall into this day, though the sun passes that height on it (the other way), or passes the meridian just before or after.</summary>
    NotThisDay,
}

/// <summary>One event of a day.</summary>
/// <param name="Kind">Which.</param>
/// <param name="State">Whether it happens.</param>
/// <param name="Time">When; null when it does not happen.</param>
/// <param name="Altitude">Airless altitude of the sun's centre that the event is defined by; at transit the altitude reached, null when there is none.</param>
/// <param name="Azimuth">Bearing of the sun at the time; null when it does not happen.</param>
/// <param name="IsGrazing">True when the sun turns within 0.05° of that height: weather decides whether it happens, and when.</param>
public sealed record SunEvent(SunEventKind Kind, SunState State, Instant? Time, Angle? Altitude, Angle? Azimuth, bool IsGrazing);

/// <summary>One passing of the sun through a height.</summary>
/// <param name="Time">When.</param>
/// <param name="IsRising">True on the way up.</param>
public readonly record struct HeightCrossing(Instant Time, bool IsRising);

/// <summary>A turning point of the sun's height.</summary>
/// <param name="Time">When.</param>
/// <param name="Altitude">Airless altitude.</param>
public readonly record struct HeightExtreme(Instant Time, Angle Altitude);
