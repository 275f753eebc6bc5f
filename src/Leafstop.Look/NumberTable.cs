namespace Leafstop.Look;

/// <summary>The numbers of a plot as a table, folded away on the screen.</summary>
public static class NumberTable
{
    /// <summary>Writes the table.</summary>
    /// <param name="page">Page to write on.</param>
    /// <param name="of">What the numbers are of; also the caption.</param>
    /// <param name="heads">Column heads.</param>
    /// <param name="rows">Cells, as many as heads.</param>
    /// <param name="printed">False keeps a long table off the paper.</param>
    public static void Write(Markup page, string of, string[] heads, IEnumerable<string[]> rows, bool printed)
    {
        page.Open("details", ("class", printed ? "why numbers" : "why numbers screen-only"));
        page.Element("summary", "the numbers");
        page.Open("div", ("class", "note")).Open("div", ("class", "scroll"), ("tabindex", "0"), ("role", "region"), ("aria-label", of));
        page.Open("table").Open("caption").Say(of).Close().Open("thead").Open("tr");
        foreach (string head in heads)
            page.Open("th", ("scope", "col"), ("class", "r")).Say(head).Close();
        page.Close().Close().Open("tbody");
        foreach (string[] row in rows)
        {
            page.Open("tr").Element("th", row[0], ("scope", "row"), ("class", "r"));
            foreach (string cell in row.Skip(1))
                page.Element("td", cell, ("class", "r"));
            page.Close();
        }

        page.Close().Close().Close().Close().Close().Line();
    }
}
