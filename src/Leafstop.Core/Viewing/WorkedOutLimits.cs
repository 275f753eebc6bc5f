using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Viewing;

/// <summary>Limits of a camera as its measured noise lets them be worked out for a print.</summary>
/// <param name="Limits">The limits.</param>
/// <param name="Remark">A sentence where the measured levels end before them; else empty.</param>
public sealed record WorkedOutLimits(NoiseLimits Limits, string Remark)
{
    /// <summary>The highest ISO that was measured, where it stands for a limit that was not reached; null where both were.</summary>
    public Iso? MeasuredTo { get; private init; }

    /// <summary>The limits without those that were not reached; null when none was.</summary>
    public NoiseLimits? Reached { get; private init; }

    /// <summary>Works them out by <see cref="LimitPrediction"/>; null when the levels cannot tell.</summary>
    /// <remarks>Where the criterion still holds at the highest ISO that was measured, that ISO stands for the limit: nothing is known above it.</remarks>
    /// <param name="name">The camera's name, for the remark.</param>
    /// <param name="curve">Sensor over ISO.</param>
    /// <param name="body">Body, for the pixels across and the tag.</param>
    /// <param name="print">The print that is asked.</param>
    /// <param name="tone">Mid-grey or three stops below.</param>
    public static WorkedOutLimits? Of(string name, ModelCurve curve, CameraIdentity body, PrintCondition print, LimitTone tone)
    {
        ArgumentNullException.ThrowIfNull(curve);
        // One level is a point, not a curve.
        if (curve.Isos.Length < 2)
            return null;
        var highest = Iso.FromSpeed(curve.Range.Highest);
        PredictedLimit predicted = LimitPrediction.Of(curve, body, print).Single(l => l.Tone == tone);
        Iso? clean = predicted.CleanExact ?? AtLeast(PrintCriterion.Clean), stretch = predicted.StretchExact ?? AtLeast(PrintCriterion.Stretch);
        if (clean is null && stretch is null)
            return null;
        string reached = (predicted.CleanExact is null && clean is not null, predicted.StretchExact is null && stretch is not null) switch
        {
            (true, _) => $"By the criterion even ISO {highest.ToDisplay()}, the highest measured on {name}, is clean for this print; nothing is known above it.",
            (_, true) => $"By the criterion ISO {highest.ToDisplay()}, the highest measured on {name}, is still within stretch; nothing is known above it.",
            _ => "",
        };
        return new WorkedOutLimits(NoiseLimits.Of(clean, stretch, LimitTags.Of(predicted), LimitOrigin.WorkedOut), reached)
        {
            MeasuredTo = reached.Length > 0 ? Iso.FromMarking(highest.Speed) : null,
            Reached = predicted.CleanExact is null && predicted.StretchExact is null ? null : NoiseLimits.Of(predicted.CleanExact, predicted.StretchExact, LimitTags.Of(predicted), LimitOrigin.WorkedOut),
        };

        Iso? AtLeast(double level) => LimitPrediction.Holds(curve, body, print, tone, level, highest) ? highest : null;
    }
}
