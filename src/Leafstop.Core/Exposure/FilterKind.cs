namespace Leafstop.Core.Exposure;

/// <summary>What a filter is for, as far as planning cares.</summary>
public enum FilterKind
{
    /// <summary>A polariser: what it takes out cannot be taken out at home.</summary>
    Polariser,

    /// <summary>Neutral density: it takes light and nothing else.</summary>
    NeutralDensity,

    /// <summary>Any other filter whose loss of light is known.</summary>
    Other,
}
