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

    /// <summary>Stops from the foot to the top: a third is 23.8 px on a staff 470 px high.</summary>
    private const double Reach = 6.6, Below = 0.22;

    private const double Height = 470, FootAt = 454, StopHeight = (Height - 16) / (Reach - Below);

    private readonly ExposurePlan _plan;
    private readonly int _foot;

    private Staff(ExposurePlan plan)
    {
        _plan = plan;
        double leaf = Leaf;
        double top = Clamped(Stretch ?? Clean + 2 ?? 5);
        _foot = (int)Math.Max(0, Math.Max(Math.Ceiling(top - 6), Math.Ceiling(leaf - 6.2)));
    }

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
        StringBuilder svg = new($"<svg width=\"134\" viewBox=\"0 0 134 {Height:0}\" preserveAspectRatio=\"xMinYMin meet\" aria-hidden=\"true\">");
        double? clean = Clean is { } c ? Y(c) : null, stretch = Stretch is { } s ? Y(s) : null;
        if (clean is { } from && from > 0)
            svg.Append(Rect(56, Math.Max(0, stretch ?? 0), 74, from - Math.Max(0, stretch ?? 0), "g1"));
        if (stretch is { } to && to > 0)
            svg.Append(Rect(56, 0, 74, to, "g2"));
        for (int thirds = 0; Y(_foot + thirds / 3.0) >= 8; thirds++)
        {
            double y = Y(_foot + thirds / 3.0);
            svg.Append(thirds % 3 == 0
                ? $"<line class=\"tick-w\" x1=\"44\" x2=\"56\" y1=\"{Html.At(y)}\" y2=\"{Html.At(y)}\"/><text x=\"39\" y=\"{Html.At(Math.Max(16, y + 7))}\" text-anchor=\"end\" class=\"pn\">{Label(_foot + thirds / 3)}</text>"
                : $"<line class=\"tick\" x1=\"49\" x2=\"56\" y1=\"{Html.At(y)}\" y2=\"{Html.At(y)}\"/>");
        }
        svg.Append($"<line class=\"rule\" x1=\"56\" x2=\"56\" y1=\"0\" y2=\"{Height:0}\"/>");
        if (_foot == 0)
            svg.Append($"<line class=\"rule\" x1=\"42\" x2=\"70\" y1=\"{FootAt}\" y2=\"{FootAt}\" style=\"stroke-width:4\"/>");
        double leaf = Y(Math.Clamp(Leaf, _foot, _foot + 6.3));
        if (clean is { } line && line is > 0 and < Height)
        {
            bool isNear = Math.Abs(line - leaf) < 24;
            svg.Append($"<line class=\"clean\" x1=\"42\" x2=\"132\" y1=\"{Html.At(line)}\" y2=\"{Html.At(line)}\"/><text x=\"128\" y=\"{Html.At(line - (isNear ? 22 : 9))}\" class=\"pl\" text-anchor=\"end\">clean</text>");
        }
        if (stretch is { } second && second is > 0 and < Height && !(clean is { } near && near - second < 26))
        {
            foreach (double at in (ReadOnlySpan<double>)[second - 3.5, second + 3.5])
                svg.Append($"<line class=\"stretch\" x1=\"42\" x2=\"132\" y1=\"{Html.At(at)}\" y2=\"{Html.At(at)}\"/>");
            svg.Append($"<text x=\"128\" y=\"{Html.At(second - 12)}\" class=\"pl\" text-anchor=\"end\">stretch</text>");
        }
        if (clean is { } end && _plan.Answer.Verdict == PlanVerdict.Clean && leaf - end > 30)
            svg.Append($"<path class=\"dim\" d=\"M122,{Html.At(leaf)}V{Html.At(end)} M115,{Html.At(leaf)}h14\" style=\"stroke-width:2\"/>");
        return svg.Append($"<g transform=\"translate(56,{Html.At(leaf)})\"><g class=\"slide\">{DrawLeaf(_plan.Answer.Verdict, 90, 1.08)}</g></g></svg>").ToString();
    }

    private string Lie()
    {
        StringBuilder svg = new("<svg width=\"100%\" height=\"70\" aria-hidden=\"true\">");
        svg.Append(Grain(46));
        for (int thirds = 0; thirds <= 20; thirds++)
        {
            string x = X(_foot + thirds / 3.0);
            svg.Append($"<line class=\"tick\" x1=\"{x}\" x2=\"{x}\" y1=\"46\" y2=\"{(thirds % 3 == 0 ? 54 : 51)}\"/>");
        }
        svg.Append("<line class=\"rule\" x1=\"0\" x2=\"100%\" y1=\"46\" y2=\"46\"/>").Append(Rules(54));
        svg.Append($"<svg x=\"{X(Leaf)}\" y=\"46\" overflow=\"visible\"><g class=\"slide\">{DrawLeaf(_plan.Answer.Verdict, 0, 0.88)}</g></svg>");
        if (Shown(Clean) is { } clean)
            svg.Append($"<text class=\"pl\" x=\"{X(clean)}\" dx=\"-7\" y=\"16\" text-anchor=\"end\">clean</text>");
        svg.Append("<text class=\"pl\" x=\"0\" dx=\"-18\" y=\"37\">cheapest first</text>");
        if (Shown(Stretch) is { } stretch)
        {
            bool isFar = stretch - _foot > 4.9;
            svg.Append($"<text class=\"pl\" x=\"{X(stretch)}\" dx=\"{(isFar ? 28 : 9)}\" y=\"16\"{(isFar ? " text-anchor=\"middle\"" : "")}>stretch</text>");
        }
        foreach (double at in Labels())
            svg.Append($"<text x=\"{X(at)}\" y=\"68\" text-anchor=\"middle\">{Label(at)}</text>");
        return svg.Append("</svg>").ToString();
    }

    /// <summary>Where ISOs are written: at the limits, and at a whole stop well away from them.</summary>
    private List<double> Labels()
    {
        double[] limits = [.. new[] { Shown(Clean), Shown(Stretch) }.OfType<double>()];
        List<double> written = [];
        foreach (double at in limits.Concat([_foot + 1, _foot + 3, _foot + 5]))
        {
            if (written.All(w => Math.Abs(w - at) >= 1.3))
                written.Add(at);
        }
        return written;
    }

    private string Lead(GiveUpRow row)
    {
        StringBuilder svg = new("<svg class=\"mini\" width=\"100%\" height=\"50\" aria-hidden=\"true\">");
        bool movesLimit = row.What == GiveUpKind.SmallerPrint;
        NoiseLimits? limits = movesLimit ? GapAnswer.LimitsAsked(row.After) : _plan.Limits;
        double? clean = Shown(limits?.Clean is { } c ? Above(c) : null), stretch = Shown(limits?.Stretch is { } s ? Above(s) : null);
        svg.Append(Grain(50, clean, stretch));
        if (movesLimit && Shown(Clean) is { } before)
            svg.Append($"<line x1=\"{X(before)}\" x2=\"{X(before)}\" y1=\"0\" y2=\"50\" class=\"clean maybe\"/>");
        svg.Append(Rules(50, clean, stretch)).Append("<line class=\"tick\" x1=\"0\" x2=\"100%\" y1=\"37\" y2=\"37\"/>");
        double now = Leaf, then = Math.Clamp(Above(row.Answer.Effective), _foot, _foot + 6.6);
        double from = movesLimit ? Clean ?? now : now, to = movesLimit ? clean ?? now : then;
        svg.Append($"<line class=\"dim\" style=\"stroke-width:2.25\" x1=\"{X(from)}\" x2=\"{X(to)}\" y1=\"26\" y2=\"26\"/><circle cx=\"{X(from)}\" cy=\"26\" r=\"3.2\" style=\"fill:var(--ink)\"/>");
        if (movesLimit)
            svg.Append($"<svg x=\"{X(to)}\" y=\"26\" overflow=\"visible\"><path class=\"dim\" style=\"stroke-width:2.25\" d=\"M-8,-5L0,0L-8,5\"/></svg>");
        return svg.Append($"<svg x=\"{X(then)}\" y=\"37\" overflow=\"visible\">{DrawLeaf(row.Answer.Verdict, 0, 0.58)}</svg></svg>").ToString();
    }

    private string Grain(int height) => Grain(height, Shown(Clean), Shown(Stretch));

    private string Grain(int height, double? clean, double? stretch)
    {
        double end = _foot + 20 / 3.0;
        string html = "";
        if (clean is { } c)
            html += $"<rect x=\"{X(c)}\" y=\"0\" width=\"{X(_foot + (stretch ?? end) - c)}\" height=\"{height}\" fill=\"url(#g1)\"/>";
        if (stretch is { } s)
            html += $"<rect x=\"{X(s)}\" y=\"0\" width=\"{X(_foot + end - s)}\" height=\"{height}\" fill=\"url(#g2)\"/>";
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

    private double? Shown(double? stops) => stops is { } s && s >= _foot && s <= _foot + 20 / 3.0 ? s : null;

    private double Y(double stops) => FootAt - (stops - _foot) * StopHeight;

    private string X(double stops) => Html.At((stops - _foot) / (20 / 3.0) * 100) + "%";

    private string Label(double stops) => Html.Iso(DialledIso.Of(Iso.FromSpeed(_plan.Scene.BaseIso.Speed * Stops.Of(stops).Ratio)).Dial);

    private static double Clamped(double stops) => Math.Clamp(stops, 0, 20);
}
