using System.Text;

namespace Leafstop.Pocket.Screens;

/// <summary>Rows that several screens share.</summary>
internal static class Parts
{
    /// <summary>A dial between its label and its two steps.</summary>
    public static string Step(PocketPage page, string name, string css = "") => Step(page, Dials.Of(name), css);

    /// <summary>A dial between its label and its two steps.</summary>
    public static string Step(PocketPage page, Dial dial, string css = "")
    {
        string now = GapWords.Plain(dial.Shown(page));
        return $"<div class=\"step {css}\" role=\"group\" aria-label=\"{Html.Text(dial.Label)}\">{Value(page, dial)}"
            + Html.Button($"step:{dial.Name}:-1", "pm", "−", $"{dial.Label}, {dial.Unit} less: now {now}")
            + Html.Button($"step:{dial.Name}:+1", "pm", "+", $"{dial.Label}, {dial.Unit} more: now {now}") + "</div>";
    }

    /// <summary>Dials below one another; in a short window two to a row, each with its sheet alone.</summary>
    public static string Steps(PocketPage page, params ReadOnlySpan<Dial> dials)
    {
        StringBuilder html = new();
        foreach (Dial dial in dials)
            html.Append(Step(page, dial, "full"));
        for (int i = 0; i < dials.Length; i += 2)
            html.Append($"<div class=\"step {(i + 1 < dials.Length ? "two" : "one")} fold\">{Value(page, dials[i])}{(i + 1 < dials.Length ? Value(page, dials[i + 1]) : "")}</div>");
        return html.ToString();
    }

    /// <summary>A dial's value, which opens its sheet.</summary>
    public static string Value(PocketPage page, Dial dial)
    {
        string shown = dial.Shown(page), plain = GapWords.Plain(shown);
        return Html.Button(
            $"go:pick:{dial.Name}:0:{page.State.ScreenName}", "val", $"<span class=\"lb\">{Html.Text(dial.Label)}</span> <span class=\"out{(plain.Length > 8 ? " small" : "")} num\">{shown}</span>",
            $"{dial.Label} {plain}, pick another");
    }

    /// <summary>A table; the first column is its head.</summary>
    public static string Table(IReadOnlyList<string> heads, IEnumerable<IReadOnlyList<string>> rows)
    {
        StringBuilder html = new("<table><thead><tr>");
        foreach (string head in heads)
            html.Append("<th scope=\"col\">").Append(head).Append("</th>");
        html.Append("</tr></thead><tbody>");
        foreach (IReadOnlyList<string> row in rows)
        {
            html.Append("<tr><th scope=\"row\">").Append(row[0]).Append("</th>");
            foreach (string cell in row.Skip(1))
                html.Append("<td>").Append(cell).Append("</td>");
            html.Append("</tr>");
        }
        return html.Append("</tbody></table>").ToString();
    }

    /// <summary>A whole inner screen: what is told, what can be set, the doors.</summary>
    public static string Inner(string where, string verdict, string told, string set, params ReadOnlySpan<(string Act, string Words)> doors) =>
        $"<section class=\"told\"><p class=\"where\"{(where.Length > 0 ? "" : " aria-hidden=\"true\"")}>{where}</p><h1 class=\"pv\">{verdict}</h1>{told}</section><div class=\"set\">{set}</div>{Html.Doors(doors)}";
}
