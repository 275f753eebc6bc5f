namespace Leafstop.Core.Sensor;

/// <summary>The body that was measured.</summary>
public sealed record CameraIdentity
{
    /// <summary>Maker as the files state it.</summary>
    public required string Make { get; init; }

    /// <summary>Model as the files state it.</summary>
    public required string Model { get; init; }

    /// <summary>Maker and model in one, "Invented Body A": how a pocket card carries them.</summary>
    public string FullModel => string.Join(' ', $"{Make} {Model}".Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    /// <summary>Short fingerprint of the body number; null when the files have none.</summary>
    public string? BodyFingerprint { get; init; }

    /// <summary>Active columns.</summary>
    public required int Width { get; init; }

    /// <summary>Active rows.</summary>
    public required int Height { get; init; }

    /// <summary>Mosaic, "2x2" or "6x6".</summary>
    public required string Mosaic { get; init; }

    /// <summary>Bits that the codes in use need, for instance 14.</summary>
    public required int Bits { get; init; }

    /// <summary>Body and raw setting in words, the first tag of a limit: "Maker Model, 14-bit raw, 8256 pixels across"; empty for a body that is not known, which has no pixels.</summary>
    public string ToWords() => Width == 0 ? "" : FormattableString.Invariant($"{Make} {Model}, {Bits}-bit raw, {Math.Max(Width, Height)} pixels across").Trim();
}
