namespace Leafstop.Core.Sensor;

/// <summary>What one frame's samples of one plane say by themselves.</summary>
public sealed record PlaneSurvey
{
    /// <summary>Plane name, see <see cref="MosaicPattern.PlaneNames"/>.</summary>
    public required string Plane { get; init; }

    /// <summary>Samples in the active area.</summary>
    public required long Samples { get; init; }

    /// <summary>Mean of all samples in DN, black included.</summary>
    public required double MeanRawDn { get; init; }

    /// <summary>The best black level that this file alone gives, in DN.</summary>
    public required double BlackDn { get; init; }

    /// <summary>Where <see cref="BlackDn"/> comes from.</summary>
    public required BlackSource BlackSource { get; init; }

    /// <summary>Standard error of <see cref="BlackDn"/> in DN; null when the source states none.</summary>
    public double? BlackErrorDn { get; init; }

    /// <summary>Samples in the masked border of this plane (0 = no border).</summary>
    public long MaskedSamples { get; init; }

    /// <summary>Standard deviation in the masked border, in DN; null without one.</summary>
    public double? MaskedSdDn { get; init; }

    /// <summary>Smallest sample, DN.</summary>
    public required int MinDn { get; init; }

    /// <summary>Largest sample, DN.</summary>
    public required int MaxDn { get; init; }

    /// <summary>The code at which samples pile up at the top; null when no pile is seen.</summary>
    public int? ClipDn { get; init; }

    /// <summary>Samples at or above <see cref="ClipDn"/>; 0 when none is seen.</summary>
    public long ClippedSamples { get; init; }

    /// <summary>Samples at the code where they pile up at the bottom (0 when no pile is seen).</summary>
    public long FloorSamples { get; init; }

    /// <summary>The largest step of 1, 2, 4, 8 or 16 that all codes in use are multiples of, an offset apart (1 = every code is used).</summary>
    public int CodeStep { get; init; } = 1;

    /// <summary>Codes that were well enough filled to ask whether a neighbour is missing.</summary>
    public long GapCandidates { get; init; }

    /// <summary>Of those, codes that are empty between two well filled ones.</summary>
    public long Gaps { get; init; }
}
