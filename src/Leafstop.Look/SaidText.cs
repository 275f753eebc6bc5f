namespace Leafstop.Look;

/// <summary>Sentences of an answer on a page: thirds of a stop as true fractions, and the word for how a number is known on its rule instead of in brackets.</summary>
public static class SaidText
{
    private static readonly (string Word, string Line)[] Words = [("measured", "k k-m"), ("worked out", "k k-w"), ("rule of thumb", "k k-t")];

    /// <summary>Writes sentences that end in "(measured)", "(worked out)" or "(rule of thumb)" where they hold numbers.</summary>
    public static Markup Said(this Markup page, string text)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(text);
        // Two kinds of knowing in one bracket.
        text = text.Replace("(worked out; stretch: rule of thumb)", "(worked out), stretch (rule of thumb)", StringComparison.Ordinal);
        int from = 0;
        while (from < text.Length)
        {
            (int at, int word) = Next(text, from);
            if (at < 0)
                break;
            page.Fractions(text[from..at]).Element("span", Words[word].Word, ("class", Words[word].Line));
            from = at + Words[word].Word.Length + 2;
        }
        return page.Fractions(text[from..]);
    }

    private static (int At, int Word) Next(string text, int from)
    {
        (int At, int Word) first = (-1, 0);
        for (int word = 0; word < Words.Length; word++)
        {
            int at = text.IndexOf($"({Words[word].Word})", from, StringComparison.Ordinal);
            if (at >= 0 && (first.At < 0 || at < first.At))
                first = (at, word);
        }
        return first;
    }
}
