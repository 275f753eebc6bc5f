namespace Leafstop.Pocket.Screens;

/// <summary>Taking camera and limits over from the text of a pocket card.</summary>
internal static class CardScreen
{
    public static string Of(PocketPage page) => Parts.Inner("From a card", "Paste the card's text.", "<p class=\"line\">Read the square on the card with the phone's own camera, copy the text, paste it here.</p><textarea id=\"card\" aria-label=\"The card's text\" autocomplete=\"off\" spellcheck=\"false\"></textarea>" + (page.Remark.Length > 0 ? $"<p class=\"line\">{Html.Text(page.Remark)}</p>" : ""),
        "", ("go:more", "Back"));
}
