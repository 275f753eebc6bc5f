namespace Leafstop.Pocket.Screens;

/// <summary>The print that is meant; limits are worked out for it from the one they were found for.</summary>
internal static class PrintScreen
{
    public static string Of(PocketPage page)
    {
        string set = $"<div class=\"steps\">{Parts.Step(page, "print")}{Parts.Step(page, "from")}</div>";
        string verdict = page.Print is { } print ? $"{Dials.Distance(print.WidthMm)} wide, seen from {Dials.Distance(print.ViewingDistanceMm)}." : "No print is named.";
        string limits = page.Limits is { } found && page.Print is { } asked && found.Limits.For(asked) is { } now
            ? $"<p class=\"line\">Clean {(now.CleanDial is { } c ? Html.Iso(c) : "unknown")}, stretch {(now.StretchDial is { } s ? Html.Iso(s) : "unknown")} for this print.</p>"
                + (now.Shifts.IsEmpty ? "" : $"<p class=\"sure\">{Html.Text(now.Shifts[^1].Reason)} {Core.Viewing.LimitScaling.BandingCaveat} {GapWords.How("w", "worked out")}</p>")
            : "";
        return Parts.Inner("Print", verdict, limits, set, ("go:more", "Back"), ("print:asked", "As it was"), ("go:gap", "Gap"));
    }
}
