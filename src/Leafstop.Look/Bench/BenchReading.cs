using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>A bench test out of its JSON, so that whoever has the JSON alone can say, draw and work out all that it holds.</summary>
public static class BenchReading
{
    /// <summary>The answer that a document was written of. What JSON left out is as if it had not been known: an interval without ends is unbounded.</summary>
    /// <param name="document">As <see cref="BenchJson"/> writes it.</param>
    /// <param name="folder">The folder that was measured, put before the names of frames; empty leaves the names alone.</param>
    public static BenchAnswer Answer(this BenchDocument document, string folder = "")
    {
        ArgumentNullException.ThrowIfNull(document);
        return new BenchAnswer
        {
            Camera = document.Camera is { } c
                ? new CameraIdentity { Make = c.Make, Model = c.Model, BodyFingerprint = c.BodyFingerprint, Width = c.Width, Height = c.Height, Mosaic = c.Mosaic, Bits = c.Bits }
                : null,
            Ladder = Member<LadderKind>(document.Ladder),
            Levels = [.. document.Levels.Select(l => LevelOf(l, folder))],
            GainSteps = [.. document.GainStepDetails.Select(s => new GainStep(Iso.FromSpeed(s.BelowIso), Iso.FromSpeed(s.AboveIso), s.Ratio ?? double.NaN, s.DeltaChiSquared ?? double.NaN))],
            StopAt = IsoOf(document.StopAtIso),
            LiftOrDial = [.. document.LiftOrDial.Select(p => new LiftOrDial(
                Iso.FromSpeed(p.ShotIso), Iso.FromSpeed(p.LiftedToIso), p.HighlightStopsKept ?? double.NaN,
                [.. p.Losses.Select(l => new LiftLoss(l.ToneEv, l.ShareLost ?? double.NaN, l.StopsLost ?? double.NaN))]))],
            PredictedLimits = [.. document.PredictedLimits.Select(LimitOf)],
            Findings = [.. document.Findings.Select(f => FindingOf(f, folder))],
        };
    }

    /// <summary>A finding out of its JSON.</summary>
    /// <param name="finding">As the document has it.</param>
    /// <param name="folder">As for <see cref="Answer"/>.</param>
    public static Finding FindingOf(FindingDocument finding, string folder = "")
    {
        ArgumentNullException.ThrowIfNull(finding);
        return new Finding(Member<FindingCode>(finding.Code), [.. Files(finding.Frames, folder)], finding.Text, finding.Reshoot);
    }

    private static Level LevelOf(LevelDocument level, string folder) => new()
    {
        Iso = Iso.FromSpeed(level.Iso),
        Ladder = Member<LadderKind>(level.Ladder),
        Frames = [.. Files(level.Frames, folder)],
        CapFrames = [.. Files(level.CapFrames, folder)],
        ShutterSeconds = level.ShutterSeconds,
        FNumber = level.FNumber,
        GainElectronsPerDn = Around(level.GainElectronsPerDn, level.GainInterval95),
        ReadNoiseElectrons = Around(level.ReadNoiseElectrons, level.ReadNoiseInterval95),
        ReadNoiseDn = level.ReadNoiseDn,
        ReadNoiseSource = level.ReadNoiseSource is { } source ? Member<ReadNoiseSource>(source) : null,
        SaturationElectrons = level.SaturationElectrons,
        ClipSeen = level.ClipSeen,
        LightErrorStops = level.LightErrorStops,
        NeighbourCorrelation = level.NeighbourCorrelation,
        RowNoiseElectrons = level.RowNoiseElectrons,
        ColumnNoiseElectrons = level.ColumnNoiseElectrons,
        ClippedShare = level.ClippedShare ?? double.NaN,
        HotPixels = level.HotPixels,
        HotPixelsSearched = level.HotPixelsSearched,
        MeanSignalElectrons = level.MeanSignalElectrons,
        Planes = [.. level.Planes.Select(PlaneOf)],
        Curve = [.. level.Curve.Select(p => new TransferPoint(p.Plane, p.SignalDn ?? double.NaN, Around(p.NoiseDn, p.NoiseInterval95) ?? Unknown, p.Samples))],
        Usable = level.Usable,
        Flags = [.. level.Flags.Select(Member<LevelFlag>)],
        Reason = level.Reason,
    };

    private static PlaneModel PlaneOf(PlaneDocument plane) => new()
    {
        Plane = plane.Plane,
        GainElectronsPerDn = Around(plane.GainElectronsPerDn, plane.GainInterval95) ?? Unknown,
        ReadNoiseElectrons = Around(plane.ReadNoiseElectrons, plane.ReadNoiseInterval95) ?? Unknown,
        BlackDn = plane.BlackDn ?? double.NaN,
        BlackSource = Member<BlackSource>(plane.BlackSource),
        ClipDn = plane.ClipDn ?? double.NaN,
        ClipSeen = plane.ClipSeen,
    };

    private static PredictedLimit LimitOf(LimitDocument limit) => new()
    {
        Tone = Member<LimitTone>(limit.Tone),
        CleanExact = IsoOf(limit.Clean),
        StretchExact = IsoOf(limit.Stretch),
        AcceptableExact = IsoOf(limit.Acceptable),
        Body = limit.Body,
        Print = new PrintCondition(limit.Print.WidthMm, limit.Print.ViewingDistanceMm),
        Treatment = limit.Treatment,
    };

    private static readonly Estimate Unknown = new(double.NaN, double.NaN, double.NaN);

    private static Estimate? Around(double? value, IReadOnlyList<double>? interval) => value is { } v
        ? interval is [double low, double high] ? new Estimate(v, low, high) : new Estimate(v, double.NegativeInfinity, double.PositiveInfinity)
        : null;

    private static Iso? IsoOf(double? speed) => speed is { } iso ? Iso.FromSpeed(iso) : null;

    private static IEnumerable<string> Files(IReadOnlyList<string> names, string folder) => folder.Length == 0 ? names : names.Select(n => Path.Combine(folder, n));

    private static T Member<T>(string name) where T : struct, Enum => Enum.Parse<T>(name, ignoreCase: true);
}
