using System.Globalization;
using System.Text;

namespace Leafstop.Pocket.Screens;

/// <summary>A sheet of values, a row a stop where there are stops; one tap picks and goes back. Where a window is too short for a whole sheet it comes in parts: nothing is dragged.</summary>
internal static class PickScreen
{
    // Heights of page.css, px: a row of three values, and what stands above and below the rows.
    private const int RowHeight = 84, Rest = 122, InRow = 3, LeastRows = 3;

    /// <summary>The home of a sheet that leads on to the next of a whole reading: aperture, shutter, stops under. A new scene then takes a tap for each of them, not two.</summary>
    private const string Reading = "reading";

    /// <summary>The screen after a value of a sheet was picked.</summary>
    /// <param name="dial">Whose value.</param>
    /// <param name="home">Where its sheet was opened from.</param>
    public static string After(Dial dial, string home) => home != Reading ? home : Next(dial) is { } next ? $"pick:{next.Name}:0:{Reading}" : "gap";

    private static Dial? Next(Dial dial) => dial == Dials.Aperture ? Dials.Shutter : dial == Dials.Shutter ? Dials.Under : null;

    public static string Of(PocketPage page, Dial dial, int sheet)
    {
        string[] where = page.State.Screen.Split(':');
        string home = where.Length > 3 && where[3] != "pick" ? where[3] : "gap";
        IReadOnlyList<string> pages = dial.Pages(page);
        sheet = Math.Clamp(sheet, 0, pages.Count - 1);
        string now = dial.Shown(page);
        (double Value, string Shown)[][] parts = Parts(dial.Sheet(page, sheet), page.Height);
        int part = where.Length > 4 && int.TryParse(where[4], CultureInfo.InvariantCulture, out int asked) ? Math.Clamp(asked, 0, parts.Length - 1)
            : Math.Max(0, Array.FindIndex(parts, p => p.Any(v => Is(v.Shown, now))));
        StringBuilder html = new($"<section class=\"picked\"><h1 class=\"say\">{Html.Text(dial.Label)}</h1>{Html.Text(dial.Label)}, now <span class=\"hand\">{now}</span></section><div class=\"pick\"><div class=\"grid\">");
        foreach ((double value, string shown) in parts[part])
            html.Append(Html.Button($"set:{dial.Name}:{Html.Exact(value)}:{home}", "cell num", shown, pressed: Is(shown, now)));
        html.Append("</div></div><nav class=\"tools\" aria-label=\"Doors\">").Append(Html.Button($"go:{(home == Reading ? "gap" : home)}", "", "Back"));
        // On the first sheet of the three alone: the foot of the second is full.
        if (dial == Dials.Aperture && home is "gap" or Reading)
            html.Append(Html.Button($"go:pick:{dial.Name}:{sheet}:{(home == Reading ? "gap" : Reading)}", "", "then shutter", pressed: home == Reading));
        // Said of the meter, and so said with the reading.
        if (dial == Dials.Under)
            html.Append(Html.Button("polariser", "", page.State.Polariser ? "polariser on" : "polariser off", pressed: page.State.Polariser));
        if (parts.Length > 1)
        {
            (double Value, string Shown)[] next = parts[(part + 1) % parts.Length];
            html.Append(Html.Button($"go:pick:{dial.Name}:{sheet}:{home}:{(part + 1) % parts.Length}", "", $"{GapWords.Plain(next[0].Shown)} to {GapWords.Plain(next[^1].Shown)}"));
        }
        for (int other = 0; other < pages.Count; other++)
        {
            if (other != sheet)
                html.Append(Html.Button($"go:pick:{dial.Name}:{other}:{home}", "", Html.Text(pages[other])));
        }
        return html.Append("</nav>").ToString();
    }

    // A sheet of shutter times leaves the unit out.
    private static bool Is(string shown, string now) => GapWords.Plain(now) is var plain && GapWords.Plain(shown) is var one && (one == plain || one + " s" == plain);

    /// <summary>As many parts as a window needs, of about the same length and whole rows each.</summary>
    private static (double Value, string Shown)[][] Parts(IReadOnlyList<(double Value, string Shown)> all, int height)
    {
        int rows = (all.Count + InRow - 1) / InRow, fit = Math.Max(LeastRows, (height - Rest) / RowHeight), count = Math.Max(1, (rows + fit - 1) / fit);
        return [.. all.Chunk(Math.Max(1, (rows + count - 1) / count) * InRow)];
    }
}
