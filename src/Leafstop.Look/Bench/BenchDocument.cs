using System.Text.Json.Serialization;

namespace Leafstop.Look.Bench;

// Each member is described, with its unit, in docs/json/measure.md: the one place for those who read the JSON and for those who read this.
#pragma warning disable CS1591

/// <summary>The JSON of a bench test. Names are a contract: fields are added, never renamed. Described in docs/json/measure.md.</summary>
public sealed record BenchDocument
{
    public required VerdictDocument Verdict { get; init; }
    public required CameraDocument? Camera { get; init; }
    public required string Ladder { get; init; }
    public required IReadOnlyList<LevelDocument> Levels { get; init; }
    public required IReadOnlyList<double> GainSteps { get; init; }
    public required IReadOnlyList<GainStepDocument> GainStepDetails { get; init; }
    public required double? StopAtIso { get; init; }
    public required IReadOnlyList<LiftOrDialDocument> LiftOrDial { get; init; }
    public required IReadOnlyList<LimitDocument> PredictedLimits { get; init; }
    public required IReadOnlyList<FindingDocument> Findings { get; init; }
}

/// <summary>The verdict.</summary>
public sealed record VerdictDocument(bool HasAnswer, string Sentence, string Second, string? HowSure, IReadOnlyList<double> ReshootIso);

/// <summary>The body.</summary>
public sealed record CameraDocument(string Make, string Model, string? BodyFingerprint, int Width, int Height, string Mosaic, int Bits);

/// <summary>A level.</summary>
public sealed record LevelDocument
{
    public required double Iso { get; init; }
    public required string Ladder { get; init; }
    public required IReadOnlyList<string> Frames { get; init; }
    public required IReadOnlyList<string> CapFrames { get; init; }
    public required double? ShutterSeconds { get; init; }
    public required double? FNumber { get; init; }
    public required double? GainElectronsPerDn { get; init; }
    public required IReadOnlyList<double>? GainInterval95 { get; init; }
    public required double? ReadNoiseElectrons { get; init; }
    public required IReadOnlyList<double>? ReadNoiseInterval95 { get; init; }
    public required double? ReadNoiseDn { get; init; }
    public required double? DarkNoiseElectrons { get; init; }
    public required double? DarkNoiseDn { get; init; }
    public required string? ReadNoiseSource { get; init; }
    public required double? SaturationElectrons { get; init; }
    public required bool ClipSeen { get; init; }
    public required double? DynamicRangeStops { get; init; }
    public required double? SnrAtMinus3Ev { get; init; }
    public required double? BlackDn { get; init; }
    public required double? LightErrorStops { get; init; }
    public required double? NeighbourCorrelation { get; init; }
    public required double? RowNoiseElectrons { get; init; }
    public required double? ColumnNoiseElectrons { get; init; }
    public required double? ClippedShare { get; init; }
    public required long HotPixels { get; init; }
    public required long HotPixelsSearched { get; init; }
    public required double? MeanSignalElectrons { get; init; }
    public required IReadOnlyList<PlaneDocument> Planes { get; init; }
    public required IReadOnlyList<CurvePointDocument> Curve { get; init; }
    public required bool Usable { get; init; }
    public required IReadOnlyList<string> Flags { get; init; }
    public required string? Reason { get; init; }
}

/// <summary>A plane of a level.</summary>
public sealed record PlaneDocument(
    string Plane,
    double? GainElectronsPerDn,
    IReadOnlyList<double>? GainInterval95,
    double? ReadNoiseElectrons,
    IReadOnlyList<double>? ReadNoiseInterval95,
    double? BlackDn,
    string BlackSource,
    double? ClipDn,
    bool ClipSeen);

/// <summary>A point of the noise curve.</summary>
public sealed record CurvePointDocument(string Plane, double? SignalDn, double? NoiseDn, IReadOnlyList<double>? NoiseInterval95, long Samples);

/// <summary>A gain step.</summary>
public sealed record GainStepDocument(double BelowIso, double AboveIso, double? Ratio, double? DeltaChiSquared);

/// <summary>A pair of ISOs.</summary>
public sealed record LiftOrDialDocument(double ShotIso, double LiftedToIso, double? HighlightStopsKept, IReadOnlyList<LiftLossDocument> Losses, string How);

/// <summary>What a pair loses at a tone.</summary>
public sealed record LiftLossDocument(double ToneEv, double? ShareLost, double? StopsLost);

/// <summary>A print.</summary>
public sealed record PrintDocument(double WidthMm, double ViewingDistanceMm);

/// <summary>A predicted limit.</summary>
public sealed record LimitDocument(
    string Tone,
    double? Clean,
    double? Stretch,
    double? Acceptable,
    double? CleanDial,
    double? StretchDial,
    double? AcceptableDial,
    string Body,
    PrintDocument Print,
    string Treatment,
    string How,
    string StretchHow);

/// <summary>A finding.</summary>
public sealed record FindingDocument(string Code, IReadOnlyList<string> Frames, string Text, bool Reshoot);

/// <summary>Reading and writing made at build time: a trimmed page has no other.</summary>
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata, PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.Never, WriteIndented = true)]
[JsonSerializable(typeof(BenchDocument))]
internal sealed partial class BenchDocumentContext : JsonSerializerContext;
