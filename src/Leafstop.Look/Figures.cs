using System.Globalization;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look;

/// <summary>Numbers as they are written in a sentence or a table: true minus, thin space from 10 000, no-break space before a unit.</summary>
/// <remarks>pages keep these characters; the terminal turns both spaces into plain ones after it has wrapped its lines.</remarks>
public static class Figures
{
    /// <summary>U+00A0, between a number and its unit.</summary>
    public const char NoBreak = '\u00A0';

    /// <summary>U+2009, between thousands.</summary>
    public const char Thin = '\u2009';

    /// <summary>e⁻ on a terminal, whose letters cannot be raised.</summary>
    public const string Electrons = "e\u2212";

    /// <summary>Unit of gain on a terminal.</summary>
    public const string ElectronsPerDn = "e\u2212/DN";

    private const char Minus = '\u2212';

    /// <summary>A sentence as it goes on after a colon: the first letter small, unless it begins a name such as ISO.</summary>
    public static string Uncapital(string sentence) =>
        sentence.Length > 1 && char.IsUpper(sentence[0]) && !char.IsUpper(sentence[1]) ? char.ToLowerInvariant(sentence[0]) + sentence[1..] : sentence;

    /// <summary>A number with a fixed count of decimals; "–" is never printed for a missing one, the caller leaves it empty.</summary>
    public static string Fixed(double value, int decimals)
    {
        string digits = Math.Abs(value).ToString("F" + decimals, CultureInfo.InvariantCulture);
        int whole = digits.IndexOf('.', StringComparison.Ordinal) is var dot && dot < 0 ? digits.Length : dot;
        if (whole >= 5)
        {
            for (int at = whole - 3; at > 0; at -= 3)
                digits = digits.Insert(at, Thin.ToString());
        }

        bool isZero = digits.All(c => c is '0' or '.');
        return value < 0 && !isZero ? Minus + digits : digits;
    }

    /// <summary>A number to about three significant digits, for quantities that span many powers of ten.</summary>
    public static string Significant(double value) => Fixed(value, Decimals(value));

    /// <summary>Gain, e⁻/DN: three decimals, five below 0.02.</summary>
    public static string Gain(double value) => Fixed(value, Math.Abs(value) < 0.02 ? 5 : 3);

    /// <summary>Half of a 95 % interval, with as many decimals as the value beside it.</summary>
    public static string PlusMinus(Estimate estimate, int decimals) => "±" + NoBreak + Fixed((estimate.High - estimate.Low) / 2, decimals);

    /// <summary>A 95 % interval in words: "1.44 to 1.56".</summary>
    public static string Between(Estimate estimate, int decimals) => $"{Fixed(estimate.Low, decimals)} to {Fixed(estimate.High, decimals)}";

    /// <summary>The bare number of an ISO.</summary>
    public static string Speed(Iso iso) => Fixed(iso.Speed, iso.Speed < 10 || Math.Abs(iso.Speed - Math.Round(iso.Speed)) < 0.005 ? 0 : 1);

    /// <summary>An ISO as the camera dials it, 503.97 as "500", 25 600 with its thin space.</summary>
    public static string Dial(Iso iso)
    {
        string mark = iso.ToDisplay();
        return mark.All(char.IsAsciiDigit) ? Fixed(double.Parse(mark, CultureInfo.InvariantCulture), 0) : mark;
    }

    /// <summary>"ISO 1600".</summary>
    public static string Name(Iso iso) => $"ISO{NoBreak}{Speed(iso)}";

    /// <summary>"ISO 100, 200 and 400".</summary>
    public static string Names(IEnumerable<Iso> isos) => $"ISO{NoBreak}{List(isos.Select(Speed))}";

    /// <summary>"a, b and c".</summary>
    public static string List(IEnumerable<string> items)
    {
        string[] all = [.. items];
        return all.Length < 2 ? string.Concat(all) : $"{string.Join(", ", all[..^1])} and {all[^1]}";
    }

    /// <summary>Stops as they are dialled: thirds as a fraction, other values with two decimals.</summary>
    public static string Stops(double stops)
    {
        double thirds = stops * 3;
        if (Math.Abs(thirds - Math.Round(thirds)) > 0.06)
            return Fixed(stops, 2);
        int count = (int)Math.Abs(Math.Round(thirds));
        string whole = count >= 3 || count == 0 ? (count / 3).ToString(CultureInfo.InvariantCulture) : "";
        string part = count % 3 == 0 ? "" : $"{count % 3}/3";
        string text = whole.Length > 0 && part.Length > 0 ? $"{whole}{NoBreak}{part}" : whole + part;
        return stops < 0 && count > 0 ? Minus + text : text;
    }

    /// <summary>"2/3 stop", "3 stops".</summary>
    public static string StopsOf(double stops) => $"{Stops(stops)}{NoBreak}{(Math.Abs(stops) > 1.02 ? "stops" : "stop")}";

    /// <summary>A share as whole per cent, one decimal below one per cent.</summary>
    public static string Percent(double share) => $"{Fixed(share * 100, Math.Abs(share) is > 0.0005 and < 0.00995 ? 1 : 0)}{NoBreak}%";

    /// <summary>A tone: "mid-grey", "−5 EV".</summary>
    public static string Tone(double ev) => Math.Abs(ev) < 1e-9 ? "mid-grey" : $"{Fixed(ev, ev == Math.Round(ev) ? 0 : 1)}{NoBreak}EV";

    /// <summary>A length in the unit that people use: cm from 10 cm, else mm.</summary>
    public static string Length(double mm) => mm >= 100 ? $"{Trimmed(mm / 10)}{NoBreak}cm" : $"{Trimmed(mm)}{NoBreak}mm";

    /// <summary>A shutter time on the line: 1/125, 1/4, 8.</summary>
    public static string Shutter(double seconds) => seconds >= 0.3
        ? $"{Trimmed(seconds)}{NoBreak}s"
        : $"1/{Fixed(Math.Round(1 / seconds), 0)}{NoBreak}s";

    /// <summary>Small counts in words, as a sentence begins with them.</summary>
    public static string Count(int n) => n is >= 0 and <= 12
        ? new[] { "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve" }[n]
        : Fixed(n, 0);

    private static string Trimmed(double value) => Math.Abs(value - Math.Round(value)) < 0.05 ? Fixed(value, 0) : Fixed(value, 1);

    private static int Decimals(double value) => Math.Abs(value) switch { >= 100 => 0, >= 10 => 1, >= 1 => 2, _ => 3 };
}
