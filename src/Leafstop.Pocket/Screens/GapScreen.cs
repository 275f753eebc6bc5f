using System.Globalization;
using System.Text;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;

namespace Leafstop.Pocket.Screens;

/// <summary>The first screen: aperture, shutter, stops under; the ISO to dial and where it lies. Past clean the give-up table takes the place of the staff.</summary>
internal static class GapScreen
{
    private const int MostRows = 4;

    // Heights of page.css, px: below the first the steps fold; what the rest of the screen takes beside the rows of the table.
    private const int ShortWindow = 800, Rest = 506, ShortRest = 411, StepHeight = 88, RowHeight = 84;

    public static string Of(PocketPage page)
    {
        if (page.Plan is not { } plan)
            return $"<section class=\"ans\"><div class=\"say-it\">{Where(page)}<h1 class=\"pv\">{Html.Text(page.Refusal)}</h1></div></section>{Steps(page)}{Foot}";
        bool isOver = plan.Answer.Verdict is PlanVerdict.Stretch or PlanVerdict.Beyond || (plan.Answer.Verdict == PlanVerdict.Unknown && plan.Answer.SpareToClean is not null);
        return isOver ? Over(page, plan) : Inside(page, plan);
    }

    private static string Foot => Html.Doors(("go:water", "Water"), ("go:leaves", "Leaves"), ("go:light", "Light"), ("go:more", "More"));

    private static string Inside(PocketPage page, ExposurePlan plan)
    {
        StringBuilder html = new($"<section class=\"ans\" data-verdict=\"{Word(plan.Answer.Verdict)}\"><div class=\"st\">{Staff.Standing(plan)}</div><div class=\"say-it\">{Where(page)}");
        html.Append(Iso(plan)).Append($"<h1 class=\"pv\">{GapWords.Verdict(page)}</h1><p class=\"sure\">{GapWords.Limits(page)}</p>");
        // Two lines at most: more would push the answer away.
        foreach (string care in GapWords.Cares(page).Take(page.State.Polariser || page.State.Before is not null ? 1 : 2))
            html.Append($"<p class=\"care\">{care}</p>");
        if (page.State.Before is not null)
            html.Append($"<p class=\"sure\">Costs: {Html.Text(FirstSentence(page.State.TriedCost))}</p>");
        else if (GapWords.Polariser(page) is { Length: > 0 } polariser)
            html.Append($"<p class=\"sure\">{polariser}</p>");
        return html.Append("</div></section>").Append(Steps(page)).Append(Foot).ToString();
    }

    private static string Over(PocketPage page, ExposurePlan plan)
    {
        bool isTried = IsCounted(page);
        int left = page.Height - (isTried ? StepHeight : 0);
        // What can be given up goes before the two steps of the meter: its value opens a sheet of them.
        bool isShort = page.Height < ShortWindow || GiveUpRows.Count(plan) > Math.Min(MostRows, (left - Rest) / RowHeight);
        StringBuilder html = new($"<div class=\"over\" style=\"display:contents\"><section class=\"ans\" data-verdict=\"{Word(plan.Answer.Verdict)}\">{Iso(plan, LeaveScreen.Clock(page) is { Length: > 0 } clock ? clock : Whose(page))}<h1 class=\"pv\">{GapWords.Verdict(page)}</h1></section>");
        html.Append($"<section class=\"give\" aria-label=\"What to give up, cheapest first\"><div class=\"gh\">{Staff.Lying(plan)}</div>");
        int room = Math.Clamp((left - (page.Height < ShortWindow ? ShortRest : isShort ? Rest - StepHeight : Rest)) / RowHeight, 2, isShort && page.Height >= ShortWindow ? MostRows + 1 : MostRows);
        int part = page.State.Screen.Split(':') is [_, var at] && int.TryParse(at, CultureInfo.InvariantCulture, out int number) ? number : 0;
        html.Append(GiveUpRows.Of(plan, part, room)).Append("</section><div class=\"steps\">");
        if (isTried)
            html.Append(Tried(page));
        html.Append(isShort
            ? $"<div class=\"step three\">{Parts.Value(page, Dials.Under)}{Parts.Value(page, Dials.Shutter)}{Parts.Value(page, Dials.Aperture)}</div>"
            : $"{Parts.Step(page, Dials.Under)}<div class=\"step two\">{Parts.Value(page, Dials.Shutter)}{Parts.Value(page, Dials.Aperture)}</div>");
        return html.Append("</div></div>").Append(Foot).ToString();
    }

    /// <summary>The clock to the exit time; where none is set the place and, where there are several, the camera.</summary>
    private static string Where(PocketPage page)
    {
        if (LeaveScreen.Clock(page) is { Length: > 0 } clock)
            return $"<p class=\"where exit\">{clock}</p>";
        string[] said = [.. ((string[])[Whose(page), Html.Text(page.State.Place)]).Where(s => s.Length > 0)];
        return said.Length > 0 ? $"<p class=\"where\">{string.Join(", ", said)}</p>" : "<p class=\"where\" aria-hidden=\"true\"></p>";
    }

    /// <summary>The body whose limits answer, where another could be meant.</summary>
    private static string Whose(PocketPage page) => page.Cameras.Skip(1).Any() && page.Camera is { Name.Length: > 0 } camera ? Html.Text(camera.Name) : "";

    private static string Word(PlanVerdict verdict) => verdict switch { PlanVerdict.Clean => "clean", PlanVerdict.Stretch => "stretch", PlanVerdict.Beyond => "beyond", _ => "unknown" };

    private static string Iso(ExposurePlan plan, string clock = "")
    {
        string dial = plan.Answer.Gap.Value < -Stops.Hair ? Html.Iso(plan.Scene.BaseIso) : Html.Iso(plan.Iso.Dial);
        return $"<p class=\"iso{(dial.Length > 4 ? " long" : "")}\"><span>ISO</span><data class=\"num\" value=\"{Html.Exact(plan.Answer.Iso.Speed)}\" data-gap=\"{Html.Exact(plan.Answer.Gap.Value)}\""
            + $"{Spare("clean", plan.Answer.SpareToClean)}{Spare("stretch", plan.Answer.SpareToStretch)}>{dial}</data>{(clock.Length > 0 ? $"<span class=\"exit\">{clock}</span>" : "")}</p>";
    }

    private static string Spare(string limit, Stops? spare) => spare is { } s ? $" data-{limit}=\"{Html.Exact(s.Value)}\"" : "";

    private static string Steps(PocketPage page)
    {
        string tried = IsCounted(page) ? Tried(page) : "";
        string pair = $"<div class=\"step two fold\">{Parts.Value(page, Dials.Shutter)}{Parts.Value(page, Dials.Aperture)}</div>";
        return tried.Length > 0
            ? $"<div class=\"steps\">{Parts.Step(page, Dials.Under)}{Parts.Step(page, Dials.Shutter, "full")}{tried}</div>"
            : $"<div class=\"steps\">{Parts.Step(page, Dials.Under)}{Parts.Step(page, Dials.Shutter, "full")}{Parts.Step(page, Dials.Aperture, "full")}{pair}</div>";
    }

    /// <summary>Something was tried and can be taken back, or a mean of frames that was kept still counts: no dial shows it.</summary>
    private static bool IsCounted(PocketPage page) => page.State.Before is not null || page.State.Frames > 1;

    private static string Tried(PocketPage page)
    {
        (string label, string what, string act, string end) = page.State.Before is not null ? ("tried", page.State.Tried, "back", "Take back") : ("counted", $"Mean of {page.State.Frames}", "frames", "One frame");
        return $"<div class=\"step wide\"><div class=\"val\"><span class=\"lb\">{label}</span><span class=\"small num\">{Html.Text(what)}</span></div>{Html.Button(act, "press", end)}</div>";
    }

    private static string FirstSentence(string text)
    {
        int end = text.IndexOf(". ", StringComparison.Ordinal);
        return end < 0 ? text : text[..(end + 1)];
    }
}
