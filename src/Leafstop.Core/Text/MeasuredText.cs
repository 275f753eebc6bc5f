namespace Leafstop.Core.Text;

/// <summary>Numbers with a unit behind them, as people write them: 60cm, 12 km/h, 1.43'.</summary>
internal static class MeasuredText
{
    /// <summary>Reads a number with its unit.</summary>
    /// <param name="text">What was written.</param>
    /// <param name="units">Units, case ignored, those first whose ending another one is; each with its size in the unit kept.</param>
    /// <param name="wanted">What should have been written, such as "a length such as 60cm".</param>
    /// <param name="noun">What it is, such as "a length".</param>
    /// <param name="unitsInWords">The units to name when none is there.</param>
    /// <param name="mayBeNegative">True where a value below zero has a meaning.</param>
    /// <param name="value">The value in the unit kept; finite.</param>
    /// <param name="why">A sentence when it cannot be read; else empty.</param>
    public static bool TryRead(string? text, (string Unit, double Size)[] units, string wanted, string noun, string unitsInWords,
        bool mayBeNegative, out double value, out string why)
    {
        value = 0;
        string trimmed = (text ?? "").Trim();
        foreach ((string unit, double size) in units)
        {
            if (!trimmed.EndsWith(unit, StringComparison.OrdinalIgnoreCase))
                continue;
            if (!Written.TryNumber(trimmed[..^unit.Length], [], wanted, out double number, out why))
            {
                // Letters before a unit are a unit that is not known here: what was written is quoted whole.
                if (trimmed.Length > unit.Length && char.IsLetter(trimmed[^(unit.Length + 1)]))
                    why = NoUnit(trimmed, unitsInWords, wanted);
                return false;
            }
            double total = number * size;
            if (double.IsFinite(total) && (number >= 0 || mayBeNegative))
            {
                value = total;
                return true;
            }
            why = double.IsFinite(total)
                ? $"'{trimmed}' is not {noun}: {noun} is not below zero."
                : $"'{trimmed}' is too large for {noun}.";
            return false;
        }
        why = trimmed.Length == 0
            ? $"A value is missing: write {wanted}."
            : NoUnit(trimmed, unitsInWords, wanted);
        return false;
    }

    private static string NoUnit(string text, string unitsInWords, string wanted) => $"'{text}' has no unit{(char.IsAsciiDigit(text[^1]) ? "" : " that is known here")}: write {unitsInWords} after the number, as in {wanted}.";
}
