using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using static Leafstop.Look.Markup;

namespace Leafstop.Look;

/// <summary>A limit on the ladder of stops.</summary>
/// <param name="Iso">Where it lies.</param>
/// <param name="Low">Low end of its 95 % interval; null when that is not known.</param>
/// <param name="High">High end.</param>
/// <param name="IsJudged">False for one that is worked out: it is drawn broken and brings no grain.</param>
public sealed record LadderLimit(double Iso, double? Low, double? High, bool IsJudged);

/// <summary>The lying ladder of stops: zero is base ISO, a tick each third, limits as rules, grain past them, a leaf at the ISO that is needed.</summary>
public sealed record StopLadder
{
    private const double Rule = 118, Foot = 152;

    // "clean 800" needs this share of a narrow ladder; closer labels would lie on each other.
    private const double LabelShare = 0.3;

    /// <summary>ISO at zero stops.</summary>
    public double BaseIso { get; init; } = 100;

    /// <summary>The highest ISO that is shown, at least.</summary>
    public double TopIso { get; init; } = 12_800;

    /// <summary>Where clean ends; null when nobody knows.</summary>
    public LadderLimit? Clean { get; init; }

    /// <summary>Where bearable ends; null when nobody knows.</summary>
    public LadderLimit? Stretch { get; init; }

    /// <summary>The ISO that closes the gap, where the leaf floats; null for a ladder of limits alone.</summary>
    public double? LeafIso { get; init; }

    /// <summary>How it stands with the leaf, by the limits.</summary>
    public LeafState Leaf => LeafIso is not { } iso || Clean is not { IsJudged: true } clean ? LeafState.Broken
        : iso <= clean.Iso * (1 + 1e-9) ? LeafState.Whole
        : Stretch is { IsJudged: true } stretch && iso <= stretch.Iso * (1 + 1e-9) ? LeafState.Half
        : LeafState.Bare;

    /// <summary>Draws it. The words beside it say the same, so it is hidden from a screen reader.</summary>
    public Markup Draw(Markup page)
    {
        LadderScale scale = new(Covers());
        bool hasGap = LeafIso is not null;
        page.Open("svg", ("width", "100%"), ("height", Px(!hasGap ? 160 : Over > 0.02 ? 218 : 190)), ("aria-hidden", "true"));
        Grain(page, scale);
        page.OwnResource(Ticks(scale));
        page.Empty("line", ("class", "rule"), ("x1", "0"), ("x2", "100%"), ("y1", Px(Rule)), ("y2", Px(Rule)));
        bool areNear = Clean is { } a && Stretch is { } b && Math.Abs(scale.At(a.Iso) - scale.At(b.Iso)) < LabelShare;
        DrawLimit(page, scale, "clean", Clean, [0], "clean", areNear ? "end" : "middle");
        DrawLimit(page, scale, "stretch", Stretch, [-3, 3], "stretch", areNear ? "start" : "middle");
        if (LeafIso is { } needed)
        {
            DrawGap(page, scale, needed);
            page.Open("svg", ("x", Share(scale.At(needed))), ("y", Px(Rule)), ("overflow", "visible"), ("class", "slide"));
            page.Open("g", ("transform", "scale(1.12)")).LeafMarks(Leaf).Close().Close();
        }
        return page.Close();
    }

    /// <summary>The ISOs that its scale covers, so that other ladders of a page can lie on the same.</summary>
    public double[] Covers()
    {
        double[] all = [BaseIso, TopIso, .. new[] { LeafIso, Clean?.Iso, Clean?.High, Stretch?.Iso, Stretch?.High }.OfType<double>()];
        return [.. all.Where(i => double.IsFinite(i) && i > 0)];
    }

    // A page draws the same ticks at every key: the last ones are kept.
    private static string Ticks(LadderScale scale)
    {
        if (_lastTicks is not { } last || last.Low != scale.Low || last.High != scale.High)
        {
            Markup drawn = new();
            scale.Ticks(drawn, _ => Rule, Foot);
            _lastTicks = last = new DrawnTicks(scale.Low, scale.High, drawn.ToString());
        }
        return last.Text;
    }

    private static DrawnTicks? _lastTicks;

    private sealed record DrawnTicks(double Low, double High, string Text);

    private double Over => LeafIso is { } iso && Clean is { } clean ? Math.Log2(iso / clean.Iso) : 0;

    private void Grain(Markup page, LadderScale scale)
    {
        if (Clean is not { IsJudged: true } clean)
            return;
        double from = scale.At(clean.Iso), to = Stretch is { IsJudged: true } stretch ? scale.At(stretch.Iso) : 1;
        page.Empty("rect", ("x", Share(from)), ("y", "56"), ("width", Share(Math.Max(0, to - from))), ("height", "62"), ("fill", "url(#g1)"));
        if (to < 1)
            page.Empty("rect", ("x", Share(to)), ("y", "56"), ("width", Share(1 - to)), ("height", "62"), ("fill", "url(#g2)"));
    }

    private static void DrawLimit(Markup page, LadderScale scale, string name, LadderLimit? limit, double[] rules, string line, string anchor)
    {
        if (limit is null)
            return;
        string at = Share(scale.At(limit.Iso)), broken = limit.IsJudged ? "" : " maybe";
        page.Open("svg", ("x", at), ("y", "0"), ("overflow", "visible"));
        foreach (double x in rules)
            page.Empty("line", ("class", line + broken), ("x1", Px(x)), ("x2", Px(x)), ("y1", "30"), ("y2", "133"));
        page.Open("text", ("x", anchor == "end" ? "8" : anchor == "start" ? "-8" : "0"), ("y", "20"), ("text-anchor", anchor)).Text(name + " ")
            .Element("tspan", Iso.FromSpeed(limit.Iso).ToDisplay() + (limit.IsJudged ? "" : "?"), ("class", "b")).Close().Close();
        if (limit is { Low: { } low, High: { } high })
            Measure(page, scale.At(low), scale.At(high), 36, 4, "dim");
    }

    private void DrawGap(Markup page, LadderScale scale, double needed)
    {
        double zero = scale.At(BaseIso), leaf = scale.At(needed);
        if (leaf - zero > 0.2)
        {
            Measure(page, zero, leaf, 174, 6, "dim");
            page.Open("svg", ("x", Share((zero + leaf) / 2)), ("y", "174"), ("overflow", "visible"));
            page.Empty("rect", ("class", "bg"), ("x", "-42"), ("y", "-12"), ("width", "84"), ("height", "24"));
            page.Open("text", ("y", "6"), ("text-anchor", "middle")).Text("gap ").Open("tspan", ("class", "b")).Fractions(Size(Math.Log2(needed / BaseIso)), "tspan").Close().Close().Close();
        }
        if (Clean is not { } clean || Math.Abs(Over) <= 0.02)
            return;
        double limit = scale.At(clean.Iso);
        if (Over > 0)
            Measure(page, limit, leaf, 204, 6, "dim over");
        else
            Measure(page, leaf, limit, 174, 6, "dim");
        double end = Math.Max(limit, leaf), y = Over > 0 ? 210 : 180;
        bool isAtEdge = end > 0.75;
        page.Open("text", ("x", Share(isAtEdge ? Math.Min(limit, leaf) : end)), ("y", Px(y)), ("dx", isAtEdge ? "-10" : "10"), ("text-anchor", isAtEdge ? "end" : "start"), ("class", "halo"))
            .Fractions(Size(Over) is var size && size == "0" ? "a little" : size, "tspan").Text(Over > 0 ? " over" : " spare").Close();
    }

    // As the sentences beside it say it.
    private static string Size(double stops) => PlanSentences.StopsNumber(Stops.Of(Math.Abs(stops)));

    private static void Measure(Markup page, double from, double to, double y, double half, string line)
    {
        page.Empty("line", ("class", line), ("x1", Share(from)), ("x2", Share(to)), ("y1", Px(y)), ("y2", Px(y)));
        foreach (double end in (ReadOnlySpan<double>)[from, to])
            page.Empty("line", ("class", "dim"), ("x1", Share(end)), ("x2", Share(end)), ("y1", Px(y - half)), ("y2", Px(y + half)));
    }
}
