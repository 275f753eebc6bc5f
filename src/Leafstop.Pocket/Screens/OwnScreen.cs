namespace Leafstop.Pocket.Screens;

/// <summary>Limits typed in here, for a camera that the page does not know.</summary>
internal static class OwnScreen
{
    public static string Of(PocketPage page)
    {
        string set = $"<div class=\"steps\">{Parts.Steps(page, Dials.Of("base"), Dials.Of("clean"), Dials.Of("stretch"))}</div>";
        bool isSet = page.State.OwnClean is not null;
        string verdict = isSet ? "Your own numbers." : "Not set: step one of them.";
        return Parts.Inner("Limits of your own", verdict,
            $"<p class=\"line\">For a print {Dials.Distance(page.State.OwnPrint)} wide seen from {Dials.Distance(page.State.OwnDistance)}. Clean: the highest ISO whose noise you do not notice. Stretch: the highest at which you would still rather have the picture than not.</p>",
            set, ("go:camera", "Back"), ("own:none", "Leave out"), ("go:gap", "Gap"));
    }
}
