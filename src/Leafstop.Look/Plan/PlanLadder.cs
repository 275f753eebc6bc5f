using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;
using static Leafstop.Look.Markup;

namespace Leafstop.Look.Plan;

/// <summary>A plan on the ladder of stops: one for the answer, a small one for each way to give something up, all on one scale.</summary>
/// <remarks>Lift, crop and averaging move the limits here, so that the leaf always floats at the ISO that is dialled.</remarks>
public static class PlanLadder
{
    private const double TopIso = 12_800, RowHeight = 68, RowRule = 55, RowLine = 44;

    /// <summary>The ladder of the answer.</summary>
    public static StopLadder Of(ExposurePlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        (LadderLimit? clean, LadderLimit? stretch) = Limits(plan.Scene);
        return new StopLadder { BaseIso = plan.Scene.BaseIso.Speed, TopIso = TopIso, Clean = clean, Stretch = stretch, LeafIso = Math.Max(plan.Answer.Iso.Speed, plan.Scene.BaseIso.Speed / 2) };
    }

    /// <summary>"2 1/3 stops short: ISO 500, inside clean, 2/3 stop to spare."</summary>
    public static string Says(ExposurePlan plan) => plan.Answer.Gap.Value < -Stops.Hair
        ? PlanSentences.Of(plan).Verdict
        : $"{PlanSentences.StopsWords(plan.Answer.Gap)} short at base ISO {plan.Scene.BaseIso.ToDisplay()}: ISO {plan.Iso.Dial.ToDisplay()}, {PlanSentences.Place(plan.Answer, plan.Limits)}.";

    /// <summary>Draws the step of a row: a dot where the picture is, a line to where the row takes it, a leaf there. A row that moves the limits moves the rules: the old one broken.</summary>
    public static Markup DrawStep(this Markup page, ExposurePlan plan, GiveUpRow row)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(row);
        StopLadder whole = Of(plan);
        LadderScale scale = new(whole.Covers());
        (LadderLimit? clean, LadderLimit? stretch) = Limits(row.After);
        double from = Held(scale, plan.Answer.Iso.Speed), to = Held(scale, row.Answer.Iso.Speed);
        page.Open("svg", ("class", "mini"), ("width", "100%"), ("height", Px(RowHeight)), ("aria-hidden", "true"));
        if (clean is { IsJudged: true })
        {
            double start = Held(scale, clean.Iso), end = stretch is null ? 1 : Held(scale, stretch.Iso);
            page.Empty("rect", ("x", Share(start)), ("y", "0"), ("width", Share(Math.Max(0, end - start))), ("height", Px(RowHeight)), ("fill", "url(#g1)"));
            if (end < 1)
                page.Empty("rect", ("x", Share(end)), ("y", "0"), ("width", Share(1 - end)), ("height", Px(RowHeight)), ("fill", "url(#g2)"));
        }
        page.Empty("line", ("class", "tick"), ("x1", "0"), ("x2", "100%"), ("y1", Px(RowRule)), ("y2", Px(RowRule)));
        DrawRule(page, scale, "clean", [0], clean, whole.Clean);
        DrawRule(page, scale, "stretch", [-3, 3], stretch, whole.Stretch);
        page.Empty("line", ("class", "dim"), ("style", "stroke-width:2.25"), ("x1", Share(from)), ("x2", Share(to)), ("y1", Px(RowLine)), ("y2", Px(RowLine)));
        page.Empty("circle", ("cx", Share(from)), ("cy", Px(RowLine)), ("r", "3.2"), ("style", "fill:var(--ink)"));
        page.Open("svg", ("x", Share(to)), ("y", Px(RowRule)), ("overflow", "visible")).Open("g", ("transform", "scale(0.72)")).LeafMarks(Of(row.Answer.Verdict, GapAnswer.LimitsAsked(row.After))).Close().Close();
        return page.Close();
    }

    /// <summary>How the leaf stands for a verdict: broken, as on the ladder itself, where the limits behind it are only worked out.</summary>
    public static LeafState Of(PlanVerdict verdict, NoiseLimits? limits) => verdict switch
    {
        _ when limits is not { Origin: not LimitOrigin.WorkedOut } => LeafState.Broken,
        PlanVerdict.Clean => LeafState.Whole,
        PlanVerdict.Stretch => LeafState.Half,
        PlanVerdict.Beyond => LeafState.Bare,
        _ => LeafState.Broken,
    };

    private static void DrawRule(Markup page, LadderScale scale, string line, double[] rules, LadderLimit? now, LadderLimit? before)
    {
        if (now is null)
            return;
        bool hasMoved = before is not null && Math.Abs(Math.Log2(before.Iso / now.Iso)) > 1e-6;
        foreach ((LadderLimit limit, bool isBroken) in hasMoved ? new[] { (before!, true), (now, !now.IsJudged) } : [(now, !now.IsJudged)])
        {
            page.Open("svg", ("x", Share(Held(scale, limit.Iso))), ("y", "0"), ("overflow", "visible"));
            foreach (double x in rules)
                page.Empty("line", ("class", isBroken ? line + " maybe" : line), ("x1", Px(x)), ("x2", Px(x)), ("y1", "0"), ("y2", Px(RowHeight)));
            page.Close();
        }
    }

    private static (LadderLimit? Clean, LadderLimit? Stretch) Limits(Scene scene)
    {
        if (GapAnswer.LimitsAsked(scene) is not { } limits)
            return (null, null);
        double used = GapAnswer.StopsUsed(scene).Ratio;
        return (Limit(limits.Clean, limits.Evidence?.Clean), Limit(limits.Stretch, limits.Evidence?.Stretch));

        LadderLimit? Limit(Iso? iso, JudgedAnswers? answers) => iso is null
            ? null
            : new LadderLimit(iso.Speed / used, answers?.Low.Speed / used, answers?.High.Speed / used, limits.Origin != LimitOrigin.WorkedOut);
    }

    private static double Held(LadderScale scale, double iso) => Math.Clamp(scale.At(iso), 0, 1);
}
