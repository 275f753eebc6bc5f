namespace Leafstop.Look;

/// <summary>Stops as they are printed: thirds as true fractions. The text stays "2 1/3", so that copying gives it back.</summary>
public static class StopsText
{
    /// <summary>Writes a number of stops.</summary>
    /// <param name="page">Page to write on.</param>
    /// <param name="stops">Any number.</param>
    /// <param name="tag">span in text, tspan in a drawing.</param>
    public static Markup Stops(this Markup page, double stops, string tag = "span") => page.Fractions(Figures.Stops(stops), tag);

    /// <summary>Writes a text in which every third stands as a fraction; shutter times such as 1/125 are left on the line.</summary>
    public static Markup Fractions(this Markup page, string text, string tag = "span")
    {
        int from = 0;
        for (int at = 0; at + 3 <= text.Length; at++)
        {
            if (text[at] is not ('1' or '2') || text[at + 1] != '/' || text[at + 2] != '3'
                || (at > 0 && (char.IsAsciiDigit(text[at - 1]) || text[at - 1] is '/' or '.')) || (at + 3 < text.Length && char.IsAsciiDigit(text[at + 3])))
            {
                continue;
            }
            page.Text(text[from..at]).Element(tag, text[at..(at + 3)], ("class", "fr"));
            from = at + 3;
        }
        return page.Text(text[from..]);
    }
}
