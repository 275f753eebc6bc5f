using Leafstop.Core.Text;

namespace Leafstop.Core.Quantities;

/// <summary>An exposure time, above zero.</summary>
/// <remarks>An engraved mark and the time it stands for differ: 1/60 is 1/64 s, 30 is 32 s. <see cref="FromMarking"/> takes the mark,
/// <see cref="FromSeconds"/> the literal number.</remarks>
public sealed record ShutterTime : IComparable<ShutterTime>
{
    private ShutterTime(double seconds) => Seconds = seconds;

    /// <summary>Literal seconds.</summary>
    public double Seconds { get; }

    /// <summary>Takes seconds literally.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not above zero.</exception>
    public static ShutterTime FromSeconds(double seconds) => double.IsFinite(seconds) && seconds > 0
        ? new ShutterTime(seconds)
        : throw new ArgumentOutOfRangeException(nameof(seconds), seconds, "An exposure time is finite and above zero.");

    /// <summary>Takes an engraved mark, in seconds, for the exact power it stands for; a number that is no mark is taken literally.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not above zero.</exception>
    public static ShutterTime FromMarking(double seconds, DialStep step = DialStep.Thirds) =>
        FromSeconds(Marks.Shutters(step).ExactOf(FromSeconds(seconds).Seconds));

    /// <summary>The nearest mark of the dial, as an exact power.</summary>
    public ShutterTime NearestMark(DialStep step = DialStep.Thirds) => new(Marks.Shutters(step).Nearest(Seconds).Exact);

    /// <summary>The longest mark that is not longer than this, as an exact power; the shortest mark when all are longer.</summary>
    public ShutterTime MarkAtOrBelow(DialStep step = DialStep.Thirds) => new(Marks.Shutters(step).AtOrBelow(Seconds).Exact);

    /// <inheritdoc/>
    public int CompareTo(ShutterTime? other) => other is null ? 1 : Seconds.CompareTo(other.Seconds);

    /// <summary>Literal seconds, "0.015625 s": reads back to the same value with <see cref="NumberReading.Literal"/>.</summary>
    public override string ToString() => $"{Written.RoundTrip(Seconds)} s";

    /// <summary>The mark where the value is one, "1/60 s", "0.3 s"; else seconds or the fraction to three figures.</summary>
    public string ToDisplay(DialStep step = DialStep.Thirds)
    {
        double shown = Marks.Shutters(step).LabelOf(Seconds) ?? Seconds;
        // 1/4 and shorter is written as a fraction on every dial, longer as a decimal number.
        return shown <= 0.25 + Stops.Hair ? $"1/{Written.Short(1 / shown)} s" : $"{Written.Short(shown)} s";
    }

    /// <summary>Reads "1/4", "1/4s", "0.3 s", "30", "8 s", "2\"".</summary>
    /// <exception cref="FormatException">Not an exposure time; the message says why.</exception>
    public static ShutterTime Parse(string text, NumberReading reading = NumberReading.Marks) =>
        TryParse(text, out ShutterTime? value, out string why, reading) ? value! : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out ShutterTime? value, out string why, NumberReading reading = NumberReading.Marks)
    {
        value = null;
        if (!Written.TryPositive(text, ["seconds", "second", "sec", "s", "\""], "an exposure time such as 1/4 or 0.3s", out double number, out why))
            return false;
        value = reading == NumberReading.Marks ? FromMarking(number) : FromSeconds(number);
        return true;
    }

    /// <summary>Orders by length.</summary>
    public static bool operator <(ShutterTime left, ShutterTime right) => left.Seconds < right.Seconds;

    /// <summary>Orders by length.</summary>
    public static bool operator >(ShutterTime left, ShutterTime right) => left.Seconds > right.Seconds;

    /// <summary>Orders by length.</summary>
    public static bool operator <=(ShutterTime left, ShutterTime right) => left.Seconds <= right.Seconds;

    /// <summary>Orders by length.</summary>
    public static bool operator >=(ShutterTime left, ShutterTime right) => left.Seconds >= right.Seconds;
}
