namespace Leafstop.Look;

/// <summary>A table that becomes stanzas on a narrow page: each row stands by itself, and each cell says its column. No column is ever out of view.</summary>
/// <remarks>Cells that are laid out as blocks would lose their meaning for a screen reader; explicit roles keep it.</remarks>
public static class StanzaTable
{
    /// <summary>Begins the table; the caller closes it with two closings, one for the body and one for the table.</summary>
    /// <param name="page">Page to write on.</param>
    /// <param name="name">What the table is of, for those who hear it.</param>
    /// <param name="className">Names the form of its stanzas.</param>
    /// <param name="heads">Column heads with their units.</param>
    public static void Open(Markup page, string name, string className, IEnumerable<(string Name, string Unit)> heads)
    {
        page.Open("table", ("class", $"stanzas {className}"), ("role", "table"), ("aria-label", name));
        page.Open("thead", ("role", "rowgroup")).Open("tr", ("role", "row"));
        foreach ((string head, string unit) in heads)
        {
            page.Open("th", ("scope", "col"), ("role", "columnheader"), ("class", head == RemarkHead ? "rem" : "r")).Text(head);
            if (unit.Length > 0)
                page.Open("small").Say(unit).Close();
            page.Close();
        }

        page.Close().Close().Open("tbody", ("role", "rowgroup"));
    }

    /// <summary>The one column that holds words.</summary>
    public const string RemarkHead = "Remark";

    /// <summary>Begins a row with its head.</summary>
    public static void Row(Markup page, string className, string before, string head)
    {
        page.Open("tr", ("class", className), ("role", "row")).Open("th", ("scope", "row"), ("role", "rowheader"), ("class", "r"));
        page.Element("span", before, ("class", "cn"));
        page.Text(head).Close();
    }

    /// <summary>A cell with the name of its column, which only a stanza shows; an empty cell has no place in a stanza.</summary>
    public static void Cell(Markup page, string column, bool isEmpty, Action content)
    {
        page.Open("td", ("class", isEmpty ? "r none" : "r"), ("role", "cell"));
        page.Open("span", ("class", "cn")).Say(column + " ").Close();
        page.Open("span", ("class", "cv"));
        content();
        page.Close().Close();
    }
}
