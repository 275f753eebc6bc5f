namespace Leafstop.Core.Sensor;

/// <summary>One point of a photon-transfer curve: the temporal variance of all tiles whose local mean falls in one interval.</summary>
public sealed record SignalBin
{
    /// <summary>Samples in the bin, counted once for the pair.</summary>
    public required long Samples { get; init; }

    /// <summary>Degrees of freedom of <see cref="VarianceDn2"/>.</summary>
    public required long DegreesOfFreedom { get; init; }

    /// <summary>Mean of both frames in DN, black included.</summary>
    public required double MeanRawDn { get; init; }

    /// <summary>Variance of one frame in DN², row offsets and the pair's brightness ratio removed.</summary>
    public required double VarianceDn2 { get; init; }
}
