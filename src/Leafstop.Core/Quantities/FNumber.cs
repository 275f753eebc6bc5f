using Leafstop.Core.Text;

namespace Leafstop.Core.Quantities;

/// <summary>An f-number: focal length over the diameter of the entrance pupil.</summary>
/// <remarks>An engraved mark and the ratio it stands for differ: the ring says 11, the optics mean 2^(7/2) = 11.314.
/// <see cref="FromMarking"/> takes the mark, <see cref="FromRatio"/> the literal number.</remarks>
public sealed record FNumber : IComparable<FNumber>
{
    private FNumber(double ratio) => Ratio = ratio;

    /// <summary>The literal ratio.</summary>
    public double Ratio { get; }

    /// <summary>Takes the number literally.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not above zero.</exception>
    public static FNumber FromRatio(double ratio) => double.IsFinite(ratio) && ratio > 0
        ? new FNumber(ratio)
        : throw new ArgumentOutOfRangeException(nameof(ratio), ratio, "An f-number is finite and above zero.");

    /// <summary>Takes an engraved mark for the exact power it stands for; a number that is no mark is taken literally.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not above zero.</exception>
    public static FNumber FromMarking(double mark, DialStep step = DialStep.Thirds) =>
        FromRatio(Marks.FNumbers(step).ExactOf(FromRatio(mark).Ratio));

    /// <summary>The nearest mark of the dial, as an exact power.</summary>
    public FNumber NearestMark(DialStep step = DialStep.Thirds) => new(Marks.FNumbers(step).Nearest(Ratio).Exact);

    /// <inheritdoc/>
    public int CompareTo(FNumber? other) => other is null ? 1 : Ratio.CompareTo(other.Ratio);

    /// <summary>The literal ratio, "f/11.313708498984761": reads back to the same value with <see cref="NumberReading.Literal"/>.</summary>
    public override string ToString() => $"f/{Written.RoundTrip(Ratio)}";

    /// <summary>The mark where the value is one, "f/11"; else the ratio to three figures.</summary>
    public string ToDisplay(DialStep step = DialStep.Thirds) => $"f/{Written.Short(Marks.FNumbers(step).LabelOf(Ratio) ?? Ratio)}";

    /// <summary>Reads "f/11", "f11", "11", "F/5.6".</summary>
    /// <exception cref="FormatException">Not an f-number; the message says why.</exception>
    public static FNumber Parse(string text, NumberReading reading = NumberReading.Marks) =>
        TryParse(text, out FNumber? value, out string why, reading) ? value! : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out FNumber? value, out string why, NumberReading reading = NumberReading.Marks)
    {
        value = null;
        string bare = Written.Without(text, "f/", "f");
        if (!Written.TryPositive(bare, [], "an f-number such as f/11", out double number, out why))
            return false;
        value = reading == NumberReading.Marks ? FromMarking(number) : FromRatio(number);
        return true;
    }

    /// <summary>Orders by ratio: the larger lets less light in.</summary>
    public static bool operator <(FNumber left, FNumber right) => left.Ratio < right.Ratio;

    /// <summary>Orders by ratio.</summary>
    public static bool operator >(FNumber left, FNumber right) => left.Ratio > right.Ratio;

    /// <summary>Orders by ratio.</summary>
    public static bool operator <=(FNumber left, FNumber right) => left.Ratio <= right.Ratio;

    /// <summary>Orders by ratio.</summary>
    public static bool operator >=(FNumber left, FNumber right) => left.Ratio >= right.Ratio;
}
