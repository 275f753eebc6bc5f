using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Unicode;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>Writes a bench test as JSON, the shape of docs/json/measure.md.</summary>
/// <remarks>Every field is always there. What is not known is null; a number is finite or null.</remarks>
public static class BenchJson
{
    // Accents stay readable in a terminal; <, > and & are still escaped, so the text may be pasted into a page.
    private static readonly BenchDocumentContext Context =
        new(new JsonSerializerOptions(BenchDocumentContext.Default.Options) { Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) });

    private static readonly BenchDocumentContext CompactContext =
        new(new JsonSerializerOptions(BenchDocumentContext.Default.Options) { WriteIndented = false });

    /// <summary>The answer as indented JSON, without a final line break.</summary>
    /// <param name="answer">The answer.</param>
    public static string Of(BenchAnswer answer) => JsonSerializer.Serialize(Document(answer), Context.BenchDocument);

    /// <summary>The answer as JSON on one line, for keeping and for sending.</summary>
    /// <param name="answer">The answer.</param>
    public static string Compact(BenchAnswer answer) => JsonSerializer.Serialize(Document(answer), CompactContext.BenchDocument);

    /// <summary>The answer as a document.</summary>
    public static BenchDocument Document(BenchAnswer answer)
    {
        BenchAccount account = BenchAccount.Of(answer);
        return new BenchDocument
        {
            Verdict = new VerdictDocument(
                answer.HasAnswer,
                account.Verdict.Sentence,
                account.Verdict.Second.Text,
                account.Verdict.HowSure?.Text,
                [.. BenchVerdict.Reshoot(answer).Select(i => i.Speed)]),
            Camera = answer.Camera is { } c ? new CameraDocument(c.Make, c.Model, c.BodyFingerprint, c.Width, c.Height, c.Mosaic, c.Bits) : null,
            Ladder = LevelWords.CamelCase(answer.Ladder),
            Levels = [.. answer.Levels.Select(l => LevelOf(l, account.Names))],
            GainSteps = [.. answer.GainSteps.Select(s => s.Above.Speed)],
            GainStepDetails = [.. answer.GainSteps.Select(s => new GainStepDocument(s.Below.Speed, s.Above.Speed, Finite(s.Ratio), Finite(s.DeltaChiSquared)))],
            StopAtIso = answer.StopAt?.Speed,
            LiftOrDial = [.. answer.LiftOrDial.Select(LiftOf)],
            PredictedLimits = [.. answer.PredictedLimits.Select(LimitOf)],
            Findings = [.. answer.Findings.Select(f => FindingOf(f, account.Names))],
        };
    }

    /// <summary>A finding as the document has it.</summary>
    /// <param name="finding">The finding.</param>
    /// <param name="names">Names of its frames.</param>
    public static FindingDocument FindingOf(Finding finding, FrameNames names) =>
        new(LevelWords.CamelCase(finding.Code), [.. finding.Frames.Select(names.Of)], finding.Text, finding.Reshoot);

    private static LevelDocument LevelOf(Level level, FrameNames names) => new()
    {
        Iso = level.Iso.Speed,
        Ladder = LevelWords.CamelCase(level.Ladder),
        Frames = [.. level.Frames.Select(names.Of)],
        CapFrames = [.. level.CapFrames.Select(names.Of)],
        ShutterSeconds = Finite(level.ShutterSeconds),
        FNumber = Finite(level.FNumber),
        GainElectronsPerDn = Finite(level.GainElectronsPerDn?.Value),
        GainInterval95 = Interval(level.GainElectronsPerDn),
        ReadNoiseElectrons = Finite(level.ReadNoiseElectrons?.Value),
        ReadNoiseInterval95 = Interval(level.ReadNoiseElectrons),
        ReadNoiseDn = Finite(level.ReadNoiseDn),
        DarkNoiseElectrons = Finite(level.DarkNoiseElectrons),
        DarkNoiseDn = Finite(level.DarkNoiseDn),
        ReadNoiseSource = level.ReadNoiseSource is { } source ? LevelWords.CamelCase(source) : null,
        SaturationElectrons = Finite(level.SaturationElectrons),
        ClipSeen = level.ClipSeen,
        DynamicRangeStops = Finite(level.Model?.DynamicRangeStops),
        SnrAtMinus3Ev = level.Model is { } model ? Finite(LevelRow.SignalToNoiseAt(model, -3)) : null,
        BlackDn = level.Planes.IsEmpty ? null : Finite(level.Planes.Average(p => p.BlackDn)),
        LightErrorStops = Finite(level.LightErrorStops),
        NeighbourCorrelation = Finite(level.NeighbourCorrelation),
        RowNoiseElectrons = Finite(level.RowNoiseElectrons),
        ColumnNoiseElectrons = Finite(level.ColumnNoiseElectrons),
        ClippedShare = Finite(level.ClippedShare),
        HotPixels = level.HotPixels,
        HotPixelsSearched = level.HotPixelsSearched,
        MeanSignalElectrons = Finite(level.MeanSignalElectrons),
        Planes = [.. level.Planes.Select(PlaneOf)],
        Curve = [.. level.Curve.Select(p => new CurvePointDocument(p.Plane, Finite(p.SignalDn), Finite(p.NoiseDn.Value), Interval(p.NoiseDn), p.Samples))],
        Usable = level.Usable,
        Flags = [.. level.Flags.Select(LevelWords.CamelCase)],
        Reason = level.Reason,
    };

    private static PlaneDocument PlaneOf(PlaneModel plane) => new(
        plane.Plane,
        Finite(plane.GainElectronsPerDn.Value),
        Interval(plane.GainElectronsPerDn),
        Finite(plane.ReadNoiseElectrons.Value),
        Interval(plane.ReadNoiseElectrons),
        Finite(plane.BlackDn),
        LevelWords.CamelCase(plane.BlackSource),
        Finite(plane.ClipDn),
        plane.ClipSeen);

    private static LiftOrDialDocument LiftOf(LiftOrDial pair) => new(
        pair.Shot.Speed,
        pair.LiftedTo.Speed,
        Finite(pair.HighlightStopsKept),
        [.. pair.Losses.Select(l => new LiftLossDocument(l.ToneEv, Finite(l.ShareLost), Finite(l.StopsLost)))],
        LevelWords.CamelCase(HowKnown.WorkedOut));

    private static LimitDocument LimitOf(PredictedLimit limit) => new(
        LevelWords.CamelCase(limit.Tone),
        limit.CleanExact?.Speed,
        limit.StretchExact?.Speed,
        limit.AcceptableExact?.Speed,
        Dial(limit.CleanExact),
        Dial(limit.StretchExact),
        Dial(limit.AcceptableExact),
        limit.Body,
        new PrintDocument(limit.Print.WidthMm, limit.Print.ViewingDistanceMm),
        limit.Treatment,
        LevelWords.CamelCase(HowKnown.WorkedOut),
        LevelWords.CamelCase(HowKnown.RuleOfThumb));

    private static double? Dial(Iso? exact) => exact is null ? null : exact.DialAtOrBelow().Speed;

    private static double? Finite(double? value) => value is { } v && double.IsFinite(v) ? v : null;

    private static double[]? Interval(Estimate? estimate) =>
        estimate is { } e && double.IsFinite(e.Low) && double.IsFinite(e.High) ? [e.Low, e.High] : null;
}
