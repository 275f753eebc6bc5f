using System.Collections.Immutable;
using Leafstop.Core.Exposure;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Planning;

/// <summary>The answer to a scene.</summary>
public sealed record ExposurePlan
{
    /// <summary>What was asked.</summary>
    public required Scene Scene { get; init; }

    /// <summary>Gap, ISO, spare, verdict.</summary>
    public required GapAnswer Answer { get; init; }

    /// <summary>The ISO needed as the camera dials it, and by how much that rounds.</summary>
    public required DialledIso Iso { get; init; }

    /// <summary>The limits for the print and the tone that are asked; null when none are known, or when those that are do not lead there.</summary>
    public NoiseLimits? Limits { get; init; }

    /// <summary>Why the limits that are known say nothing of what is asked, and what to do; null when they do, or when none are known.</summary>
    public string? LimitRefusal { get; init; }

    /// <summary>The print the plan is for; null when none is known.</summary>
    public PrintCondition? Print { get; init; }

    /// <summary>Room of the foam; null when its place was not stated.</summary>
    public HighlightRoom? Foam { get; init; }

    /// <summary>What can be given up, in the fixed order.</summary>
    public required ImmutableArray<GiveUpRow> GiveUp { get; init; }

    /// <summary>The two-frame recipe; null unless both water and leaves are asked and the shutters they want differ.</summary>
    public TwoFrameRecipe? TwoFrames { get; init; }

    /// <summary>What to mind.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>The row of a kind; null when the table has none.</summary>
    public GiveUpRow? Row(GiveUpKind what) => GiveUp.FirstOrDefault(r => r.What == what);
}
