using System.Globalization;
using System.Text;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;

namespace Leafstop.Pocket.Screens;

/// <summary>The first screen: aperture, shutter, stops under; the ISO to dial and where it lies. Past clean the give-up table takes the place of the staff.</summary>
internal static class GapScreen
{
    private const int MostRows = 4;

    // Heights of page.css, px: below the first the words close up; what the rest of the screen takes beside the rows of the table, a line under the verdict, and what a verdict of one line spares.
    private const int ShortWindow = 800, Rest = 485, ShortRest = 472, RowHeight = 84, LineHeight = 21, VerdictSpares = 29;

    // Letters of a verdict that keep to one line; of an ISO that leave room beside it for a name or a clock with the print, and for the print alone.
    private const int OneLine = 23, ShortDial = 4, MiddlingDial = 6;

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
        AnswerColumn column = new(page.Height);
        column.Take(GapWords.Verdict(page), TextKind.Verdict);
        column.Take(GapWords.Limits(page), TextKind.Note);
        // The most pressing care always; then what there is room for, so that the answer is never pushed away. A guess comes last.
        Queue<Care> cares = new(GapWords.Cares(page));
        List<string> shown = [];
        while (cares.TryPeek(out Care? care) && shown.Count < 2 && (shown.Count == 0 || (page.State.Before is null && care.Weight != CareWeight.Guess && column.Fits(care.Words, TextKind.Care))))
        {
            column.Take(care.Words, TextKind.Care);
            shown.Add(cares.Dequeue().Words);
        }
        string last = page.State.Before is not null ? $"Costs: {Html.Text(FirstSentence(page.State.TriedCost))}" : GapWords.Polariser(page);
        if (last.Length > 0 && page.State.Before is null && !column.Fits(last, TextKind.Note))
            last = GapWords.PolariserCounted;
        if (last.Length > 0)
            column.Take(last, TextKind.Note);
        if (shown.Count == 1 && cares.TryPeek(out Care? other) && column.Fits(other.Words, TextKind.Care))
            shown.Add(other.Words);
        foreach (string care in shown)
            html.Append($"<p class=\"care\">{care}</p>");
        if (last.Length > 0)
            html.Append($"<p class=\"sure\">{last}</p>");
        return html.Append("</div></section>").Append(Steps(page)).Append(Foot).ToString();
    }

    private static string Over(PocketPage page, ExposurePlan plan)
    {
        int part = page.State.Screen.Split(':') is [_, var at] && int.TryParse(at, CultureInfo.InvariantCulture, out int number) ? number : 0;
        (string beside, string print) = Beside(page, plan);
        // Lines across the telephone: what is most pressing, and the print where it has no room beside the ISO.
        string[] lines = [.. GapWords.Cares(page).Take(1).Select(c => $"<p class=\"care\">{c.OneLine}</p>"), .. print.Length > 0 ? [$"<p class=\"care print\">{print}</p>"] : Array.Empty<string>()];
        int rest = (page.Height < ShortWindow ? ShortRest : Rest) + lines.Length * LineHeight - (GapWords.Plain(GapWords.Verdict(page)).Length <= OneLine ? VerdictSpares : 0);
        int room = Math.Clamp((page.Height - rest) / RowHeight, 1, MostRows);
        StringBuilder html = new($"<div class=\"over\" style=\"display:contents\"><section class=\"ans\" data-verdict=\"{Word(plan.Answer.Verdict)}\">{Iso(plan, beside)}<h1 class=\"pv\">{GapWords.Verdict(page)}</h1>{string.Concat(lines)}</section>");
        html.Append($"<section class=\"give\" aria-label=\"What to give up, cheapest first\"><div class=\"gh\">{Staff.Lying(plan)}</div>").Append(GiveUpRows.Of(page, plan, part, room)).Append("</section>");
        // Minus and plus of the meter stay, however many rows there are; what was tried and the other rows share a row with the two values.
        List<string> cells = [Parts.Value(page, Dials.Shutter), Parts.Value(page, Dials.Aperture)];
        if (Counted(page) is var (_, what, act, end))
            cells.Add(Html.Button(act, "press", $"{end}<br><span class=\"lb\">{Html.Text(what)}</span>"));
        if (GiveUpRows.Others(plan, part, room) is var (go, words))
            cells.Add(Html.Button(go, "press more", words));
        string count = cells.Count switch { 2 => "two", 3 => "three", _ => "four" };
        return html.Append($"<div class=\"steps\"><div class=\"step {count}\">{string.Concat(cells)}</div>{Parts.Step(page, Dials.Under)}</div></div>").Append(Foot).ToString();
    }

    /// <summary>What stands beside the ISO past clean, and what of it has no room there: the clock to the exit time, else the body where another could be meant; and the print.</summary>
    private static (string Beside, string Print) Beside(PocketPage page, ExposurePlan plan)
    {
        string clock = LeaveScreen.Clock(page), whose = clock.Length > 0 ? "" : Whose(page), print = GapWords.ForPrint(page);
        int letters = Html.Iso(plan.Iso.Dial).Length;
        if (letters <= ShortDial || (letters <= MiddlingDial && clock.Length + whose.Length == 0))
            return ($"{(clock.Length > 0 ? $"<b class=\"exit\">{clock}</b> " : whose.Length > 0 ? $"<b class=\"whose\">{whose}</b> " : "")}{print}", "");
        // The name last: it is what a line that is too long is cut by.
        return (clock.Length > 0 ? $"<b class=\"exit\">{clock}</b>" : "", string.Join(' ', ((string[])[print, whose]).Where(w => w.Length > 0)));
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
    private static string Whose(PocketPage page) => page.Cameras.Count > 1 && page.Camera is { Name.Length: > 0 } camera ? Html.Text(camera.Name) : "";

    private static string Word(PlanVerdict verdict) => verdict switch { PlanVerdict.Clean => "clean", PlanVerdict.Stretch => "stretch", PlanVerdict.Beyond => "beyond", _ => "unknown" };

    private static string Iso(ExposurePlan plan, string beside = "")
    {
        string dial = plan.Answer.Gap.Value < -Stops.Hair ? Html.Iso(plan.Scene.BaseIso) : Html.Iso(plan.Iso.Dial);
        return $"<p class=\"iso{(dial.Length > 4 ? " long" : "")}\"><span>ISO</span><data class=\"num\" value=\"{Html.Exact(plan.Answer.Iso.Speed)}\" data-gap=\"{Html.Exact(plan.Answer.Gap.Value)}\""
            + $"{Spare("clean", plan.Answer.SpareToClean)}{Spare("stretch", plan.Answer.SpareToStretch)}>{dial}</data>{(beside.Length > 0 ? $"<small class=\"beside\">{beside}</small>" : "")}</p>";
    }

    private static string Spare(string limit, Stops? spare) => spare is { } s ? $" data-{limit}=\"{Html.Exact(s.Value)}\"" : "";

    private static string Steps(PocketPage page)
    {
        // The meter's own steps lie lowest, here as past clean: a finger that goes on tapping stays on them.
        string pair = $"<div class=\"step two fold\">{Parts.Value(page, Dials.Shutter)}{Parts.Value(page, Dials.Aperture)}</div>";
        return Counted(page) is var (label, what, act, end)
            ? $"<div class=\"steps\"><div class=\"step wide\"><div class=\"val\"><span class=\"lb\">{label}</span><span class=\"small num\">{Html.Text(what)}</span></div>{Html.Button(act, "press", end)}</div>{Parts.Step(page, Dials.Shutter, "full")}{Parts.Step(page, Dials.Under)}</div>"
            : $"<div class=\"steps\">{Parts.Step(page, Dials.Aperture, "full")}{Parts.Step(page, Dials.Shutter, "full")}{pair}{Parts.Step(page, Dials.Under)}</div>";
    }

    /// <summary>Something was tried and can be taken back, or a mean of frames that was kept still counts: no dial shows it. Null for neither.</summary>
    private static (string Label, string What, string Act, string End)? Counted(PocketPage page) =>
        page.State.Before is not null ? ("tried", page.State.Tried, "back", "Take back") : page.State.Frames > 1 ? ("counted", $"Mean of {page.State.Frames}", "frames", "One frame") : null;

    private static string FirstSentence(string text)
    {
        int end = text.IndexOf(". ", StringComparison.Ordinal);
        return end < 0 ? text : text[..(end + 1)];
    }
}
