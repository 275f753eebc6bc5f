namespace Leafstop.Pocket.Screens;

/// <summary>Taking limits over from a pocket card: the numbers it prints, set by hand.</summary>
internal static class CardScreen
{
    public static string Of(PocketPage page) => Parts.Inner("From a card", "What does the card say?",
        "<p class=\"line\">Set what stands on it: base ISO, clean, stretch. The print it holds for is the one under Print; set that first where it differs.</p>",
        $"<div class=\"steps\">{Parts.Step(page, "base")}{Parts.Step(page, "clean")}{Parts.Step(page, "stretch")}</div>", ("go:more", "Back"), ("go:print", "Print"), ("own:none", "Leave out"), ("go:gap", "Gap"));
}
