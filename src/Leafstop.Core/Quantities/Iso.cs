using Leafstop.Core.Text;

namespace Leafstop.Core.Quantities;

/// <summary>An ISO speed: the arithmetic exposure index that a camera is set to.</summary>
/// <remarks>Above zero and finite. A dialled mark such as 500 and the exact power 100 · 2^(7/3) = 503.97 are different
/// values; <see cref="FromSpeed"/> keeps the number it is given.</remarks>
public sealed record Iso : IComparable<Iso>
{
    private Iso(double speed) => Speed = speed;

    /// <summary>The arithmetic speed, for instance 100 or 503.97.</summary>
    public double Speed { get; }

    /// <summary>Takes the number as it is written.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The speed is not finite or not above zero.</exception>
    public static Iso FromSpeed(double speed) => double.IsFinite(speed) && speed > 0
        ? new Iso(speed)
        : throw new ArgumentOutOfRangeException(nameof(speed), speed, "An ISO speed is finite and above zero.");

    /// <summary>Takes a dialled mark for the exact power it stands for, 500 for 503.97; a number that is no mark is taken literally.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The mark is not finite or not above zero.</exception>
    public static Iso FromMarking(double mark, DialStep step = DialStep.Thirds) =>
        FromSpeed(Marks.Isos(step).ExactOf(FromSpeed(mark).Speed));

    /// <summary>The nearest mark of the dial, as the camera writes it (500, not 503.97); half-way goes up.</summary>
    public Iso NearestDial(DialStep step = DialStep.Thirds) => new(Marks.Isos(step).Nearest(Speed).Label);

    /// <summary>The mark at or below, as the camera writes it: how limits are dialled. The lowest mark when all are higher.</summary>
    public Iso DialAtOrBelow(DialStep step = DialStep.Thirds) => new(Marks.Isos(step).AtOrBelow(Speed).Label);

    /// <summary>How many stops this lies above another.</summary>
    public Stops Above(Iso other) => Stops.FromRatio(Speed / other.Speed);

    /// <summary>The literal speed, "503.968419957949": reads back to the same value with <see cref="NumberReading.Literal"/>.</summary>
    public override string ToString() => Written.RoundTrip(Speed);

    /// <summary>The mark where the value is one, "500"; else the speed to three figures.</summary>
    public string ToDisplay(DialStep step = DialStep.Thirds) => Written.Short(Marks.Isos(step).LabelOf(Speed) ?? Speed);

    /// <summary>Reads "500", "ISO 500", "iso500".</summary>
    /// <exception cref="FormatException">Not an ISO; the message says why.</exception>
    public static Iso Parse(string text, NumberReading reading = NumberReading.Marks) =>
        TryParse(text, out Iso? value, out string why, reading) ? value! : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out Iso? value, out string why, NumberReading reading = NumberReading.Marks)
    {
        value = null;
        string bare = Written.Without(text, "ISO");
        if (!Written.TryPositive(bare, [], "an ISO such as 500", out double number, out why))
            return false;
        value = reading == NumberReading.Marks ? FromMarking(number) : FromSpeed(number);
        return true;
    }

    /// <inheritdoc/>
    public int CompareTo(Iso? other) => other is null ? 1 : Speed.CompareTo(other.Speed);

    /// <summary>Orders by speed.</summary>
    public static bool operator <(Iso left, Iso right) => left.Speed < right.Speed;

    /// <summary>Orders by speed.</summary>
    public static bool operator >(Iso left, Iso right) => left.Speed > right.Speed;

    /// <summary>Orders by speed.</summary>
    public static bool operator <=(Iso left, Iso right) => left.Speed <= right.Speed;

    /// <summary>Orders by speed.</summary>
    public static bool operator >=(Iso left, Iso right) => left.Speed >= right.Speed;
}
