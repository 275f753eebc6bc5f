using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Sensor;

/// <summary>Lift or dial: what a deep tone loses when a lower ISO is shot in the same light and lifted afterwards, and which highlights it keeps.</summary>
public static class LiftTable
{
    /// <summary>Tones that are told, stops from mid-grey.</summary>
    public static ImmutableArray<double> Tones { get; } = [0, -3, -5, -6];

    /// <summary>A step matters when the deepest tone is at least this much worse below it, stops. A rule of thumb: a sixth of a stop cannot be dialled.</summary>
    public const double LeastLossThatMatters = 1.0 / 6;

    /// <summary>Compares two models in the light metered for the second.</summary>
    /// <remarks>Share lost is 1 − SNRa/SNRb. Stops lost is log2 of the extra light that a needs to reach b's ratio at that tone, by the exact
    /// inverse of the signal-to-noise formula (SEN-13). Mid-grey is 12.7 % of b's saturation (EXP-29). Noise only: banding comes on top.</remarks>
    /// <param name="shot">ISO that is shot.</param>
    /// <param name="shotModel">Sensor at that ISO.</param>
    /// <param name="liftedTo">ISO that the light is metered for.</param>
    /// <param name="liftedModel">Sensor at that ISO.</param>
    public static LiftOrDial Compare(Iso shot, NoiseModel shotModel, Iso liftedTo, NoiseModel liftedModel)
    {
        ArgumentNullException.ThrowIfNull(shotModel);
        ArgumentNullException.ThrowIfNull(liftedModel);
        return new LiftOrDial(
            shot,
            liftedTo,
            Math.Log2(shotModel.SaturationElectrons / liftedModel.SaturationElectrons),
            [.. Tones.Select(tone => LossAt(tone, shotModel, liftedModel))]);
    }

    /// <summary>The loss at one tone, as in <see cref="Compare"/>.</summary>
    /// <param name="toneEv">Stops from mid-grey in the light metered for the second; any finite number.</param>
    /// <param name="shotModel">Sensor at the ISO that is shot.</param>
    /// <param name="liftedModel">Sensor at the ISO that the light is metered for.</param>
    public static LiftLoss LossAt(double toneEv, NoiseModel shotModel, NoiseModel liftedModel)
    {
        ArgumentNullException.ThrowIfNull(shotModel);
        ArgumentNullException.ThrowIfNull(liftedModel);
        return Loss(toneEv, MeteredTone.SignalElectrons(liftedModel, toneEv), shotModel, liftedModel);
    }

    /// <summary>The pairs worth telling: from the lowest level, from the last level below each step and from the first above it, to every higher level.</summary>
    internal static ImmutableArray<LiftOrDial> Of(ModelCurve curve, ImmutableArray<GainStep> steps)
    {
        double[] starts = [.. steps.SelectMany(s => new[] { s.Below.Speed, s.Above.Speed }).Append(curve.Isos[0]).Distinct().Order()];
        return [.. from shot in starts
                   from lifted in curve.Isos
                   where lifted > shot
                   select Compare(Iso.FromSpeed(shot), curve.At(shot), Iso.FromSpeed(lifted), curve.At(lifted))];
    }

    /// <summary>The first ISO above the last step that matters.</summary>
    internal static Iso? StopAt(ModelCurve curve, ImmutableArray<GainStep> steps) => steps
        .OrderBy(s => s.Above)
        .LastOrDefault(s => Compare(s.Below, curve.At(s.Below.Speed), s.Above, curve.At(s.Above.Speed)).Losses[^1].StopsLost >= LeastLossThatMatters)
        ?.Above;

    private static LiftLoss Loss(double tone, double signal, NoiseModel shot, NoiseModel lifted)
    {
        double dialled = lifted.SignalToNoise(signal);
        return new LiftLoss(tone, 1 - shot.SignalToNoise(signal) / dialled, Math.Log2(NeededSignal.Electrons(dialled, shot.ReadNoiseElectrons) / signal));
    }
}
