using System.Text;
using Leafstop.Core.Exposure;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Pocket.Screens;

/// <summary>The ladder of stops, standing beside the answer or lying over the give-up table. It always stands beside words, so it is hidden from a screen reader.</summary>
internal sealed class Staff
{
    private const string Blade = "M0,-9 C15,-19 14,-37 0,-50 C-14,-37 -15,-19 0,-9Z";

    /// <summary>Stops from base to the top at least: a third is 23.8 px on a staff 470 px high. Base, limits and leaf always lie on the staff: where they lie farther apart, its stops draw together.</summary>
    private const double LeastReach = 20 / 3.0, MostReach = 24;

    private const double Height = 470, FootAt = 454, TopWord = 27;

    // Px of a telephone 390 px wide; only what has room is decided by them.
    private const double LyingWidth = 322, LyingFrom = 34, Wide = 390;

    private readonly ExposurePlan _plan;
    private readonly double _reach;

    private Staff(ExposurePlan plan)
    {
        _plan = plan;
        double highest = Math.Max(Leaf, Math.Max(Clean ?? 0, Stretch ?? 0));
        _reach = Math.Clamp(highest + 0.45, LeastReach, MostReach);
    }

    private double StopHeight => (Height - 16) / (_reach - 0.28);

    private double StopWidth => LyingWidth / _reach;

    private double Leaf => Above(_plan.Answer.Effective);

    private double? Clean => _plan.Limits?.Clean is { } clean ? Above(clean) : null;

    private double? Stretch => _plan.Limits?.Stretch is { } stretch ? Above(stretch) : null;

    /// <summary>Standing: the higher the leaf, the more light is missing.</summary>
    public static string Standing(ExposurePlan plan) => new Staff(plan).Stand();

    /// <summary>Lying, as the head of the give-up table.</summary>
    public static string Lying(ExposurePlan plan) => new Staff(plan).Lie();

    /// <summary>Where a row of the table leads, on the same scale.</summary>
    public static string Row(ExposurePlan plan, GiveUpRow row) => new Staff(plan).Lead(row);

    private string Stand()
    {
        int every = StopHeight < 28 ? 2 : 1;
        // Figures of five and six places reach further to the left.
        int longest = 0;
        for (int stop = 0; stop <= (int)_reach; stop++)
            longest = Math.Max(longest, Label(stop).Length);
        int beyond = longest switch { <= 4 => 0, <= 6 => 12, _ => 22 };
        StringBuilder svg = new($"<svg width=\"134\" viewBox=\"{-beyond} 0 {134 + beyond} {Height:0}\" preserveAspectRatio=\"xMinYMin meet\" aria-hidden=\"true\">");
        double? clean = Clean is { } c ? Y(c) : null, stretch = Stretch is { } s ? Y(s) : null;
        if (clean is { } from && from > 0)
            svg.Append(Rect(56, Math.Max(0, stretch ?? 0), 74, from - Math.Max(0, stretch ?? 0), "g1"));
        if (stretch is { } to && to > 0)
            svg.Append(Rect(56, 0, 74, to, "g2"));
        for (int thirds = 0; Y(thirds / 3.0) >= 8; thirds++)
        {
            double y = Y(thirds / 3.0);
            if (thirds % 3 != 0 && StopHeight < 36)
                continue;
            svg.Append(thirds % (3 * every) == 0
                ? $"<line class=\"tick-w\" x1=\"44\" x2=\"56\" y1=\"{Html.At(y)}\" y2=\"{Html.At(y)}\"/><text x=\"39\" y=\"{Html.At(Math.Max(16, y + 7))}\" text-anchor=\"end\" class=\"pn\">{Label(thirds / 3)}</text>"
                : $"<line class=\"tick\" x1=\"49\" x2=\"56\" y1=\"{Html.At(y)}\" y2=\"{Html.At(y)}\"/>");
        }
        svg.Append($"<line class=\"rule\" x1=\"56\" x2=\"56\" y1=\"0\" y2=\"{Height:0}\"/>");
        svg.Append($"<line class=\"rule\" x1=\"42\" x2=\"70\" y1=\"{FootAt}\" y2=\"{FootAt}\" style=\"stroke-width:4\"/>");
        double leaf = Y(OnStaff(Leaf));
        if (clean is { } line && line is > 0 and < Height)
        {
            bool isNear = Math.Abs(line - leaf) < 24;
            svg.Append($"<line class=\"clean\" x1=\"42\" x2=\"132\" y1=\"{Html.At(line)}\" y2=\"{Html.At(line)}\"/><text x=\"128\" y=\"{Html.At(line - (isNear ? 22 : 9))}\" class=\"pl\" text-anchor=\"end\">clean</text>");
        }
        if (stretch is { } second && second is > 0 and < Height && !(clean is { } near && near - second < 26))
        {
            foreach (double at in (ReadOnlySpan<double>)[second - 3.5, second + 3.5])
                svg.Append($"<line class=\"stretch\" x1=\"42\" x2=\"132\" y1=\"{Html.At(at)}\" y2=\"{Html.At(at)}\"/>");
            // At the very top the word hangs under its rules.
            svg.Append($"<text x=\"128\" y=\"{Html.At(second < TopWord ? second + 22 : second - 12)}\" class=\"pl\" text-anchor=\"end\">stretch</text>");
        }
        if (clean is { } end && _plan.Answer.Verdict == PlanVerdict.Clean && leaf - end > 30)
            svg.Append($"<path class=\"dim\" d=\"M122,{Html.At(leaf)}V{Html.At(end)} M115,{Html.At(leaf)}h14\" style=\"stroke-width:2\"/>");
        return svg.Append($"<g transform=\"translate(56,{Html.At(leaf)})\"><g class=\"slide\">{DrawLeaf(_plan.Answer.Verdict, 90, 1.08)}</g></g></svg>").ToString();
    }

    private string Lie()
    {
        StringBuilder svg = new("<svg width=\"100%\" height=\"70\" aria-hidden=\"true\">");
        svg.Append(Grain(46));
        for (int thirds = 0; thirds <= _reach * 3; thirds++)
        {
            if (thirds % 3 != 0 && StopWidth < 30)
                continue;
            string x = X(thirds / 3.0);
            svg.Append($"<line class=\"tick\" x1=\"{x}\" x2=\"{x}\" y1=\"46\" y2=\"{(thirds % 3 == 0 ? 54 : 51)}\"/>");
        }
        double leaf = OnStaff(Leaf);
        svg.Append("<line class=\"rule\" x1=\"0\" x2=\"100%\" y1=\"46\" y2=\"46\"/>").Append(Rules(54));
        svg.Append($"<svg x=\"{X(leaf)}\" y=\"46\" overflow=\"visible\"><g class=\"slide\">{DrawLeaf(_plan.Answer.Verdict, 0, 0.88)}</g></svg>");
        if (Shown(Clean) is { } clean)
            svg.Append(Named("clean", clean, isLeft: PxAt(clean) > LyingFrom + 20));
        // Of the places between the marks the first that holds the words; where none does they are left to the name of the table.
        (double from, double to) = Free([.. Marks(Clean, Stretch, leaf, 15)], 112);
        if (to - from >= 112)
            svg.Append($"<text class=\"pl\" x=\"{Percent(from)}\" dx=\"4\" y=\"37\">cheapest first</text>");
        if (Shown(Stretch) is { } stretch)
        {
            // The leaf stands in the way of words beside the rules that it lies just past.
            double past = (leaf - stretch) * StopWidth, below = (stretch - Math.Max(0, Clean ?? 0)) * StopWidth;
            bool isBlocked = past is > -16 and < 84 || PxAt(stretch) > Wide - 68;
            if (!isBlocked)
                svg.Append(Named("stretch", stretch, isLeft: false));
            else if (below > 78)
                svg.Append(Named("stretch", stretch, isLeft: true));
            else if (PxAt(leaf) < Wide - 84)
                svg.Append($"<text class=\"pl\" x=\"{X(Math.Max(leaf, stretch))}\" dx=\"19\" y=\"16\">stretch</text>");
        }
        foreach (double at in Labels())
            svg.Append($"<text x=\"{X(at)}\" y=\"68\" text-anchor=\"middle\">{Label(at)}</text>");
        return svg.Append("</svg>").ToString();

        string Named(string word, double at, bool isLeft) => $"<text class=\"pl\" x=\"{X(at)}\" dx=\"{(isLeft ? -9 : 9)}\" y=\"16\"{(isLeft ? " text-anchor=\"end\"" : "")}>{word}</text>";
    }

    /// <summary>Where ISOs are written: at the limits, and at a whole stop well away from them.</summary>
    private List<double> Labels()
    {
        double[] limits = [.. new[] { Shown(Clean), Shown(Stretch) }.OfType<double>()];
        List<double> written = [];
        foreach (double at in limits.Concat(Enumerable.Range(0, (int)_reach).Select(s => s + 1.0)))
        {
            if (written.All(w => Math.Abs(w - at) * StopWidth >= 66))
                written.Add(at);
        }
        return written;
    }

    private string Lead(GiveUpRow row)
    {
        StringBuilder svg = new("<svg class=\"mini\" width=\"100%\" height=\"50\" aria-hidden=\"true\">");
        bool movesLimit = row.What == GiveUpKind.SmallerPrint;
        (double? clean, double? stretch) = LimitsOf(row);
        svg.Append(Grain(50, clean, stretch));
        if (movesLimit && Shown(Clean) is { } before)
            svg.Append($"<line x1=\"{X(before)}\" x2=\"{X(before)}\" y1=\"0\" y2=\"50\" class=\"clean maybe\"/>");
        svg.Append(Rules(50, clean, stretch)).Append("<line class=\"tick\" x1=\"0\" x2=\"100%\" y1=\"37\" y2=\"37\"/>");
        double now = OnStaff(Leaf), then = OnStaff(Above(row.Answer.Effective));
        double from = movesLimit ? Clean ?? now : now, to = movesLimit ? clean ?? now : then;
        svg.Append($"<line class=\"dim\" style=\"stroke-width:2.25\" x1=\"{X(from)}\" x2=\"{X(to)}\" y1=\"26\" y2=\"26\"/><circle cx=\"{X(from)}\" cy=\"26\" r=\"3.2\" style=\"fill:var(--ink)\"/>");
        if (movesLimit)
            svg.Append($"<svg x=\"{X(to)}\" y=\"26\" overflow=\"visible\"><path class=\"dim\" style=\"stroke-width:2.25\" d=\"M-8,-5L0,0L-8,5\"/></svg>");
        return svg.Append($"<svg x=\"{X(then)}\" y=\"37\" overflow=\"visible\">{DrawLeaf(row.Answer.Verdict, 0, 0.58)}</svg></svg>").ToString();
    }

    /// <summary>Where the words of a row stand so that no rule and no leaf strikes them through: CSS.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="row">The row.</param>
    /// <param name="words">The words, plain.</param>
    public static string WordsAt(ExposurePlan plan, GiveUpRow row, string words)
    {
        Staff staff = new(plan);
        (double? clean, double? stretch) = staff.LimitsOf(row);
        List<(double From, double To)> marks = [.. staff.Marks(clean, stretch, staff.OnStaff(staff.Above(row.Answer.Effective)), 11)];
        if (row.What == GiveUpKind.SmallerPrint)
            marks.AddRange(staff.Marks(staff.Clean, null, null, 0));
        double need = words.Length * LetterPx;
        (double from, _) = Free(marks, need);
        return $"left:calc(34px + (100% - 68px) * {((from + 3 - LyingFrom) / LyingWidth).ToString("0.####", System.Globalization.CultureInfo.InvariantCulture)})";
    }

    // A letter of 18 px, on average and a little over.
    private const double LetterPx = 8.2;

    private (double? Clean, double? Stretch) LimitsOf(GiveUpRow row)
    {
        NoiseLimits? limits = row.What == GiveUpKind.SmallerPrint ? GapAnswer.LimitsAsked(row.After) : _plan.Limits;
        return (Shown(limits?.Clean is { } c ? Above(c) : null), Shown(limits?.Stretch is { } s ? Above(s) : null));
    }

    /// <summary>What the marks cover of a lying staff, px from the left edge of a telephone.</summary>
    private IEnumerable<(double From, double To)> Marks(double? clean, double? stretch, double? leaf, double halfLeaf)
    {
        if (clean is { } c)
            yield return (PxAt(c) - 3, PxAt(c) + 3);
        if (stretch is { } s)
            yield return (PxAt(s) - 5, PxAt(s) + 5);
        if (leaf is { } l)
            yield return (PxAt(l) - halfLeaf, PxAt(l) + halfLeaf);
    }

    /// <summary>The first place between marks that is wide enough, or else the widest.</summary>
    private static (double From, double To) Free(List<(double From, double To)> marks, double need)
    {
        const double first = 12, last = Wide - 4;
        (double From, double To) best = (first, first);
        double from = first;
        foreach ((double start, double end) in marks.OrderBy(m => m.From).Append((last, last)))
        {
            if (start - from >= need + 4 && best.To - best.From < need + 4 || best.To - best.From < need + 4 && start - from > best.To - best.From)
                best = (from, start);
            from = Math.Max(from, end);
        }
        return best;
    }

    private double PxAt(double stops) => LyingFrom + stops * StopWidth;

    private static string Percent(double px) => Html.At((px - LyingFrom) / LyingWidth * 100) + "%";

    private double OnStaff(double stops) => Math.Clamp(stops, 0, _reach - 0.3);

    private string Grain(int height) => Grain(height, Shown(Clean), Shown(Stretch));

    private string Grain(int height, double? clean, double? stretch)
    {
        double end = _reach;
        string html = "";
        if (clean is { } c)
            html += $"<rect x=\"{X(c)}\" y=\"0\" width=\"{X((stretch ?? end) - c)}\" height=\"{height}\" fill=\"url(#g1)\"/>";
        if (stretch is { } s)
            html += $"<rect x=\"{X(s)}\" y=\"0\" width=\"{X(end - s)}\" height=\"{height}\" fill=\"url(#g2)\"/>";
        return html;
    }

    private string Rules(int height) => Rules(height, Shown(Clean), Shown(Stretch));

    private string Rules(int height, double? clean, double? stretch)
    {
        string html = "";
        if (clean is { } c)
            html += $"<line class=\"clean\" x1=\"{X(c)}\" x2=\"{X(c)}\" y1=\"0\" y2=\"{height}\"/>";
        if (stretch is { } s)
            html += $"<svg x=\"{X(s)}\" overflow=\"visible\"><line class=\"stretch\" x1=\"-3\" x2=\"-3\" y1=\"0\" y2=\"{height}\"/><line class=\"stretch\" x1=\"3\" x2=\"3\" y1=\"0\" y2=\"{height}\"/></svg>";
        return html;
    }

    private static string DrawLeaf(PlanVerdict verdict, int turned, double scale)
    {
        string css = verdict switch { PlanVerdict.Clean => "leaf", PlanVerdict.Unknown => "leaf-q", _ => "leaf-o" };
        string rest = verdict switch
        {
            PlanVerdict.Clean => "<path d=\"M0,-13V-43\" style=\"stroke:var(--paper);stroke-width:1.6\"/>",
            PlanVerdict.Stretch => "<path class=\"half\" d=\"M0,-9 C15,-19 14,-37 0,-50Z\"/>",
            PlanVerdict.Beyond => "<path class=\"leaf\" d=\"M0,-9V-43\" style=\"fill:none;stroke-width:1.6\"/>",
            _ => "",
        };
        return $"<g transform=\"rotate({turned}) scale({Html.At(scale)})\"><path class=\"leaf\" d=\"M0,0V-10\" style=\"fill:none\"/><path class=\"{css}\" d=\"{Blade}\"/>{rest}</g>";
    }

    private static string Rect(double x, double y, double width, double height, string tile) => height <= 0 ? ""
        : $"<rect x=\"{Html.At(x)}\" y=\"{Html.At(y)}\" width=\"{Html.At(width)}\" height=\"{Html.At(height)}\" fill=\"url(#{tile})\"/>";

    private double Above(Iso iso) => iso.Above(_plan.Scene.BaseIso).Value;

    private double? Shown(double? stops) => stops is { } s && s >= 0 && s <= _reach ? s : null;

    private double Y(double stops) => FootAt - stops * StopHeight;

    private string X(double stops) => Html.At(stops / _reach * 100) + "%";

    private string Label(double stops) => Html.Iso(DialledIso.Of(Iso.FromSpeed(_plan.Scene.BaseIso.Speed * Stops.Of(stops).Ratio)).Dial);
}
