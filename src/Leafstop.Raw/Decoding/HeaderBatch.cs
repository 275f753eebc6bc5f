using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Measurement;

namespace Leafstop.Raw.Decoding;

/// <summary>What a batch of files says of itself.</summary>
public sealed record HeaderBatch
{
    /// <summary>Headers of the files that could be read, in the order in which the files were given.</summary>
    public required ImmutableArray<FrameHeader> Headers { get; init; }

    /// <summary>The others, in the same order, with the reason.</summary>
    public required ImmutableArray<UnreadFile> Unread { get; init; }
}
