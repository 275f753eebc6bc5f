using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>The noise curve of one plane of one level, fitted.</summary>
internal sealed record PlaneFit
{
    private string Plane { get; init; } = "";

    private ImmutableArray<SignalBin> Bins { get; init; } = [];

    private BlackSource BlackSource { get; init; }

    /// <summary>Black level, DN.</summary>
    public double BlackDn { get; private init; }

    /// <summary>Clip level; null when neither samples nor tag tell one.</summary>
    public ClipLevel? Clip { get; private init; }

    /// <summary>Variance of the cap frames, DN²; null without a pair of them.</summary>
    public Estimate? DarkVariance { get; private init; }

    /// <summary>The fit.</summary>
    public FitOutcome Fit { get; private init; } = FitOutcome.Refused("Not fitted.");

    /// <summary>Fits the bins with the best black and, where there are cap frames, their variance as the read noise.</summary>
    public static PlaneFit Of(LevelShots level, int index, ImmutableArray<SignalBin> bins, ClipLevel? clip)
    {
        string name = level.Frames[0].Planes[index].Plane;
        var (black, source, error) = Black.OfPlane(level, index);
        ImmutableArray<SignalBin> dark = [.. level.CapPairs.SelectMany(p => p.Planes).Where(p => p.Plane == name).SelectMany(p => p.Bins)];
        Estimate? darkVariance = dark.Any(b => b.DegreesOfFreedom > 0) ? PhotonTransfer.DarkVariance(dark) : null;
        double top = clip?.Dn ?? level.Frames.Max(f => f.Planes[index].MaxDn);
        return new PlaneFit
        {
            Plane = name,
            Bins = bins,
            BlackDn = black,
            BlackSource = source,
            Clip = clip,
            DarkVariance = darkVariance,
            Fit = bins.IsEmpty ? FitOutcome.Refused("No noise curve.") : PhotonTransfer.Fit(bins, black, top, darkVariance, error),
        };
    }

    /// <summary>The model, or null when the plane could not be fitted or has no clip.</summary>
    public PlaneModel? Model(double widening, double doubt) => Fit is { GainElectronsPerDn: { } gain, ReadNoiseElectrons: { } noise } && Clip is { } clip
        ? new PlaneModel
        {
            Plane = Plane,
            GainElectronsPerDn = LevelFit.Widened(gain, widening, doubt),
            ReadNoiseElectrons = LevelFit.Widened(noise, widening, doubt),
            BlackDn = BlackDn,
            BlackSource = BlackSource,
            ClipDn = clip.Dn,
            ClipSeen = clip.IsSeen,
        }
        : null;

    /// <summary>The curve as shown: standard deviation with its 95 % interval (SEN-36: the sd is known to 1/√(2ν)).</summary>
    public IEnumerable<TransferPoint> Points() => Bins
        .Where(b => b is { VarianceDn2: > 0, DegreesOfFreedom: > 0 })
        .Select(b =>
        {
            double sd = Math.Sqrt(b.VarianceDn2), half = Estimate.Normal95 * sd / Math.Sqrt(2.0 * b.DegreesOfFreedom);
            return new TransferPoint(Plane, b.MeanRawDn - BlackDn, new Estimate(sd, Math.Max(0, sd - half), sd + half), b.Samples);
        });
}
