using System.Collections.Immutable;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Judging;

/// <summary>How a limit of one judging stands to that of another.</summary>
public enum LimitMove
{
    /// <summary>A third of a stop apart or less.</summary>
    Stayed,

    /// <summary>Farther apart, but no farther than the two are unsure of.</summary>
    Unsure,

    /// <summary>Farther apart than a third of a stop and than the two are unsure of.</summary>
    Moved,

    /// <summary>One of them has no limit.</summary>
    NotComparable,
}

/// <summary>Two judgings of the same tags set against each other.</summary>
/// <param name="Clean">The clean limit.</param>
/// <param name="CleanStops">By how much it rose, stops; null when not comparable.</param>
/// <param name="Stretch">The stretch limit.</param>
/// <param name="StretchStops">By how much it rose, stops; null when not comparable.</param>
public sealed record JudgingComparison(LimitMove Clean, double? CleanStops, LimitMove Stretch, double? StretchStops)
{
    /// <summary>Compares.</summary>
    /// <param name="earlier">The earlier judging.</param>
    /// <param name="later">The later one.</param>
    /// <exception cref="ArgumentException">They hold for different tags.</exception>
    public static JudgingComparison Of(JudgingResult earlier, JudgingResult later)
    {
        if (earlier.Tags != later.Tags)
            throw new ArgumentException("These judgings hold for different bodies, prints, tones or treatments: they cannot be compared.", nameof(later));
        (LimitMove clean, double? cleanStops) = Move(earlier.Clean, later.Clean);
        (LimitMove stretch, double? stretchStops) = Move(earlier.Stretch, later.Stretch);
        return new JudgingComparison(clean, cleanStops, stretch, stretchStops);
    }

    /// <summary>One sentence for each limit.</summary>
    public ImmutableArray<string> ToSentences() => [Sentence("Clean", Clean, CleanStops), Sentence("Stretch", Stretch, StretchStops)];

    private static (LimitMove, double?) Move(QuestionReading earlier, QuestionReading later)
    {
        if (!earlier.HasLimit || !later.HasLimit)
            return (LimitMove.NotComparable, null);
        Estimate before = earlier.LimitStops!.Value, after = later.LimitStops!.Value;
        double moved = after.Value - before.Value;
        double unsure = Math.Sqrt(Math.Pow((before.High - before.Low) / 2, 2) + Math.Pow((after.High - after.Low) / 2, 2));
        return (Math.Abs(moved) <= JudgingRules.WantedHalfWidthStops + 1e-9 ? LimitMove.Stayed : Math.Abs(moved) <= unsure ? LimitMove.Unsure : LimitMove.Moved, moved);
    }

    private static string Sentence(string name, LimitMove move, double? stops) => move switch
    {
        LimitMove.Stayed => $"{name}: stayed, within a third of a stop.",
        LimitMove.Unsure => $"{name}: {Say.Stops(stops!.Value)} {Direction(stops.Value)} than before, but the two judgings are together no surer than that: unsure.",
        LimitMove.Moved => $"{name}: moved, {Say.Stops(stops!.Value)} {Direction(stops.Value)} than before.",
        _ => $"{name}: cannot be compared, because one of the judgings gave no limit.",
    };

    private static string Direction(double stops) => stops > 0 ? "higher" : "lower";
}
