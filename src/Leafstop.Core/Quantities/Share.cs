using Leafstop.Core.Text;

namespace Leafstop.Core.Quantities;

/// <summary>A part of a whole, 0 to 1. The default is nothing of it.</summary>
public readonly record struct Share : IComparable<Share>
{
    private Share(double value) => Value = value;

    /// <summary>All of it.</summary>
    public static Share Whole { get; } = new(1);

    /// <summary>The part, 0 to 1.</summary>
    public double Value { get; }

    /// <summary>The part in hundredths.</summary>
    public double Percent => Value * 100;

    /// <summary>Takes a part.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Below 0, above 1 or no number.</exception>
    public static Share Of(double value) => value is >= 0 and <= 1
        ? new Share(value)
        : throw new ArgumentOutOfRangeException(nameof(value), value, "A share is from 0 to 1.");

    /// <inheritdoc/>
    public int CompareTo(Share other) => Value.CompareTo(other.Value);

    /// <summary>The part as a plain number that reads back to the same value in any culture.</summary>
    public override string ToString() => Written.RoundTrip(Value);

    /// <summary>To three figures in hundredths, "66.7 %".</summary>
    public string ToDisplay() => $"{Written.Short(Percent)} %";

    /// <summary>Reads "0.67", "2/3", "67%", "4 %".</summary>
    /// <exception cref="FormatException">Not a share; the message says why.</exception>
    public static Share Parse(string text) => TryParse(text, out Share share, out string why) ? share : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out Share share, out string why)
    {
        share = default;
        string trimmed = (text ?? "").Trim();
        bool isPercent = trimmed.EndsWith('%');
        if (!Written.TryNumber(isPercent ? trimmed[..^1] : trimmed, [], "a share such as 0.67, 2/3 or 67%", out double number, out why))
            return false;
        double value = isPercent ? number / 100 : number;
        if (value is not (>= 0 and <= 1))
        {
            why = $"'{trimmed}' is no share: write a number from 0 to 1, or up to 100%.";
            return false;
        }
        share = new Share(value);
        return true;
    }

    /// <summary>Orders by size.</summary>
    public static bool operator <(Share left, Share right) => left.Value < right.Value;

    /// <summary>Orders by size.</summary>
    public static bool operator >(Share left, Share right) => left.Value > right.Value;

    /// <summary>Orders by size.</summary>
    public static bool operator <=(Share left, Share right) => left.Value <= right.Value;

    /// <summary>Orders by size.</summary>
    public static bool operator >=(Share left, Share right) => left.Value >= right.Value;
}
