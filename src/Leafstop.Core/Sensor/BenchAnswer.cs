using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Sensor;

/// <summary>The whole answer of a bench test.</summary>
public sealed record BenchAnswer
{
    /// <summary>The body; null when no frame could be read.</summary>
    public CameraIdentity? Camera { get; init; }

    /// <summary>Which ladder the folder holds.</summary>
    public required LadderKind Ladder { get; init; }

    /// <summary>All levels, metered ladder first, by ISO.</summary>
    public required ImmutableArray<Level> Levels { get; init; }

    /// <summary>Gain steps, lowest first.</summary>
    public ImmutableArray<GainStep> GainSteps { get; init; } = [];

    /// <summary>The ISO to stop at in the same light and lift the rest: the first above the last step that matters; null when there is none to name.</summary>
    public Iso? StopAt { get; init; }

    /// <summary>Lift or dial, for the pairs worth telling.</summary>
    public ImmutableArray<LiftOrDial> LiftOrDial { get; init; } = [];

    /// <summary>Limits worked out by the published criterion, by tone.</summary>
    public ImmutableArray<PredictedLimit> PredictedLimits { get; init; } = [];

    /// <summary>Everything noticed, most urgent first.</summary>
    public required ImmutableArray<Finding> Findings { get; init; }

    /// <summary>True when at least one level is usable: the input could answer.</summary>
    public bool HasAnswer => Levels.Any(l => l.Usable);
}
