namespace Leafstop.Raw.Dng;

/// <summary>What the NoiseProfile tag of a written file says.</summary>
public enum NoiseProfileTag
{
    /// <summary>The tag is left out.</summary>
    None,

    /// <summary>The tag tells the true noise.</summary>
    True,

    /// <summary>The tag is wrong: a third of the shot noise and nine times the dark variance.</summary>
    Falsified,
}
