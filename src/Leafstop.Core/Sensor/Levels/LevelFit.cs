using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>What the noise curve of a level gives.</summary>
internal sealed record LevelFit
{
    /// <summary>An interval from single frames is at least this much wider than the fit's own: texture cannot be told from noise.</summary>
    private const double SingleFrameWidening = 2;

    /// <summary>What texture may hide in a single frame, as a share of gain and read noise. On synthetic scenes of 480×320 pixels and more both read up to
    /// 14 % low on a 2×2 mosaic and up to 38 % low on a 6×6 one, whose like samples lie further apart.</summary>
    private const double SingleFrameDoubt = 0.15, SingleFrameDoubtOnLargeCells = 0.40;

    /// <summary>Gain, joint over planes, e⁻/DN.</summary>
    public Estimate? Gain { get; private init; }

    /// <summary>Read noise, joint, e⁻.</summary>
    public Estimate? ReadNoise { get; private init; }

    /// <summary>Read noise, DN.</summary>
    public double? ReadNoiseDn { get; private init; }

    /// <summary>What the read noise was taken from.</summary>
    public ReadNoiseSource? Source { get; private init; }

    /// <summary>Electrons at the clip level; null when no clip is known.</summary>
    public double? SaturationElectrons { get; private init; }

    /// <summary>True when a clip was seen, here or at other levels of the body.</summary>
    public bool ClipSeen { get; private init; }

    /// <summary>Clip level by plane.</summary>
    public ImmutableArray<ClipLevel> Clips { get; private init; } = [];

    /// <summary>Mean green signal above black, DN.</summary>
    public double? MeanGreenSignalDn { get; private init; }

    /// <summary>Models by plane.</summary>
    public ImmutableArray<PlaneModel> Planes { get; private init; } = [];

    /// <summary>Points for plots.</summary>
    public ImmutableArray<TransferPoint> Curve { get; private init; } = [];

    /// <summary>True when noise against signal is no straight line.</summary>
    public bool IsNotLinear { get; private init; }

    /// <summary>True when only single frames gave the curve.</summary>
    public bool FromSingleFrames { get; private init; }

    /// <summary>Why there is no fit; null when there is one.</summary>
    public string? Refusal { get; private init; }

    /// <summary>No fit, with the reason.</summary>
    public static LevelFit None(string why) => new() { Refusal = why };

    /// <summary>Fits each plane and joins them.</summary>
    /// <param name="level">The level.</param>
    /// <param name="pairs">Pairs that may be used.</param>
    /// <param name="all">All levels of the body, for a clip that this level does not show.</param>
    public static LevelFit Of(LevelShots level, IReadOnlyList<PairSurvey> pairs, IReadOnlyList<LevelShots> all)
    {
        string[] names = [.. level.Frames[0].Planes.Select(p => p.Plane)];
        bool single = !pairs.Any(p => !p.Planes.IsEmpty);
        PairPlane[] curves = [.. single
            ? level.Frames.Where(f => f.SingleFrameCurves is not null).SelectMany(f => f.SingleFrameCurves!.Value)
            : pairs.SelectMany(p => p.Planes)];
        PlaneFit[] planes = [.. names.Select((name, i) => PlaneFit.Of(level, i, [.. curves.Where(c => c.Plane == name).SelectMany(c => c.Bins)], ClipLevel.Of(level, i, all)))];
        ImmutableArray<ClipLevel> clips = [.. planes.Select(p => p.Clip).OfType<ClipLevel>()];
        int[] green = Black.GreenPlanes(level.Frames[0]);
        var basis = new LevelFit
        {
            Clips = clips,
            ClipSeen = clips.Length == planes.Length && clips.All(c => c.IsSeen),
            MeanGreenSignalDn = green.Average(i => level.Frames.Average(f => f.Planes[i].MeanRawDn) - planes[i].BlackDn),
            Curve = [.. planes.SelectMany(p => p.Points())],
            FromSingleFrames = single,
        };
        // Frames that were meant as a pair and show different pictures are no single frames either: what changed between them is not known.
        if (curves.Length == 0 || (single && level.Pairs.Any(p => p.IsFalsePair))) return basis with { Refusal = WhyNoCurve(level) };

        FitOutcome joint = PhotonTransfer.Join([.. planes.Select(p => p.Fit)]);
        if (joint is not { GainElectronsPerDn: { } gain, ReadNoiseElectrons: { } noise }) return basis with { Refusal = joint.Refusal ?? "No noise curve could be fitted." };
        double widening = single ? SingleFrameWidening : 1;
        double doubt = !single ? 0 : level.Frames[0].Header.Mosaic.Columns > 2 ? SingleFrameDoubtOnLargeCells : SingleFrameDoubt;
        if (single && Widened(noise, widening, doubt).Low <= 0)
            return basis with { Refusal = "One frame alone does not tell the read noise here: it could be nothing at all. Shoot two frames." };
        return basis with
        {
            Gain = Widened(gain, widening, doubt),
            ReadNoise = Widened(noise, widening, doubt),
            ReadNoiseDn = joint.ReadNoiseDn?.Value,
            Source = planes.All(p => p.DarkVariance is not null) ? ReadNoiseSource.CapFrames : ReadNoiseSource.Fit,
            SaturationElectrons = clips.Length == planes.Length ? gain.Value * Median.Of(planes.Select(p => p.Clip!.Dn - p.BlackDn)) : null,
            Planes = [.. planes.Select(p => p.Model(widening, doubt)).OfType<PlaneModel>()],
            IsNotLinear = joint.IsNotLinear,
        };
    }

    /// <summary>An interval some times as wide, with a further doubt, a share of the value, added as independent errors add.</summary>
    internal static Estimate Widened(Estimate e, double factor, double doubt)
    {
        double further = doubt * e.Value;
        return new(e.Value, Math.Max(0, e.Value - Together(factor * (e.Value - e.Low), further)), e.Value + Together(factor * (e.High - e.Value), further));
    }

    private static double Together(double a, double b) => Math.Sqrt(a * a + b * b);

    private static string WhyNoCurve(LevelShots level) => level switch
    {
        { Pairs: [{ IsFalsePair: true }, ..] } => "The frames have the same settings but show different pictures, so there is no pair.",
        { Frames.Length: 1 } => "There is only one frame, and it gives no noise curve.",
        _ => "The frames make no pair that can be used.",
    };
}
