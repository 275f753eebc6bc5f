using System.Text;

namespace Leafstop.Pocket.Screens;

/// <summary>Five things to hold before the tripod is moved.</summary>
internal static class LeavingScreen
{
    private static readonly (string Key, string Words, string Note)[] Five =
    [
        ("water", "Water", "one either side of the streak you like"),
        ("leaves", "Leaves", "every corner still in some frame"),
        ("foam", "Foam", "one frame under, for the highlights"),
        ("near", "Near focus", "the nearest thing that must be sharp"),
        ("far", "Far focus", "the skyline, or the far bank"),
    ];

    public static string Of(PocketPage page)
    {
        int held = Five.Count(f => page.State.Ticks.Contains(f.Key));
        string verdict = held == Five.Length ? "All five. You may go." : held == 0 ? "Before you move the tripod." : $"{Five.Length - held} still to take.";
        StringBuilder set = new("<div class=\"rows\">");
        foreach ((string key, string words, string note) in Five)
        {
            bool isHeld = page.State.Ticks.Contains(key);
            string leaf = isHeld ? "<path class=\"leaf\" d=\"M0,-9 C15,-19 14,-37 0,-50 C-14,-37 -15,-19 0,-9Z\"/><path d=\"M0,-13V-43\" style=\"stroke:var(--paper);stroke-width:1.6\"/>" : "<path class=\"leaf-o\" d=\"M0,-9 C15,-19 14,-37 0,-50 C-14,-37 -15,-19 0,-9Z\"/>";
            set.Append(Html.Button($"tick:{key}", "row tickrow",
                $"<svg viewBox=\"-15 -52 30 54\" aria-hidden=\"true\"><path class=\"leaf\" d=\"M0,0V-10\" style=\"fill:none\"/>{leaf}</svg><span><b>{words}</b>{(isHeld ? ", held" : "")}<br>{note}</span>", pressed: isHeld));
        }
        set.Append("</div>");
        return Parts.Inner("Before leaving", verdict, "<p class=\"line\">Frames of 30 s and longer: cap frames too. Bag the camera before a warm room.</p>", set.ToString(), ("go:more", "Back"), ("unticked", "Clear"), ("go:gap", "Gap"));
    }
}
