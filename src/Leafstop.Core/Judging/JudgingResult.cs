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

    /// <summary>True when there is a limit to keep: at least one was found, and they do not contradict each other.</summary>
    public bool HasLimits => (Clean.HasLimit || Stretch.HasLimit) && !IsContradictory;

    /// <summary>True when neither limit is left open, and they do not contradict each other.</summary>
    public bool HasBothLimits => Clean.HasLimit && Stretch.HasLimit && !IsContradictory;

    /// <summary>The judged limits with the evidence for them; null without <see cref="HasLimits"/>.</summary>
    /// <remarks>A stretch limit a little below the clean one is the same limit met twice: both become their mean, weighted by how sure each is. Each keeps the interval of its own
    /// question, made as wide as it takes to hold that mean. Intervals are rounded outwards to thirds, as they are told.</remarks>
    /// <param name="judgedOn">The day of the judging, as the caller knows it.</param>
    /// <exception cref="ArgumentException">The tags lack body, tone or treatment.</exception>
    public NoiseLimits? ToLimits(DateOnly judgedOn)
    {
        if (!HasLimits)
            return null;
        Iso? clean = Clean.Limit, stretch = Stretch.Limit;
        if (clean is not null && stretch is not null && stretch < clean)
            clean = stretch = ShownLevel.FromStops(Stops.Of(Joined()).NearestThird().Value);
        return NoiseLimits.Judged(clean, stretch, Tags, new LimitEvidence(judgedOn, Evidence(Clean, clean), Evidence(Stretch, stretch)));
    }

    private static JudgedAnswers? Evidence(QuestionReading reading, Iso? limit) => limit is null ? null : JudgedAnswers.Of(
        reading.Low! < limit ? reading.Low! : limit, reading.High! > limit ? reading.High! : limit, Stops.Of(reading.SpreadStops!.Value), reading.Answers);

    private double Joined()
    {
        double cleanWeight = Weight(Clean), stretchWeight = Weight(Stretch);
        return (Clean.LimitStops!.Value.Value * cleanWeight + Stretch.LimitStops!.Value.Value * stretchWeight) / (cleanWeight + stretchWeight);
    }

    private static double Weight(QuestionReading reading) => Math.Pow(reading.LimitStops!.Value.High - reading.LimitStops!.Value.Low, -2);

    /// <summary>The result in sentences, the limits first: "clean 800 (640 to 1000), stretch 3200 (2500 to 4000), for 60 cm at 60 cm.".</summary>
    public ImmutableArray<string> ToSentences() => JudgingSentences.Of(this);
}
