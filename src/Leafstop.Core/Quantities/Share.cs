using Leafstop.Core.Text;

namespace Leafstop.Core.Quantities;

/// <summary>A part of a whole, above 0 and at most 1: what a crop keeps of the width of a frame.</summary>
public sealed record Share
{
    /// <summary>All of it.</summary>
    public static readonly Share Whole = new(1);

    private Share(double value) => Value = value;

    /// <summary>The part, above 0, at most 1.</summary>
    public double Value { get; }

    /// <summary>Takes a part.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above 0 or more than 1.</exception>
    public static Share Of(double value) => value is > 0 and <= 1
        ? new Share(value)
        : throw new ArgumentOutOfRangeException(nameof(value), value, "A part is above 0 and at most 1.");

    /// <summary>Reads "0.67", "2/3", "67%", telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out Share? share, out string why)
    {
        share = null;
        string trimmed = (text ?? "").Trim();
        bool isPercent = trimmed.EndsWith('%');
        if (!Written.TryNumber(isPercent ? trimmed[..^1] : trimmed, [], "a part such as 0.67, 2/3 or 67%", out double number, out why))
            return false;
        double value = isPercent ? number / 100 : number;
        if (value is not (> 0 and <= 1))
        {
            why = $"'{trimmed}' is no part of a whole: write a number above 0 and at most 1, such as 2/3.";
            return false;
        }
        share = new Share(value);
        return true;
    }
}
