using System.Collections.Immutable;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Judging;

/// <summary>What a judging says about the two limits.</summary>
/// <param name="Tags">What they hold for.</param>
/// <param name="Clean">The question of the clean limit.</param>
/// <param name="Stretch">The question of the stretch limit.</param>
public sealed record JudgingResult(LimitTags Tags, QuestionReading Clean, QuestionReading Stretch)
{
    /// <summary>True when more is signed away than disturbs: the stretch limit came out below the clean one by more than both are unsure of.</summary>
    public bool IsContradictory => Clean.LimitStops is { } clean && Stretch.LimitStops is { } stretch && Clean.HasLimit && Stretch.HasLimit && stretch.High < clean.Low;

    /// <summary>The judged limits; null where there is neither, or where they contradict each other.</summary>
    /// <remarks>A stretch limit a little below the clean one is the same limit met twice: both become their mean, weighted by how sure each is.</remarks>
    public NoiseLimits? ToLimits()
    {
        Iso? clean = Clean.Limit, stretch = Stretch.Limit;
        if (IsContradictory || (clean is null && stretch is null))
            return null;
        if (clean is not null && stretch is not null && stretch < clean)
            clean = stretch = ShownLevel.FromStops(Stops.Of(Joined()).NearestThird().Value);
        return NoiseLimits.Of(clean, stretch, Tags, LimitOrigin.Judged);
    }

    private double Joined()
    {
        double cleanWeight = Weight(Clean), stretchWeight = Weight(Stretch);
        return (Clean.LimitStops!.Value.Value * cleanWeight + Stretch.LimitStops!.Value.Value * stretchWeight) / (cleanWeight + stretchWeight);
    }

    private static double Weight(QuestionReading reading) => Math.Pow(reading.LimitStops!.Value.High - reading.LimitStops!.Value.Low, -2);

    /// <summary>The result in sentences, the limits first: "clean 800 (640 to 1000), stretch 3200 (2500 to 4000), for 60 cm at 60 cm.".</summary>
    public ImmutableArray<string> ToSentences() => JudgingSentences.Of(this);
}
