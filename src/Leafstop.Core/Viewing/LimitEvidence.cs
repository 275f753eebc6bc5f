using Leafstop.Core.Quantities;

namespace Leafstop.Core.Viewing;

/// <summary>How judged limits were come by.</summary>
/// <param name="JudgedOn">The day, as the caller knows it.</param>
/// <param name="Clean">Answers behind the clean limit; null when it was not judged.</param>
/// <param name="Stretch">Answers behind the stretch limit; null when it was not judged.</param>
public sealed record LimitEvidence(DateOnly JudgedOn, JudgedAnswers? Clean, JudgedAnswers? Stretch)
{
    /// <summary>The intervals moved along with their limits.</summary>
    public LimitEvidence Moved(Stops stops) => this with { Clean = Clean?.Moved(stops), Stretch = Stretch?.Moved(stops) };
}

/// <summary>The answers behind one judged limit.</summary>
public sealed record JudgedAnswers
{
    private JudgedAnswers(Iso low, Iso high, Stops spread, int answers) => (Low, High, Spread, Answers) = (low, high, spread, answers);

    /// <summary>Lower end of the 95 % interval.</summary>
    public Iso Low { get; private init; }

    /// <summary>Upper end of the 95 % interval.</summary>
    public Iso High { get; private init; }

    /// <summary>How gradually yes turns into no, one standard deviation, above zero.</summary>
    public Stops Spread { get; }

    /// <summary>Answers given to this question, blank checks among them, above zero.</summary>
    public int Answers { get; }

    /// <summary>Takes what a fit found.</summary>
    /// <param name="low">Lower end of the 95 % interval.</param>
    /// <param name="high">Upper end, not below the lower.</param>
    /// <param name="spread">Above zero.</param>
    /// <param name="answers">Above zero.</param>
    /// <exception cref="ArgumentException">The interval runs backwards, or spread or answers are not above zero.</exception>
    public static JudgedAnswers Of(Iso low, Iso high, Stops spread, int answers)
    {
        ArgumentNullException.ThrowIfNull(low);
        ArgumentNullException.ThrowIfNull(high);
        if (high < low) throw new ArgumentException("An interval runs from its lower to its upper end.", nameof(high));
        if (!(spread.Value > 0)) throw new ArgumentOutOfRangeException(nameof(spread), spread.Value, "A spread is above zero.");
        if (answers <= 0) throw new ArgumentOutOfRangeException(nameof(answers), answers, "A judged limit rests on answers.");
        return new JudgedAnswers(low, high, spread, answers);
    }

    /// <summary>The interval moved along with its limit.</summary>
    public JudgedAnswers Moved(Stops stops) => this with { Low = Iso.FromSpeed(Low.Speed * stops.Ratio), High = Iso.FromSpeed(High.Speed * stops.Ratio) };
}
