using Leafstop.Core.Text;

namespace Leafstop.Core.Quantities;

/// <summary>An exposure value, EV: a position on the scale of light. Two of them differ by <see cref="Stops"/>. The default is EV 0.</summary>
/// <remarks>Source: EXP-01, EXP-02 and EXP-36 (HDRI, APEXW in docs/sources.md). EV = log2(N²/t); EV100 = EV − log2(S/100).</remarks>
public readonly record struct ExposureValue : IComparable<ExposureValue>
{
    private ExposureValue(double value) => Value = value;

    /// <summary>The exposure value as a plain number.</summary>
    public double Value { get; }

    /// <summary>Takes a number.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static ExposureValue Of(double value) => double.IsFinite(value)
        ? new ExposureValue(value)
        : throw new ArgumentOutOfRangeException(nameof(value), value, "An exposure value is finite.");

    /// <summary>What aperture and shutter ask for at ISO 100: log2(N²/t), seconds.</summary>
    public static ExposureValue Of(FNumber aperture, ShutterTime shutter) =>
        Of(2 * Math.Log2(aperture.Ratio) - Math.Log2(shutter.Seconds));

    /// <summary>The light (EV100) for which aperture and shutter are right at an ISO: log2(N²/t) − log2(S/100).</summary>
    public static ExposureValue Of(FNumber aperture, ShutterTime shutter, Iso iso) =>
        Of(aperture, shutter) - Stops.FromRatio(iso.Speed / 100);

    /// <inheritdoc/>
    public int CompareTo(ExposureValue other) => Value.CompareTo(other.Value);

    /// <summary>The value as a plain decimal number that reads back to the same value in any culture.</summary>
    public override string ToString() => Written.RoundTrip(Value);

    /// <summary>The nearest third as people write it: "6 2/3".</summary>
    public string ToDisplay() => Stops.Of(Value).ToDisplay();

    /// <summary>Reads "6 2/3", "-1", "9.5", "EV 9".</summary>
    /// <exception cref="FormatException">Not an exposure value; the message says why.</exception>
    public static ExposureValue Parse(string text) => TryParse(text, out ExposureValue value, out string why) ? value : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out ExposureValue value, out string why)
    {
        value = default;
        string bare = Written.Without(text, "EV100", "EV");
        if (!Written.TryNumber(bare, ["EV"], "an exposure value such as 9 or 6 2/3", out double number, out why))
            return false;
        value = new ExposureValue(number);
        return true;
    }

    /// <summary>How much brighter the left is.</summary>
    public static Stops operator -(ExposureValue left, ExposureValue right) => Stops.Of(left.Value - right.Value);

    /// <summary>Brighter by so many stops.</summary>
    public static ExposureValue operator +(ExposureValue value, Stops stops) => Of(value.Value + stops.Value);

    /// <summary>Darker by so many stops.</summary>
    public static ExposureValue operator -(ExposureValue value, Stops stops) => Of(value.Value - stops.Value);

    /// <summary>Orders by brightness.</summary>
    public static bool operator <(ExposureValue left, ExposureValue right) => left.Value < right.Value;

    /// <summary>Orders by brightness.</summary>
    public static bool operator >(ExposureValue left, ExposureValue right) => left.Value > right.Value;

    /// <summary>Orders by brightness.</summary>
    public static bool operator <=(ExposureValue left, ExposureValue right) => left.Value <= right.Value;

    /// <summary>Orders by brightness.</summary>
    public static bool operator >=(ExposureValue left, ExposureValue right) => left.Value >= right.Value;
}
