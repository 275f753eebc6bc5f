using Leafstop.Core.Quantities;

namespace Leafstop.Look;

/// <summary>Sentences on the page: thirds and halves of a stop become true fractions, a number with thin spaces stays on one line, electrons get their raised minus, and the word for how a number is known gets its rule.</summary>
public static class Prose
{
    private const char RaisedMinus = '\u207B';

    /// <summary>Writes a sentence. A shutter time stays on the line: 1/3 followed by s is left alone.</summary>
    public static Markup Say(this Markup page, string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        int from = 0;
        for (int at = 0; at < text.Length;)
        {
            int length = MarkAt(text, at);
            if (length == 0)
            {
                at++;
                continue;
            }

            page.Text(text[from..at]);
            string mark = text[at..(at + length)];
            if (mark[0] == 'e')
                page.Electron();
            else
                page.Element("span", mark, ("class", mark.Contains(Figures.Thin, StringComparison.Ordinal) ? "nb" : "fr"));
            from = at += length;
        }

        return page.Text(text[from..]);
    }

    /// <summary>Writes a sentence and how it is known.</summary>
    public static Markup Say(this Markup page, Statement statement)
    {
        page.Say(statement.Text);
        if (statement.Known is { } known)
            page.Text(" ").Known(known);
        return page;
    }

    /// <summary>The word with its rule: solid, broken or dotted.</summary>
    public static Markup Known(this Markup page, HowKnown known) => page.Element(
        "span",
        Statement.Word(known),
        ("class", known switch { HowKnown.Measured => "k k-m", HowKnown.WorkedOut => "k k-w", _ => "k k-t" }));

    /// <summary>e⁻ as the page writes it.</summary>
    public static Markup Electron(this Markup page) => page.Text("e").Element("sup", "\u2212");

    // Read by hand: a page in the browser would have to fetch a whole library for one pattern.
    private static int MarkAt(string text, int at) =>
        text[at] == 'e' && Is(text, at + 1, RaisedMinus) ? 2
        : !char.IsAsciiDigit(text[at]) || (at > 0 && char.IsAsciiDigit(text[at - 1])) ? 0
        : Grouped(text, at) is > 0 and var grouped ? grouped
        : StopsText.IsFraction(text, at) ? 3
        : 0;

    /// <summary>Length of a number with thin spaces between its thousands; 0 for any other.</summary>
    private static int Grouped(string text, int at)
    {
        int end = at;
        while (end < text.Length && char.IsAsciiDigit(text[end]))
            end++;
        if (end - at > 3)
            return 0;
        int first = end;
        while (Is(text, end, Figures.Thin) && end + 3 < text.Length && text.AsSpan(end + 1, 3).IndexOfAnyExceptInRange('0', '9') < 0)
            end += 4;
        return end > first ? end - at : 0;
    }

    private static bool Is(string text, int at, char wanted) => at < text.Length && text[at] == wanted;
}
