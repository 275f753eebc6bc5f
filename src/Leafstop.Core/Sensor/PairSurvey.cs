using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>The statistics of two frames with the same settings.</summary>
public sealed record PairSurvey
{
    /// <summary>File of the first frame.</summary>
    public required string First { get; init; }

    /// <summary>File of the second frame.</summary>
    public required string Second { get; init; }

    /// <summary>True when both are cap frames.</summary>
    public required bool IsCap { get; init; }

    /// <summary>True when the two frames do not show the same framing: no noise is taken from them, <see cref="Planes"/> is empty.</summary>
    public bool IsFalsePair { get; init; }

    /// <summary>Shift of the second frame against the first, sensor pixels, right positive; null for cap frames or when it cannot be told.</summary>
    public double? ShiftXPx { get; init; }

    /// <summary>Shift downwards, sensor pixels.</summary>
    public double? ShiftYPx { get; init; }

    /// <summary>Standard error of either shift, sensor pixels.</summary>
    public double? ShiftErrorPx { get; init; }

    /// <summary>Fine scene detail that both frames share, as a share of mean brightness squared; it falls when focus changes. Null for cap frames.</summary>
    public double? Detail { get; init; }

    /// <summary>Row and column offsets, correlation and noise curve, one entry a plane.</summary>
    public required ImmutableArray<PairPlane> Planes { get; init; }
}
