namespace Leafstop.Core.Sensor;

/// <summary>What a set of bench frames can answer.</summary>
public enum LadderKind
{
    /// <summary>No ladder: too few levels, or settings that follow no rule.</summary>
    None,

    /// <summary>Each ISO correctly exposed, light falling as ISO rises: answers how high one can go.</summary>
    Metered,

    /// <summary>Aperture and shutter fixed, only ISO moves: answers dial or lift.</summary>
    SameLight,

    /// <summary>Both kinds in one folder; each level says to which it belongs.</summary>
    Mixed,
}
