using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using Leafstop.Core.Sensor;

namespace Leafstop.Raw.Synthetic;

/// <summary>The truth of a written ladder, as JSON beside its folder.</summary>
public sealed record TruthFile
{
    private static readonly JsonSerializerOptions Format = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        WriteIndented = true,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    /// <summary>What this is, for whoever opens the file.</summary>
    public string About { get; init; } = "Made by a generator: Body A is invented, and these are the numbers its files were made from.";

    /// <summary>Maker and model as in the files.</summary>
    public string Body { get; init; } = $"{BodyA.Make} {BodyA.Model}";

    /// <summary>Body number as in the files.</summary>
    public string Serial { get; init; } = BodyA.Serial;

    /// <summary>Kind of ladder.</summary>
    public required LadderKind Ladder { get; init; }

    /// <summary>"2x2" or "6x6".</summary>
    public required string Mosaic { get; init; }

    /// <summary>Active columns.</summary>
    public required int Width { get; init; }

    /// <summary>Active rows.</summary>
    public required int Height { get; init; }

    /// <summary>Seed of the noise.</summary>
    public required ulong Seed { get; init; }

    /// <summary>Electrons of mid-grey in the green planes of a metered ISO 100 frame.</summary>
    public double MidGreyElectronsAtIso100 { get; init; } = BodyA.MidGreyShare * BodyA.FullWellElectrons;

    /// <summary>First ISO mark above the gain step.</summary>
    public double GainStepIso { get; init; } = BodyA.GainStepIso;

    /// <summary>What the WhiteLevel tag says, DN.</summary>
    public int WhiteTagDn { get; init; } = BodyA.WhiteTagDn;

    /// <summary>Standard deviation of the fixed sensitivity of the pixels, as a share.</summary>
    public required double PixelResponseSpread { get; init; }

    /// <summary>What the NoiseProfile tags say.</summary>
    public required string NoiseProfile { get; init; }

    /// <summary>Each level.</summary>
    public required ImmutableArray<LevelTruth> Levels { get; init; }

    /// <summary>Each frame in the order of exposure.</summary>
    public required ImmutableArray<FrameTruth> Frames { get; init; }

    /// <summary>The faults that were asked for.</summary>
    public required SampleFaults Faults { get; init; }

    /// <summary>The truth of a ladder.</summary>
    public static TruthFile Of(SyntheticBench bench) => new()
    {
        Ladder = bench.Options.Ladder,
        Mosaic = bench.Options.Mosaic.Name,
        Width = bench.Options.Width,
        Height = bench.Options.Height,
        Seed = bench.Options.Seed,
        PixelResponseSpread = bench.Options.PixelResponseSpread,
        NoiseProfile = JsonNamingPolicy.CamelCase.ConvertName(bench.Options.NoiseProfile.ToString()),
        Levels = [.. bench.Levels],
        Frames = [.. bench.Frames.Select(f => new FrameTruth(f.FileName, f.Role, f.Iso, f.ShutterSeconds, f.LightScale, f.ShiftXPx, f.ShiftYPx))],
        Faults = bench.Options.Faults,
    };

    /// <summary>The JSON text.</summary>
    public string ToJson() => JsonSerializer.Serialize(this, Format);
}

/// <summary>What is true of one frame.</summary>
/// <param name="File">File name without folder.</param>
/// <param name="Role">Scene or cap.</param>
/// <param name="Iso">ISO as dialled.</param>
/// <param name="ShutterSeconds">Exposure time really used, seconds.</param>
/// <param name="LightScale">Electrons over those of the metered ISO 100 frame.</param>
/// <param name="ShiftXPx">Shift to the right against the first frame, sensor pixels.</param>
/// <param name="ShiftYPx">Shift downwards, sensor pixels.</param>
public sealed record FrameTruth(string File, FrameRole Role, double Iso, double ShutterSeconds, double LightScale, double ShiftXPx, double ShiftYPx);
