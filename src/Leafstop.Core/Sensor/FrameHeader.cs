namespace Leafstop.Core.Sensor;

/// <summary>What a raw file says about its frame, read without unpacking the samples.</summary>
/// <remarks>Values are as the file states them: a missing or zero entry is null, never a made-up number.</remarks>
public sealed record FrameHeader
{
    /// <summary>The path by which the file was opened.</summary>
    public required string File { get; init; }

    /// <summary>Maker as stated; empty when the file has none.</summary>
    public required string Make { get; init; }

    /// <summary>Model as stated; empty when the file has none.</summary>
    public required string Model { get; init; }

    /// <summary>A short fingerprint of the body number, so that two bodies of one model are told apart; null when the file has none.</summary>
    public string? BodyFingerprint { get; init; }

    /// <summary>ISO as set, above 65 535 too; null when not stated.</summary>
    public double? Iso { get; init; }

    /// <summary>Exposure time in seconds; null when not stated or zero.</summary>
    public double? ShutterSeconds { get; init; }

    /// <summary>f-number; null when not stated (a lens without contacts) or zero.</summary>
    public double? FNumber { get; init; }

    /// <summary>Focal length in millimetres; null when not stated.</summary>
    public double? FocalMm { get; init; }

    /// <summary>Camera clock at the exposure, no zone; null when not stated.</summary>
    public DateTime? TakenAt { get; init; }

    /// <summary>Columns of the active area, in samples.</summary>
    public required int Width { get; init; }

    /// <summary>Rows of the active area, in samples.</summary>
    public required int Height { get; init; }

    /// <summary>The colour filter pattern at the top left of the active area.</summary>
    public required MosaicPattern Mosaic { get; init; }

    /// <summary>The largest value that the file says a sample can have, in DN; null when not stated.</summary>
    public double? WhiteTagDn { get; init; }

    /// <summary>True when the raw compression throws information away, so that its noise is not the sensor's.</summary>
    public bool IsLossy { get; init; }

    /// <summary>The name of the unpacking routine, for the record.</summary>
    public string Decoder { get; init; } = "";
}
