using System.Globalization;
using System.Text;
using Leafstop.Core.Quantities;
using Leafstop.Pocket.Data;

namespace Leafstop.Pocket.Screens;

/// <summary>Places by name, and the light of last time to start from.</summary>
internal static class PlaceScreen
{
    // Heights of page.css, px: a row, and what is told above the rows with the doors below.
    private const int RowHeight = 88, Rest = 290, LeastRows = 2;

    public static string Of(PocketPage page)
    {
        if (page.Data.Places.Count == 0)
            return Parts.Inner("Place", "No place in this page yet.", "<p class=\"line\">Keep one at home with leafstop places add, and make the page again.</p>", "", ("go:more", "Back"));
        // Each place and each note of the chosen one is a row: more than fit come in parts, nothing is dragged.
        List<string> rows = [];
        int here = 0;
        for (int i = 0; i < page.Data.Places.Count; i++)
        {
            PocketPlace place = page.Data.Places[i];
            bool isHere = place.Name == page.State.Place;
            here = isHere ? rows.Count : here;
            rows.Add(Html.Button($"place:{i}", "row cut", $"<b>{Html.Text(place.Name)}</b><br>{(place.Notes.Count == 0 ? "no light note" : place.Notes.Count == 1 ? "one light note" : $"{place.Notes.Count} light notes")}", pressed: isHere));
            foreach (PocketNote note in isHere ? place.Notes.Reverse().Take(3) : [])
            {
                string with = note.Filter.Length > 0 ? $", {note.Filter} on" : "", sky = note.Sky.Length > 0 ? $", {note.Sky}" : "", remark = note.Remark.Length > 0 ? $". {note.Remark}" : "";
                bool polariser = note.Filter.StartsWith("pol", StringComparison.OrdinalIgnoreCase);
                rows.Add(Html.Button($"light:{Html.Exact(note.Metered.Value)}:{(polariser ? "p" : "")}", "row cut",
                    $"<b>Start from EV {Html.Thirds(Stops.Of(note.Metered.Value))}</b><br>{Html.Text($"{note.Time}{sky}{with}{remark}")}"));
            }
        }
        int fit = Math.Max(LeastRows, (page.Height - Rest) / RowHeight), room = rows.Count > fit ? fit - 1 : fit, parts = Math.Max(1, (rows.Count + room - 1) / room);
        int part = page.State.Screen.Split(':') is [_, var at] && int.TryParse(at, CultureInfo.InvariantCulture, out int asked) ? Math.Clamp(asked, 0, parts - 1) : here / room;
        StringBuilder set = new("<div class=\"rows\">");
        foreach (string row in rows.Skip(part * room).Take(room))
            set.Append(row);
        if (parts > 1)
            set.Append(Html.Button($"go:place:{(part + 1) % parts}", "row more", $"Other places, {page.Data.Places.Count} in all"));
        set.Append("</div>");
        string verdict = page.State.Place.Length > 0 ? $"{Html.Text(page.State.Place)}." : "Where are you?";
        return Parts.Inner("Place", verdict, "<p class=\"sure\">Last time's light only starts you off: your meter wins. Where a place lies is not in this page.</p>", set.ToString(), ("go:more", "Back"), ("place:-1", "Nowhere"), ("go:gap", "Gap"));
    }
}
