using System.Text.Json;
using System.Text.Json.Serialization;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;
using Leafstop.Raw.Jpegs;
using Leafstop.Raw.Measurement;

namespace Leafstop.Raw.Decoding;

/// <summary>What a worker is asked for.</summary>
internal enum JobKind
{
    /// <summary>The header of each file, one reply a file.</summary>
    Headers,

    /// <summary>The statistics of all files together.</summary>
    Group,

    /// <summary>Small pictures of one level, from one or two files.</summary>
    Crops,

    /// <summary>Samples of a few places of one level, from one or two files.</summary>
    Cuts,

    /// <summary>What each JPEG says of itself, one reply a file.</summary>
    JpegFacts,

    /// <summary>Crops of the first JPEG that can be read, and a reply for each before it.</summary>
    JpegCrops,
}

/// <summary>One job, a line of JSON from parent to worker.</summary>
internal sealed record WorkerJob(JobKind Kind, IReadOnlyList<string> Files)
{
    /// <summary>True when the worker may have two files open at once.</summary>
    public bool Ahead { get; init; }

    /// <summary>What pictures are asked for; null for other jobs.</summary>
    public CropRequest? Crops { get; init; }

    /// <summary>What samples are asked for; null for other jobs.</summary>
    public CutRequest? Cuts { get; init; }

    /// <summary>What is to be cut out of JPEGs; null for other jobs.</summary>
    public JpegRequest? Jpegs { get; init; }
}

/// <summary>What a worker reports.</summary>
internal enum ReplyKind
{
    /// <summary>A file is about to be opened: whatever happens next is its doing.</summary>
    Opening,

    /// <summary>That file is read, or could not be.</summary>
    Opened,

    /// <summary>A header.</summary>
    Header,

    /// <summary>A file without a header, and why.</summary>
    Unread,

    /// <summary>The statistics of a group.</summary>
    Survey,

    /// <summary>The pictures of a level; nothing when its frames give none.</summary>
    Crops,

    /// <summary>Samples of a level; nothing when none of its frames could be read.</summary>
    Cuts,

    /// <summary>What one JPEG says or shows, or why it does not.</summary>
    Jpeg,

    /// <summary>The job is done.</summary>
    Done,

    /// <summary>The worker itself is at fault, or can not work on this machine.</summary>
    Failed,
}

/// <summary>One report, a line of JSON from worker to parent.</summary>
internal sealed record WorkerReply(ReplyKind Kind)
{
    public string? File { get; init; }

    public FrameHeader? Header { get; init; }

    public string? Why { get; init; }

    public GroupSurvey? Survey { get; init; }

    public CropAnswer? Crops { get; init; }

    public CutAnswer? Cuts { get; init; }

    public JpegReply? Jpeg { get; init; }
}

/// <summary>Serialisers made at build time: a worker starts quickly and nothing is looked up by reflection.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, UseStringEnumConverter = true,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
    Converters = [typeof(PackedFloats)])]
[JsonSerializable(typeof(WorkerJob))]
[JsonSerializable(typeof(WorkerReply))]
[JsonSerializable(typeof(FrameCut))]
[JsonSerializable(typeof(CropPosition[]))]
internal sealed partial class WorkerMessages : JsonSerializerContext
{
    // JSON escapes line feeds inside names, so a message is always one line.
    public static byte[] Line(WorkerJob job) => [.. JsonSerializer.SerializeToUtf8Bytes(job, Default.WorkerJob), (byte)'\n'];

    public static byte[] Line(WorkerReply reply) => [.. JsonSerializer.SerializeToUtf8Bytes(reply, Default.WorkerReply), (byte)'\n'];
}
