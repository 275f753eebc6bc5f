using System.Text;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;

namespace Leafstop.Pocket.Screens;

/// <summary>The first screen: aperture, shutter, stops under; the ISO to dial and where it lies. Past clean the give-up table takes the place of the staff.</summary>
internal static class GapScreen
{
    public static string Of(PocketPage page)
    {
        if (page.Plan is not { } plan)
            return $"<section class=\"ans\"><div class=\"say-it\"><h1 class=\"pv\">{Html.Text(page.Refusal)}</h1></div></section>{Steps(page)}{Foot}";
        bool isOver = plan.Answer.Verdict is PlanVerdict.Stretch or PlanVerdict.Beyond || (plan.Answer.Verdict == PlanVerdict.Unknown && plan.Answer.SpareToClean is not null);
        return isOver ? Over(page, plan) : Inside(page, plan);
    }

    private static string Foot => Html.Doors(("go:water", "Water"), ("go:leaves", "Leaves"), ("go:light", "Light"), ("go:more", "More"));

    private static string Inside(PocketPage page, ExposurePlan plan)
    {
        StringBuilder html = new($"<section class=\"ans\" data-verdict=\"{plan.Answer.Verdict}\"><div class=\"st\">{Staff.Standing(plan)}</div><div class=\"say-it\"><p class=\"where\">{Html.Text(page.State.Place)}</p>");
        html.Append(Iso(plan)).Append($"<h1 class=\"pv\">{GapWords.Verdict(page)}</h1><p class=\"sure\">{GapWords.Limits(page)}</p>");
        // Two lines at most: more would push the answer away.
        foreach (string care in GapWords.Cares(page).Take(page.State.Polariser ? 1 : 2))
            html.Append($"<p class=\"care\">{care}</p>");
        if (page.State.Before is not null)
            html.Append($"<p class=\"sure\">{Html.Text(FirstSentence(page.State.TriedCost))}</p>");
        else if (GapWords.Polariser(page) is { Length: > 0 } polariser)
            html.Append($"<p class=\"sure\">{polariser}</p>");
        return html.Append("</div></section>").Append(Steps(page)).Append(Foot).ToString();
    }

    private static string Over(PocketPage page, ExposurePlan plan)
    {
        string place = page.State.Place.Length > 0 ? Html.Text(page.State.Place) + ", " : "";
        string where = $"{place}{plan.Scene.Aperture.ToDisplay()}, {plan.Scene.Shutter.ToDisplay()}{(plan.Scene.FramesAveraged > 1 ? $", mean of {plan.Scene.FramesAveraged}" : "")}";
        StringBuilder html = new($"<div class=\"over\" style=\"display:contents\"><section class=\"ans\" data-verdict=\"{plan.Answer.Verdict}\"><p class=\"where\">{where}</p>{Iso(plan)}<h1 class=\"pv\">{GapWords.Verdict(page)}</h1></section>");
        html.Append($"<section class=\"give\" aria-label=\"What to give up\"><div class=\"gh\">{Staff.Lying(plan)}</div><p class=\"gl\">Give up, cheapest first</p>");
        html.Append(GiveUpRows.Of(page, plan, page.State.Screen == "gap:later")).Append("</section>");
        html.Append("<div class=\"steps\">");
        if (page.State.Before is not null)
            html.Append(Tried(page));
        return html.Append(Parts.Step(page, Dials.Under)).Append("</div></div>").Append(Foot).ToString();
    }

    private static string Iso(ExposurePlan plan)
    {
        string dial = plan.Answer.Gap.Value < -Stops.Hair ? Html.Iso(plan.Scene.BaseIso) : Html.Iso(plan.Iso.Dial);
        return $"<p class=\"iso{(dial.Length > 4 ? " long" : "")}\"><span>ISO</span><data class=\"num\" value=\"{Html.Exact(plan.Answer.Iso.Speed)}\" data-gap=\"{Html.Exact(plan.Answer.Gap.Value)}\""
            + $"{Spare("clean", plan.Answer.SpareToClean)}{Spare("stretch", plan.Answer.SpareToStretch)}>{dial}</data></p>";
    }

    private static string Spare(string limit, Stops? spare) => spare is { } s ? $" data-{limit}=\"{Html.Exact(s.Value)}\"" : "";

    private static string Steps(PocketPage page)
    {
        string tried = page.State.Before is null ? "" : Tried(page);
        string pair = $"<div class=\"step two fold\">{Parts.Value(page, Dials.Shutter)}{Parts.Value(page, Dials.Aperture)}</div>";
        return tried.Length > 0
            ? $"<div class=\"steps\">{Parts.Step(page, Dials.Under)}{Parts.Step(page, Dials.Shutter, "full")}{tried}</div>"
            : $"<div class=\"steps\">{Parts.Step(page, Dials.Under)}{Parts.Step(page, Dials.Shutter, "full")}{Parts.Step(page, Dials.Aperture, "full")}{pair}</div>";
    }

    private static string Tried(PocketPage page) =>
        $"<div class=\"step wide\"><div class=\"val\"><span class=\"lb\">tried</span><span class=\"small num\">{Html.Text(page.State.Tried)}</span></div>{Html.Button("back", "press", "Take back")}</div>";

    private static string FirstSentence(string text)
    {
        int end = text.IndexOf(". ", StringComparison.Ordinal);
        return end < 0 ? text : text[..(end + 1)];
    }
}
