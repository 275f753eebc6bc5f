using Leafstop.Core.Sensor;

namespace Leafstop.Storage.Measurings;

/// <summary>How a measuring stands.</summary>
public enum MeasuringState
{
    /// <summary>To be done, or being done.</summary>
    Open,

    /// <summary>Stopped by the person; can be gone on with.</summary>
    Stopped,

    /// <summary>Done: the answer is kept.</summary>
    Done,

    /// <summary>Ended without an answer, with the reason.</summary>
    Failed,
}

/// <summary>A folder that was asked to be measured.</summary>
/// <param name="Id">Stands for it in addresses; drawn at random.</param>
/// <param name="Folder">Full path of the raw files.</param>
/// <param name="Print">The print that limits are worked out for.</param>
/// <param name="BegunAt">When it was asked for, UTC, to the second.</param>
public sealed record KeptMeasuring(string Id, string Folder, PrintCondition Print, DateTimeOffset BegunAt)
{
    /// <summary>How it stands.</summary>
    public MeasuringState State { get; init; }

    /// <summary>When it came to its present end, UTC, to the second; null while it is open.</summary>
    public DateTimeOffset? EndedAt { get; init; }

    /// <summary>One sentence where it failed.</summary>
    public string? Why { get; init; }

    /// <summary>The camera in words, once known.</summary>
    public string? Camera { get; init; }

    /// <summary>The verdict, once done.</summary>
    public string? Verdict { get; init; }
}
