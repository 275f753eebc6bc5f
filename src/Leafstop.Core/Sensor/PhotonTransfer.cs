using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>The photon-transfer fit: temporal variance against mean signal is a straight line whose slope is the inverse gain.</summary>
public static class PhotonTransfer
{
    /// <summary>Fits one plane.</summary>
    /// <param name="bins">Noise against signal, DN.</param>
    /// <param name="blackDn">Black level, DN.</param>
    /// <param name="clipDn">Clip level, DN; bins above 70 % of the way from black to clip are left out.</param>
    /// <param name="darkVariance">Variance of cap frames in DN² with its 95 % interval; null to take the read noise from the line itself.</param>
    public static FitOutcome Fit(ImmutableArray<SignalBin> bins, double blackDn, double clipDn, Estimate? darkVariance) =>
        FitOutcome.Refused("Not built yet.");

    /// <summary>Joins the fits of the planes of one level, each weighted by its error.</summary>
    public static FitOutcome Join(IReadOnlyList<FitOutcome> planes) => FitOutcome.Refused("Not built yet.");

    /// <summary>The variance of a pair of cap frames, all bins pooled, DN².</summary>
    public static Estimate DarkVariance(ImmutableArray<SignalBin> bins) => default;
}
