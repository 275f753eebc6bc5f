using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>The statistics of one frame.</summary>
public sealed record FrameSurvey
{
    /// <summary>What the file says.</summary>
    public required FrameHeader Header { get; init; }

    /// <summary>One entry a plane, in the order of <see cref="MosaicPattern.PlaneNames"/>.</summary>
    public required ImmutableArray<PlaneSurvey> Planes { get; init; }

    /// <summary>Coarse brightness map.</summary>
    public required LevelMap Map { get; init; }

    /// <summary>True when the frame holds no light: a cap frame.</summary>
    public required bool IsCap { get; init; }

    /// <summary>Pixels that stand far above their neighbourhood in the dark parts.</summary>
    public long HotPixels { get; init; }

    /// <summary>Samples that were searched for hot pixels.</summary>
    public long HotPixelsSearched { get; init; }

    /// <summary>Damage that the decoder reported while it went on (0 = none).</summary>
    public int DataErrors { get; init; }

    /// <summary>A digest of all samples: two files with equal digests hold the same picture.</summary>
    public required ulong SampleDigest { get; init; }

    /// <summary>A noise curve from this frame alone, when it has no partner; null when it was paired.</summary>
    public ImmutableArray<PairPlane>? SingleFrameCurves { get; init; }
}
