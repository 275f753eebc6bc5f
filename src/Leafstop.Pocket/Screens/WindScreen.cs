using System.Text;
using Leafstop.Core.Motion;

namespace Leafstop.Pocket.Screens;

/// <summary>The wind by what it does, for leaves of 5 cm; a guess within a factor, to be proved by trial.</summary>
internal static class WindScreen
{
    public static string Of(PocketPage page)
    {
        StringBuilder set = new("<div class=\"rows\">");
        foreach (Beaufort force in Beaufort.All.Skip(1).Take(4))
        {
            set.Append(Html.Button($"wind:{force.Force}", "row", $"<b>{char.ToUpperInvariant(force.Sign[0])}{force.Sign[1..]}</b>", pressed: page.State.Leaves == "wind" && page.State.Force == force.Force));
        }
        set.Append("</div>").Append($"<div class=\"steps roomy\">{Parts.Steps(page, Dials.Of("focal"), Dials.Of("leaf"))}</div>");
        string site = page.State.Site switch { WindSite.Open => "in the open", WindSite.Stand => "under an old stand, open trunks", _ => "on the floor of a dense wood" };
        return Parts.Inner("Wind in the open", "What does it move?", $"<p class=\"line\">The leaves are {site}.</p>", set.ToString(), ("go:leaves", "Back"), ("site", "Other site"));
    }
}
