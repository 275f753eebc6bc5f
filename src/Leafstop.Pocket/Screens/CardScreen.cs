namespace Leafstop.Pocket.Screens;

/// <summary>Taking camera and limits over from a pocket card: by the text of its code, or by the numbers it prints.</summary>
internal static class CardScreen
{
    public static string Of(PocketPage page)
    {
        bool isTaken = page.CardCamera is not null;
        string verdict = page.Remark.Length > 0 ? Html.Text(page.Remark) : isTaken ? $"{Html.Text(page.CardCamera!.Name)}." : "What does the card's code say?";
        return Parts.Inner("From a card", verdict,
            "<p class=\"line\">Let the phone's camera read the code, copy its text and paste it here. Without a camera set what the card prints: My own.</p>"
            + $"<textarea id=\"card\" aria-label=\"Text of the card's code\" autocomplete=\"off\" spellcheck=\"false\">{Html.Text(page.Draft.Length > 0 ? page.Draft : page.State.Card)}</textarea>",
            "<div class=\"rows\"><button type=\"button\" class=\"row\" data-act=\"card\" data-field=\"card\"><b>Take over</b><br>camera and limits of the card</button></div>",
            ("go:more", "Back"), isTaken ? ("uncard", "Leave out") : ("go:own", "My own"), ("go:gap", "Gap"));
    }
}
