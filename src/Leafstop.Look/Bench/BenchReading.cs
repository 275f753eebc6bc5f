using System.Text.Json;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>A bench test out of its JSON, so that whoever has the JSON alone can say, draw and work out all that it holds.</summary>
/// <remarks>Read member by member: what a serialiser needs to know of the document would be a good part of what a browser fetches.</remarks>
public static class BenchReading
{
    /// <summary>The answer that a document was written of. What JSON left out is as if it had not been known: an interval without ends is unbounded.</summary>
    /// <param name="document">As <see cref="BenchJson"/> writes it, the shape of docs/json/measure.md.</param>
    /// <param name="folder">The folder that was measured, put before the names of frames; empty leaves the names alone.</param>
    /// <exception cref="KeyNotFoundException">It is no such document.</exception>
    public static BenchAnswer Answer(JsonElement document, string folder = "") => new()
    {
        Camera = CameraOf(document.GetProperty("camera")),
        Ladder = Member<LadderKind>(document, "ladder"),
        Levels = [.. All(document, "levels").Select(l => LevelOf(l, folder))],
        GainSteps = [.. All(document, "gainStepDetails").Select(s => new GainStep(Iso.FromSpeed(Number(s, "belowIso")), Iso.FromSpeed(Number(s, "aboveIso")), Number(s, "ratio"), Number(s, "deltaChiSquared")))],
        StopAt = IsoOf(document, "stopAtIso"),
        LiftOrDial = [.. All(document, "liftOrDial").Select(p => new LiftOrDial(
            Iso.FromSpeed(Number(p, "shotIso")), Iso.FromSpeed(Number(p, "liftedToIso")), Number(p, "highlightStopsKept"),
            [.. All(p, "losses").Select(l => new LiftLoss(Number(l, "toneEv"), Number(l, "shareLost"), Number(l, "stopsLost")))]))],
        PredictedLimits = [.. All(document, "predictedLimits").Select(LimitOf)],
        Findings = [.. All(document, "findings").Select(f => new Finding(Member<FindingCode>(f, "code"), [.. Files(f, "frames", folder)], Text(f, "text")!, f.GetProperty("reshoot").GetBoolean()))],
    };

    private static CameraIdentity? CameraOf(JsonElement camera) => camera.ValueKind == JsonValueKind.Null ? null : new CameraIdentity
    {
        Make = Text(camera, "make")!,
        Model = Text(camera, "model")!,
        BodyFingerprint = Text(camera, "bodyFingerprint"),
        Width = camera.GetProperty("width").GetInt32(),
        Height = camera.GetProperty("height").GetInt32(),
        Mosaic = Text(camera, "mosaic")!,
        Bits = camera.GetProperty("bits").GetInt32(),
    };

    private static Level LevelOf(JsonElement level, string folder) => new()
    {
        Iso = Iso.FromSpeed(Number(level, "iso")),
        Ladder = Member<LadderKind>(level, "ladder"),
        Frames = [.. Files(level, "frames", folder)],
        CapFrames = [.. Files(level, "capFrames", folder)],
        ShutterSeconds = Known(level, "shutterSeconds"),
        FNumber = Known(level, "fNumber"),
        GainElectronsPerDn = Around(level, "gainElectronsPerDn", "gainInterval95"),
        ReadNoiseElectrons = Around(level, "readNoiseElectrons", "readNoiseInterval95"),
        ReadNoiseDn = Known(level, "readNoiseDn"),
        DarkNoiseElectrons = Added(level, "darkNoiseElectrons"),
        DarkNoiseDn = Added(level, "darkNoiseDn"),
        ReadNoiseSource = Text(level, "readNoiseSource") is null ? null : Member<ReadNoiseSource>(level, "readNoiseSource"),
        SaturationElectrons = Known(level, "saturationElectrons"),
        ClipSeen = level.GetProperty("clipSeen").GetBoolean(),
        LightErrorStops = Known(level, "lightErrorStops"),
        NeighbourCorrelation = Known(level, "neighbourCorrelation"),
        RowNoiseElectrons = Known(level, "rowNoiseElectrons"),
        ColumnNoiseElectrons = Known(level, "columnNoiseElectrons"),
        ClippedShare = Number(level, "clippedShare"),
        HotPixels = level.GetProperty("hotPixels").GetInt64(),
        HotPixelsSearched = level.GetProperty("hotPixelsSearched").GetInt64(),
        MeanSignalElectrons = Known(level, "meanSignalElectrons"),
        Planes = [.. All(level, "planes").Select(PlaneOf)],
        Curve = [.. All(level, "curve").Select(p => new TransferPoint(
            Text(p, "plane")!, Number(p, "signalDn"), Around(p, "noiseDn", "noiseInterval95") ?? Unknown, p.GetProperty("samples").GetInt64()))],
        Usable = level.GetProperty("usable").GetBoolean(),
        Flags = [.. All(level, "flags").Select(f => Enum.Parse<LevelFlag>(f.GetString()!, ignoreCase: true))],
        Reason = Text(level, "reason"),
    };

    private static PlaneModel PlaneOf(JsonElement plane) => new()
    {
        Plane = Text(plane, "plane")!,
        GainElectronsPerDn = Around(plane, "gainElectronsPerDn", "gainInterval95") ?? Unknown,
        ReadNoiseElectrons = Around(plane, "readNoiseElectrons", "readNoiseInterval95") ?? Unknown,
        BlackDn = Number(plane, "blackDn"),
        BlackSource = Member<BlackSource>(plane, "blackSource"),
        ClipDn = Number(plane, "clipDn"),
        ClipSeen = plane.GetProperty("clipSeen").GetBoolean(),
    };

    private static PredictedLimit LimitOf(JsonElement limit) => new()
    {
        Tone = Member<LimitTone>(limit, "tone"),
        CleanExact = IsoOf(limit, "clean"),
        StretchExact = IsoOf(limit, "stretch"),
        AcceptableExact = IsoOf(limit, "acceptable"),
        Body = Text(limit, "body")!,
        Print = new PrintCondition(Number(limit.GetProperty("print"), "widthMm"), Number(limit.GetProperty("print"), "viewingDistanceMm")),
        Treatment = Text(limit, "treatment")!,
    };

    private static readonly Estimate Unknown = new(double.NaN, double.NaN, double.NaN);

    private static Estimate? Around(JsonElement of, string value, string interval)
    {
        if (Known(of, value) is not { } v)
            return null;
        JsonElement ends = of.GetProperty(interval);
        return ends.ValueKind == JsonValueKind.Array
            ? new Estimate(v, ends[0].GetDouble(), ends[1].GetDouble())
            : new Estimate(v, double.NegativeInfinity, double.PositiveInfinity);
    }

    private static double? Known(JsonElement of, string name) => of.GetProperty(name) is { ValueKind: JsonValueKind.Number } number ? number.GetDouble() : null;

    /// <summary>A field that answers kept by an earlier version do not have.</summary>
    private static double? Added(JsonElement of, string name) => of.TryGetProperty(name, out JsonElement added) && added.ValueKind == JsonValueKind.Number ? added.GetDouble() : null;

    private static double Number(JsonElement of, string name) => Known(of, name) ?? double.NaN;

    private static string? Text(JsonElement of, string name) => of.GetProperty(name).GetString();

    private static Iso? IsoOf(JsonElement of, string name) => Known(of, name) is { } speed ? Iso.FromSpeed(speed) : null;

    private static JsonElement.ArrayEnumerator All(JsonElement of, string name) => of.GetProperty(name).EnumerateArray();

    private static IEnumerable<string> Files(JsonElement of, string name, string folder) =>
        All(of, name).Select(f => folder.Length == 0 ? f.GetString()! : Path.Combine(folder, f.GetString()!));

    private static T Member<T>(JsonElement of, string name) where T : struct, Enum => Enum.Parse<T>(Text(of, name)!, ignoreCase: true);
}
