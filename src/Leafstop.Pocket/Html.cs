using System.Globalization;
using System.Net;
using System.Text;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;

namespace Leafstop.Pocket;

/// <summary>Small pieces of HTML. Whatever came from outside goes through <see cref="Text"/>.</summary>
internal static class Html
{
    /// <summary>Escaped text.</summary>
    public static string Text(string text) => WebUtility.HtmlEncode(text);

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

    /// <summary>A coordinate.</summary>
    public static string At(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

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
        return space >= 0 ? $"{text[..space]}<span class=\"fr\"> {text[(space + 1)..]}</span>"
            : text[0] == '\u2212' ? $"\u2212<span class=\"fr\">{text[1..]}</span>" : $"<span class=\"fr\">{text}</span>";
    }
}
