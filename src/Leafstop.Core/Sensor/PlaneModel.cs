namespace Leafstop.Core.Sensor;

/// <summary>The sensor model of one plane at one level.</summary>
public sealed record PlaneModel
{
    /// <summary>Plane name.</summary>
    public required string Plane { get; init; }

    /// <summary>Gain in e⁻/DN.</summary>
    public required Estimate GainElectronsPerDn { get; init; }

    /// <summary>Read noise in e⁻, quantisation included, row and column offsets not.</summary>
    public required Estimate ReadNoiseElectrons { get; init; }

    /// <summary>Black level used, DN.</summary>
    public required double BlackDn { get; init; }

    /// <summary>Where the black level comes from.</summary>
    public required BlackSource BlackSource { get; init; }

    /// <summary>Clip level in DN, black included.</summary>
    public required double ClipDn { get; init; }

    /// <summary>True when the clip level was seen in the samples, false when only the tag tells.</summary>
    public required bool ClipSeen { get; init; }
}
