using Leafstop.Core.Text;

namespace Leafstop.Core.Quantities;

/// <summary>A difference of light, in stops: one stop is a factor of two. The default is no difference.</summary>
public readonly record struct Stops : IComparable<Stops>
{
    /// <summary>Values closer than this, in stops, count as equal when a value is set against a mark or a limit: far below what any
    /// camera can set, far above the rounding of double arithmetic.</summary>
    public const double Hair = 1e-9;

    private Stops(double value) => Value = value;

    /// <summary>Stops as a plain number; positive = more.</summary>
    public double Value { get; }

    /// <summary>Takes a number of stops.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static Stops Of(double stops) => double.IsFinite(stops)
        ? new Stops(stops)
        : throw new ArgumentOutOfRangeException(nameof(stops), stops, "A number of stops is finite.");

    /// <summary>Takes thirds of a stop: 7 is 2 1/3.</summary>
    public static Stops FromThirds(int thirds) => new(thirds / 3.0);

    /// <summary>The stops of a ratio of light: log2.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is not finite or not above zero.</exception>
    public static Stops FromRatio(double ratio) => double.IsFinite(ratio) && ratio > 0
        ? new Stops(Math.Log2(ratio))
        : throw new ArgumentOutOfRangeException(nameof(ratio), ratio, "A ratio of light is finite and above zero.");

    /// <summary>The ratio of light: 2 to the power of the stops.</summary>
    public double Ratio => Math.Pow(2, Value);

    /// <summary>The nearest third; half-way goes up.</summary>
    public Stops NearestThird() => new(Math.Floor(Value * 3 + 0.5 + Hair) / 3);

    /// <summary>The third at or below.</summary>
    public Stops ThirdAtOrBelow() => new(Math.Floor(Value * 3 + Hair) / 3);

    /// <inheritdoc/>
    public int CompareTo(Stops other) => Value.CompareTo(other.Value);

    /// <summary>Equal values. Written out, for the comparer that a record asks for is made by reflection, which the start of the pocket page would wait for.</summary>
    public bool Equals(Stops other) => Value.Equals(other.Value);

    /// <inheritdoc/>
    public override int GetHashCode() => Value.GetHashCode();

    /// <summary>The stops as a plain decimal number that reads back to the same value in any culture.</summary>
    public override string ToString() => Written.RoundTrip(Value);

    /// <summary>The nearest third as people write it: "2 1/3", "−2/3", "0". The minus is U+2212.</summary>
    public string ToDisplay() => Written.Thirds(NearestThird().Value);

    /// <summary>Reads "2 1/3", "-2/3", "2.33", "1 stop". The minus covers the whole; − is read as a hyphen.</summary>
    /// <exception cref="FormatException">Not a number of stops; the message says why.</exception>
    public static Stops Parse(string text) => TryParse(text, out Stops stops, out string why) ? stops : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out Stops stops, out string why)
    {
        stops = default;
        if (!Written.TryNumber(text, ["stops", "stop", "EV"], "a number of stops such as 2 1/3 or -2/3", out double value, out why))
            return false;
        stops = new Stops(value);
        return true;
    }

    /// <summary>The sum.</summary>
    public static Stops operator +(Stops left, Stops right) => Of(left.Value + right.Value);

    /// <summary>The difference.</summary>
    public static Stops operator -(Stops left, Stops right) => Of(left.Value - right.Value);

    /// <summary>As many stops the other way.</summary>
    public static Stops operator -(Stops stops) => new(-stops.Value);

    /// <summary>A multiple.</summary>
    public static Stops operator *(Stops stops, double factor) => Of(stops.Value * factor);

    /// <summary>Orders by size.</summary>
    public static bool operator <(Stops left, Stops right) => left.Value < right.Value;

    /// <summary>Orders by size.</summary>
    public static bool operator >(Stops left, Stops right) => left.Value > right.Value;

    /// <summary>Orders by size.</summary>
    public static bool operator <=(Stops left, Stops right) => left.Value <= right.Value;

    /// <summary>Orders by size.</summary>
    public static bool operator >=(Stops left, Stops right) => left.Value >= right.Value;
}
