using System.Text;
using Leafstop.Core.Quantities;
using Leafstop.Pocket.Data;

namespace Leafstop.Pocket.Screens;

/// <summary>Places by name, and the light of last time to start from.</summary>
internal static class PlaceScreen
{
    public static string Of(PocketPage page)
    {
        if (page.Data.Places.IsEmpty)
            return Parts.Inner("Place", "No place in this page yet.", "<p class=\"line\">Keep one at home with leafstop places add, and make the page again.</p>", "", ("go:more", "Back"));
        StringBuilder set = new("<div class=\"rows long\">");
        for (int i = 0; i < page.Data.Places.Length; i++)
        {
            PocketPlace place = page.Data.Places[i];
            bool isHere = place.Name == page.State.Place;
            set.Append(Html.Button($"place:{i}", "row", $"<b>{Html.Text(place.Name)}</b><br>{(place.Notes.IsEmpty ? "no light note" : place.Notes.Length == 1 ? "one light note" : $"{place.Notes.Length} light notes")}", pressed: isHere));
            foreach (PocketNote note in isHere ? place.Notes.Reverse().Take(3) : [])
            {
                string with = note.Filter.Length > 0 ? $", {note.Filter} on" : "", sky = note.Sky.Length > 0 ? $", {note.Sky}" : "", remark = note.Remark.Length > 0 ? $". {note.Remark}" : "";
                bool polariser = note.Filter.StartsWith("pol", StringComparison.OrdinalIgnoreCase);
                set.Append(Html.Button($"light:{Html.Exact(note.Metered.Value)}:{(polariser ? "p" : "")}", "row",
                    $"<b>Start from EV {Html.Thirds(Stops.Of(note.Metered.Value))}</b><br>{Html.Text($"{note.Time}{sky}{with}{remark}")}"));
            }
        }
        set.Append("</div>");
        string verdict = page.State.Place.Length > 0 ? $"{Html.Text(page.State.Place)}." : "Where are you?";
        return Parts.Inner("Place", verdict, "<p class=\"sure\">Last time's light only starts you off: your meter wins. Where a place lies is not in this page.</p>", set.ToString(), ("go:more", "Back"), ("place:-1", "Nowhere"), ("go:gap", "Gap"));
    }
}
