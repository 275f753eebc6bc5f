namespace Leafstop.Look;

/// <summary>Stops as they are printed: thirds as true fractions. The text stays "2 1/3", so that copying gives it back.</summary>
public static class StopsText
{
    /// <summary>Writes a text in which every third and half stands as a fraction; shutter times such as 1/125 or 1/3 s are left on the line.</summary>
    public static Markup Fractions(this Markup page, string text, string tag = "span")
    {
        int from = 0;
        for (int at = 0; at + 3 <= text.Length; at++)
        {
            if (!IsFraction(text, at))
                continue;
            page.Text(text[from..at]).Element(tag, text[at..(at + 3)], ("class", "fr"));
            from = at + 3;
        }
        return page.Text(text[from..]);
    }

    /// <summary>True where a third or a half of a stop begins: no part of a longer number, and no time.</summary>
    internal static bool IsFraction(string text, int at)
    {
        if (at + 3 > text.Length || text.AsSpan(at, 3) is not ("1/2" or "1/3" or "2/3") || (at > 0 && (char.IsAsciiDigit(text[at - 1]) || text[at - 1] is '/' or '.')))
            return false;
        ReadOnlySpan<char> after = text.AsSpan(at + 3);
        bool goesOn = after is [>= '0' and <= '9', ..] or ['/', ..] or ['.', >= '0' and <= '9', ..];
        return !goesOn && !(after.TrimStart() is ['s', .. var rest] && (rest.IsEmpty || !char.IsLetterOrDigit(rest[0])));
    }
}
