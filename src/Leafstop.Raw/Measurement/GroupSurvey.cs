using System.Collections.Immutable;
using Leafstop.Core.Sensor;

namespace Leafstop.Raw.Measurement;

/// <summary>The statistics of all frames with the same settings: this, and no pixel, leaves the decoding process.</summary>
public sealed record GroupSurvey
{
    /// <summary>One entry a readable frame.</summary>
    public required ImmutableArray<FrameSurvey> Frames { get; init; }

    /// <summary>The pairs that were formed.</summary>
    public required ImmutableArray<PairSurvey> Pairs { get; init; }

    /// <summary>Files that could not be read, with the reason in plain words.</summary>
    public required ImmutableArray<UnreadFile> Unread { get; init; }
}

/// <summary>A file that gave no frame.</summary>
/// <param name="File">Path.</param>
/// <param name="Why">What is wrong, in a sentence.</param>
public sealed record UnreadFile(string File, string Why);
