using System.Globalization;
using System.Text;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;

namespace Leafstop.Pocket;

/// <summary>Small pieces of HTML. Whatever came from outside goes through <see cref="Text"/>.</summary>
internal static class Html
{
    /// <summary>Escaped text.</summary>
    /// <remarks>The platform's own escaping prepares a search that a browser takes longer to interpret than the whole text is worth.</remarks>
    public static string Text(string text)
    {
        StringBuilder? escaped = null;
        for (int i = 0; i < text.Length; i++)
        {
            string? instead = text[i] switch { '&' => "&amp;", '<' => "&lt;", '>' => "&gt;", '"' => "&quot;", '\'' => "&#39;", _ => null };
            if (instead is not null)
                escaped ??= new StringBuilder(text, 0, i, text.Length + 16);
            if (escaped is not null)
                _ = instead is null ? escaped.Append(text[i]) : escaped.Append(instead);
        }
        return escaped is null ? text : escaped.ToString();
    }

    /// <summary>Stops in thirds with true fractions; copying gives "2 1/3" back.</summary>
    public static string Thirds(Stops stops) => Fraction(stops.ToDisplay());

    /// <summary>The size of some stops in thirds, and in halves where it is one.</summary>
    public static string Size(Stops stops) => Fraction(SizeText(stops));

    /// <summary>The same as plain text.</summary>
    public static string SizeText(Stops stops)
    {
        string words = PlanSentences.StopsWords(Stops.Of(Math.Abs(stops.Value)));
        return words[..words.LastIndexOf(' ')];
    }

    /// <summary>An ISO as it is dialled, thousands parted from 10 000 on.</summary>
    public static string Iso(Iso iso)
    {
        string text = iso.ToDisplay();
        return text.Length > 4 && text.All(char.IsAsciiDigit) ? $"{text[..^3]}\u2009{text[^3..]}" : text;
    }

    /// <summary>A number for a machine: an attribute of a data element.</summary>
    public static string Exact(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>A coordinate, to the hundredth.</summary>
    /// <remarks>By whole numbers: a format in words is interpreted for longer than a staff takes to draw.</remarks>
    public static string At(double value)
    {
        int hundredths = (int)Math.Round(Math.Abs(value) * 100), part = hundredths % 100;
        string whole = (hundredths / 100).ToString(CultureInfo.InvariantCulture);
        string text = part == 0 ? whole : part % 10 == 0 ? $"{whole}.{(char)('0' + part / 10)}" : $"{whole}.{(char)('0' + part / 10)}{(char)('0' + part % 10)}";
        return value < 0 && hundredths > 0 ? "-" + text : text;
    }

    /// <summary>A button.</summary>
    public static string Button(string act, string css, string inner, string? label = null, bool? pressed = null) =>
        $"<button type=\"button\" class=\"{css}\" data-act=\"{Text(act)}\"{(label is null ? "" : $" aria-label=\"{Text(label)}\"")}{(pressed is { } p ? $" aria-pressed=\"{(p ? "true" : "false")}\"" : "")}>{inner}</button>";

    /// <summary>The doors at the foot.</summary>
    public static string Doors(params ReadOnlySpan<(string Act, string Words)> doors)
    {
        StringBuilder html = new("<nav class=\"tools\" aria-label=\"Doors\">");
        foreach ((string act, string words) in doors)
            html.Append(Button(act, "", Text(words)));
        return html.Append("</nav>").ToString();
    }

    private static string Fraction(string text)
    {
        if (!text.Contains('/', StringComparison.Ordinal))
            return text;
        int space = text.LastIndexOf(' ');
        return space >= 0 ? $"<span class=\"nb\">{text[..space]}<span class=\"fr\"> {text[(space + 1)..]}</span></span>"
            : text[0] == '\u2212' ? $"\u2212<span class=\"fr\">{text[1..]}</span>" : $"<span class=\"fr\">{text}</span>";
    }
}
