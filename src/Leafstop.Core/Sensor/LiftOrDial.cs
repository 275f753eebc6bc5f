using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Sensor;

/// <summary>What is lost in deep tones, and kept in the highlights, when a lower ISO is shot in the same light and lifted afterwards.</summary>
/// <param name="Shot">ISO that is shot.</param>
/// <param name="LiftedTo">ISO whose metered light it is, and whose brightness it is lifted to.</param>
/// <param name="HighlightStopsKept">log2(saturation of Shot / saturation of LiftedTo), stops.</param>
/// <param name="Losses">Loss by tone.</param>
public sealed record LiftOrDial(Iso Shot, Iso LiftedTo, double HighlightStopsKept, ImmutableArray<LiftLoss> Losses);

/// <summary>Loss at one tone, in the light metered for the ISO lifted to.</summary>
/// <param name="ToneEv">Tone in stops from metered mid-grey: 0, −3, −5, −6.</param>
/// <param name="ShareLost">1 − SNR(shot and lifted) / SNR(dialled), 0 to 1.</param>
/// <param name="StopsLost">Stops of extra light that the shot ISO needs to equal the dialled one at that tone.</param>
public sealed record LiftLoss(double ToneEv, double ShareLost, double StopsLost);
