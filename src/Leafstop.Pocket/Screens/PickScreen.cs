using System.Text;

namespace Leafstop.Pocket.Screens;

/// <summary>A sheet of values, a row a stop where there are stops; one tap picks and goes back.</summary>
internal static class PickScreen
{
    public static string Of(PocketPage page, Dial dial, int sheet)
    {
        string[] where = page.State.Screen.Split(':');
        string home = where.Length > 3 && where[3] != "pick" ? where[3] : "gap";
        IReadOnlyList<string> pages = dial.Pages(page);
        sheet = Math.Clamp(sheet, 0, pages.Count - 1);
        string now = dial.Shown(page);
        StringBuilder html = new($"<section class=\"picked\"><h1 class=\"say\">{Html.Text(dial.Label)}</h1>{Html.Text(dial.Label)}, now <span class=\"hand\">{now}</span></section><div class=\"pick\"><div class=\"grid\">");
        foreach ((double value, string shown) in dial.Sheet(page, sheet))
            html.Append(Html.Button($"set:{dial.Name}:{Html.Exact(value)}:{home}", "cell num", shown, pressed: shown == now));
        html.Append("</div></div><nav class=\"tools\" aria-label=\"Doors\">").Append(Html.Button($"go:{home}", "", "Back"));
        // Said of the meter, and so said with the reading.
        if (dial == Dials.Under)
            html.Append(Html.Button("polariser", "", page.State.Polariser ? "polariser on" : "polariser off", pressed: page.State.Polariser));
        for (int other = 0; other < pages.Count; other++)
        {
            if (other != sheet)
                html.Append(Html.Button($"go:pick:{dial.Name}:{other}:{home}", "", Html.Text(pages[other])));
        }
        return html.Append("</nav>").ToString();
    }
}
