using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>What one choice of lift or dial costs and keeps, in words.</summary>
/// <param name="Verdict">Lift it, or dial it, and why.</param>
/// <param name="Loss">What the tone loses.</param>
/// <param name="Kept">What the highlights keep.</param>
public sealed record LiftWords(string Verdict, string Loss, string Kept)
{
    /// <summary>Puts a choice into words.</summary>
    /// <param name="curve">The camera.</param>
    /// <param name="shot">ISO that is shot, inside what was measured.</param>
    /// <param name="liftedTo">ISO that the light is metered for, inside what was measured, not below <paramref name="shot"/>.</param>
    /// <param name="toneEv">Stops from mid-grey.</param>
    public static LiftWords Of(ModelCurve curve, Iso shot, Iso liftedTo, double toneEv)
    {
        ArgumentNullException.ThrowIfNull(curve);
        if (shot >= liftedTo)
            return new LiftWords("The same ISO twice: nothing is lifted, nothing is lost.", "", "");
        NoiseModel one = curve.At(shot.Speed), other = curve.At(liftedTo.Speed);
        LiftLoss loss = LiftTable.LossAt(toneEv, one, other);
        double kept = LiftTable.Compare(shot, one, liftedTo, other).HighlightStopsKept;
        string tone = Math.Abs(toneEv) < 1e-9 ? "mid-grey loses" : $"tones at {Figures.Tone(toneEv)} lose";
        return new LiftWords(
            loss.StopsLost < LiftTable.LeastLossThatMatters
                ? $"Lift it: the loss at {Figures.Tone(toneEv)} is less than a sixth of a stop, which cannot be dialled."
                : $"Dial {Figures.Name(liftedTo)} if {Figures.Tone(toneEv)} matters; shoot {Figures.Name(shot)} if the highlights do.",
            $"In the light metered for {Figures.Name(liftedTo)}, shot at {Figures.Name(shot)} and lifted, {tone} {Figures.Percent(Math.Max(0, loss.ShareLost))} of signal-to-noise; {Figures.Fixed(Math.Max(0, loss.StopsLost), 2)}{Figures.NoBreak}{(loss.StopsLost > 1.005 ? "stops" : "stop")} more light would make it good.",
            $"{Figures.StopsOf(kept)} more of the highlights {(kept > 1.02 ? "are" : "is")} kept.");
    }
}
