using System.Collections.Immutable;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Judgements;
using Leafstop.Storage.Places;

namespace Leafstop.Cli.Telling.Pocket;

/// <summary>What goes into a pocket page.</summary>
internal sealed record PocketContent
{
    /// <summary>Tells this page from others that a browser keeps things for: the same for every page of this data folder with these cameras.</summary>
    public required string Page { get; init; }

    /// <summary>When, by the local clock.</summary>
    public required DateTimeOffset MadeAt { get; init; }

    /// <summary>The print that is asked; null for that of the limits.</summary>
    public PrintCondition? Print { get; init; }

    /// <summary>Cameras, by name.</summary>
    public required ImmutableArray<PocketCameraEntry> Cameras { get; init; }

    /// <summary>Focal lengths.</summary>
    public required ImmutableArray<Length> Lenses { get; init; }

    /// <summary>Streaks that are liked.</summary>
    public required ImmutableArray<Streak> Tastes { get; init; }

    /// <summary>Places; their whereabouts stay at home.</summary>
    public required ImmutableArray<KeptPlace> Places { get; init; }
}

/// <summary>A camera of a pocket page.</summary>
/// <param name="Name">As kept; empty for limits that were given without a camera.</param>
/// <param name="BaseIso">Exact.</param>
/// <param name="Format">Its frame; null when not known.</param>
/// <param name="Limits">The pair that speaks first, first.</param>
internal sealed record PocketCameraEntry(string Name, Iso BaseIso, FrameFormat? Format, ImmutableArray<PocketLimitsEntry> Limits);

/// <summary>A pair of limits of a pocket page.</summary>
/// <param name="Limits">The pair with its five tags.</param>
/// <param name="Judging">The judging behind it; null when it was not judged.</param>
/// <param name="Remark">Where the ladder ends before them; else empty.</param>
internal sealed record PocketLimitsEntry(NoiseLimits Limits, KeptJudging? Judging, string Remark)
{
    /// <summary>The highest ISO that was measured, where it stands for a limit that was not reached; null where both were.</summary>
    public Iso? MeasuredTo { get; init; }
}
