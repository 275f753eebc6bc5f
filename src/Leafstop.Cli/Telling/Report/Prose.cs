using System.Text.RegularExpressions;
using Leafstop.Core.Quantities;

namespace Leafstop.Cli.Telling.Report;

/// <summary>Sentences on the page: thirds of a stop become true fractions, a number with thin spaces stays on one line, electrons get their raised minus, and the word for how a number is known gets its rule.</summary>
internal static partial class Prose
{
    /// <summary>Writes a sentence. A shutter time stays on the line: 1/3 followed by s is left alone.</summary>
    public static Markup Say(this Markup page, string text)
    {
        int from = 0;
        foreach (Match mark in Marks().Matches(text))
        {
            page.Text(text[from..mark.Index]);
            if (mark.Value[0] == 'e')
                page.Electron();
            else if (mark.Value.Contains(Figures.Thin, StringComparison.Ordinal))
                page.Element("span", mark.Value, ("class", "nb"));
            else
                page.Element("span", mark.Value, ("class", "fr"));
            from = mark.Index + mark.Length;
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

    [GeneratedRegex(@"e\u207B|\d{1,3}(?:\u2009\d{3})+|(?<![\d/.])[12]/3(?![\d/])(?!\s?s\b)")]
    private static partial Regex Marks();
}
