using System.Buffers;
using System.Globalization;

namespace Leafstop.Core.Text;

/// <summary>Numbers as people write them, the same in every culture: 1/4, 2 1/3, 2⅓, -2/3, 0.3.</summary>
internal static class Written
{
    private const char TrueMinus = '\u2212';
    private const string Vulgar = "½⅓⅔¼¾⅛";
    private static readonly string[] VulgarSpelt = ["1/2", "1/3", "2/3", "1/4", "3/4", "1/8"];

    /// <summary>The shortest decimal form that reads back to the same double.</summary>
    public static string RoundTrip(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>Three significant figures and never an exponent: 11.3, 0.0781, 504. Whole numbers keep all their figures.</summary>
    public static string Short(double value)
    {
        if (Math.Abs(value - Math.Round(value)) <= 1e-9 * Math.Abs(value))
            return Plain(Math.Round(value));
        int decimals = Math.Clamp(2 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 12);
        return Plain(Math.Round(value, decimals));
    }

    // What is rounded already is its own shortest form, where that needs no exponent. A format in words says the same, but a browser interprets it for longer than all the rest of an answer's numbers.
    private static string Plain(double rounded) => Math.Abs(rounded) is 0 or (>= 1e-4 and < 1e15)
        ? RoundTrip(rounded)
        : rounded.ToString("0.############", CultureInfo.InvariantCulture);

    /// <summary>A whole number of thirds as "2 1/3", with the true minus.</summary>
    public static string Thirds(double value)
    {
        long thirds = (long)Math.Round(Math.Abs(value) * 3);
        string whole = (thirds / 3).ToString(CultureInfo.InvariantCulture);
        string text = (thirds / 3, thirds % 3) switch
        {
            (_, 0) => whole,
            (0, long part) => $"{part}/3",
            (_, long part) => $"{whole} {part}/3",
        };
        return value < 0 && thirds > 0 ? TrueMinus + text : text;
    }

    /// <summary>The text without one of the given beginnings, case ignored.</summary>
    public static string Without(string? text, params ReadOnlySpan<string> beginnings)
    {
        string trimmed = (text ?? "").Trim();
        foreach (string beginning in beginnings)
        {
            if (trimmed.StartsWith(beginning, StringComparison.OrdinalIgnoreCase))
                return trimmed[beginning.Length..].TrimStart();
        }
        return trimmed;
    }

    /// <summary>Reads a number above zero, see <see cref="TryNumber"/>.</summary>
    public static bool TryPositive(string? text, string[] units, string wanted, out double value, out string why)
    {
        if (!TryNumber(text, units, wanted, out value, out why))
            return false;
        if (value > 0)
            return true;
        why = $"'{text!.Trim()}' is not above zero: write {wanted}.";
        return false;
    }

    /// <summary>Reads a decimal number, a fraction or a mixed number, with one of the units behind it or none.</summary>
    /// <param name="text">What was written.</param>
    /// <param name="units">Units that may follow, case ignored, longest first.</param>
    /// <param name="wanted">What should have been written, for the refusal.</param>
    /// <param name="value">The number; finite.</param>
    /// <param name="why">A sentence when it is none; else empty.</param>
    public static bool TryNumber(string? text, string[] units, string wanted, out double value, out string why)
    {
        value = 0;
        string trimmed = (text ?? "").Trim();
        if (trimmed.Length == 0)
        {
            why = $"A number is missing: write {wanted}.";
            return false;
        }
        string bare = trimmed;
        foreach (string unit in units)
        {
            if (bare.EndsWith(unit, StringComparison.OrdinalIgnoreCase))
            {
                bare = bare[..^unit.Length].TrimEnd();
                break;
            }
        }
        bool minus = bare.StartsWith('-') || bare.StartsWith(TrueMinus);
        if (TryUnsigned((minus ? bare[1..] : bare).Trim(), out double size))
        {
            value = minus ? -size : size;
            why = "";
            return true;
        }
        why = trimmed.Contains(',', StringComparison.Ordinal)
            ? $"'{trimmed}' has a comma: write {wanted}, with a point before decimals."
            : $"'{trimmed}' cannot be read: write {wanted}.";
        return false;
    }

    private static bool TryUnsigned(string text, out double value)
    {
        value = 0;
        int sign = text.AsSpan().IndexOfAny(ForReading.AnyVulgar);
        if (sign >= 0)
            text = $"{text[..sign]} {VulgarSpelt[Vulgar.IndexOf(text[sign], StringComparison.Ordinal)]}{text[(sign + 1)..]}".Trim();
        string[] parts = text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length is 0 or > 2 || !TryTerm(parts[^1], out double over, out double under))
            return false;
        if (parts.Length == 1)
            return IsFinite(over / under, out value);
        // One division, so that 1 2/3 is the same double as 5/3.
        return parts[1].Contains('/', StringComparison.Ordinal) && TryDecimal(parts[0], out double whole)
            && IsFinite((whole * under + over) / under, out value);
    }

    private static bool TryTerm(string text, out double over, out double under)
    {
        under = 1;
        int slash = text.IndexOf('/', StringComparison.Ordinal);
        return slash < 0
            ? TryDecimal(text, out over)
            : TryDecimal(text[..slash], out over) && TryDecimal(text[(slash + 1)..], out under) && under > 0;
    }

    // An exponent is allowed because the round-trip form of very small numbers has one.
    private static bool TryDecimal(string text, out double value) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out value)
        && double.IsFinite(value);

    private static bool IsFinite(double number, out double value)
    {
        value = number;
        return double.IsFinite(number);
    }

    // Made when something is read: whoever only writes, as the pocket page at its start, need not wait for it.
    private static class ForReading
    {
        public static readonly SearchValues<char> AnyVulgar = SearchValues.Create(Vulgar);
    }
}
