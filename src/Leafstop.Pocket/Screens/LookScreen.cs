namespace Leafstop.Pocket.Screens;

/// <summary>Hand, theme, dimming, vibration, and what is remembered where.</summary>
internal static class LookScreen
{
    public static string Of(PocketPage page, bool keeps)
    {
        PocketState s = page.State;
        string set = "<div class=\"rows\">"
            + Html.Button("hand", "row", $"<b>{(s.LeftHand ? "Left" : "Right")} hand</b><br>minus and plus lie under that thumb")
            + Html.Button("theme", "row", $"<b>{(s.Sun ? "Day" : "Night")}</b><br>{(s.Sun ? "black on white, for glare" : "deep red on black, for eyes used to the dark")}")
            + Html.Button("dim", "row", $"<b>{(s.Dim ? "Dimmest" : "Dim")}</b><br>{(s.Dim ? "small words are gone; tap for them" : "dimmest: the answer and the steps only")}", pressed: s.Dim)
            + Html.Button("vibrate", "row", $"<b>{(s.Vibrate ? "Vibrates" : "Still")}</b><br>{(s.Vibrate ? "a short tick at each tap, where the phone can" : "no vibration, and never a sound")}", pressed: s.Vibrate)
            + "</div>";
        string told = keeps
            ? "<p class=\"line\">What you set is kept in this browser, on this phone, and comes back after a lock and a closed tab.</p>"
            : "<p class=\"line\">This browser keeps nothing for a page from a file. What you set lives in this tab's address: a lock or a reload keeps it, a closed tab loses it.</p>";
        string made = page.Data.Made.Length > 0 ? $"<p class=\"sure\">Made {Html.Text(page.Data.Made)}. It asks no network and sends nothing.</p>" : "<p class=\"sure\">It asks no network and sends nothing.</p>";
        return Parts.Inner("Hand and eye", s.Sun ? "By day." : "By night.", told + made, set, ("go:more", "Back"), ("go:gap", "Gap"));
    }
}
