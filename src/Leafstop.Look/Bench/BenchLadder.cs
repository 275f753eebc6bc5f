using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using static Leafstop.Look.Markup;

namespace Leafstop.Look.Bench;

/// <summary>The ladder of stops of a bench test: frames are upright strokes, and the rule steps down at the gain step.</summary>
public static class BenchLadder
{
    private const double StrokeHeight = 22;
    private const double StepDown = 13;
    private const double LabelRow = 20;

    // "left off" is 60 px wide, the narrowest ladder 314 px.
    private const double LabelWidth = 0.2;

    /// <summary>Draws the levels of one ladder.</summary>
    public static void Draw(Markup page, LadderScale scale, IReadOnlyList<Level> levels, BenchAnswer answer)
    {
        HashSet<Iso> again = [.. BenchVerdict.Reshoot(answer)];
        GainStep[] steps = [.. answer.GainSteps.Where(s => s.Above.Speed > scale.Low && s.Below.Speed < scale.High)];
        double top = (steps.Length > 0 ? 24 : 0) + (2 * LabelRow) + StrokeHeight + 14;
        double height = top + (StepDown * steps.Length) + 50;
        double Rule(double iso) => top + (StepDown * steps.Count(s => iso > Middle(s)));

        page.Open("div", ("class", "ladder"), ("role", "img"), ("aria-label", Sentence(levels, answer, again)));
        page.Open("svg", ("width", "100%"), ("height", Px(height)), ("aria-hidden", "true"));
        scale.Ticks(page, Rule, height - 6);
        double from = 0;
        foreach (GainStep step in steps)
        {
            double at = scale.At(Middle(step));
            double y = Rule(step.Below.Speed);
            page.Empty("line", ("class", "rule"), ("x1", Share(from)), ("x2", Share(at)), ("y1", Px(y)), ("y2", Px(y)));
            page.Empty("line", ("class", "rule"), ("x1", Share(at)), ("x2", Share(at)), ("y1", Px(y - 1)), ("y2", Px(y + StepDown + 1)));
            page.Open("text", ("x", Share(at)), ("y", "17"), ("text-anchor", "middle")).Text("step ")
                .Element("tspan", $"{Figures.Speed(step.Below)} to {Figures.Speed(step.Above)}", ("class", "b")).Close();
            page.Empty("line", ("class", "dim dots"), ("x1", Share(at)), ("x2", Share(at)), ("y1", "26"), ("y2", Px(y - 6)));
            from = at;
        }

        page.Empty("line", ("class", "rule"), ("x1", Share(from)), ("x2", "100%"), ("y1", Px(Rule(scale.High))), ("y2", Px(Rule(scale.High))));
        foreach (Level level in levels)
            Strokes(page, level, scale.At(level.Iso.Speed), Rule(level.Iso.Speed) - 7, again.Contains(level.Iso));
        foreach ((double at, string text, double y) in Labels(levels, again, scale, Rule))
            page.Open("svg", ("x", Share(at)), ("y", Px(y)), ("overflow", "visible")).Element("text", text, ("class", "halo"), ("text-anchor", "middle")).Close();
        page.Close().Close().Line();
    }

    private static double Middle(GainStep step) => Math.Sqrt(step.Below.Speed * step.Above.Speed);

    private static void Strokes(Markup page, Level level, double at, double foot, bool again)
    {
        page.Open("svg", ("x", Share(at)), ("y", Px(foot)), ("overflow", "visible"));
        int count = Math.Min(level.Frames.Length, 6);
        for (int i = 0; i < count; i++)
        {
            double x = (i - ((count - 1) / 2.0)) * 6.4;
            if (again)
                page.Empty("rect", ("class", "stroke-open"), ("x", Px(x - 2.5)), ("y", Px(-StrokeHeight)), ("width", "5"), ("height", Px(StrokeHeight)));
            else
                page.Empty("line", ("class", level.Usable ? "stroke" : "stroke-off"), ("x1", Px(x)), ("x2", Px(x)), ("y1", "0"), ("y2", Px(-StrokeHeight)));
        }

        page.Close();
    }

    /// <summary>Neighbours with one label share it; a label too near to the last one goes a row up.</summary>
    private static List<(double At, string Text, double Y)> Labels(IReadOnlyList<Level> levels, HashSet<Iso> again, LadderScale scale, Func<double, double> rule)
    {
        List<(double At, string Text, double Y)> set = [];
        Level[] sorted = [.. levels.OrderBy(l => l.Iso)];
        bool lastUp = false;
        for (int i = 0; i < sorted.Length;)
        {
            string text = Word(sorted[i], again);
            int end = i;
            while (end + 1 < sorted.Length && Word(sorted[end + 1], again) == text && scale.At(sorted[end + 1].Iso.Speed) - scale.At(sorted[end].Iso.Speed) < LabelWidth)
                end++;
            if (text.Length > 0)
            {
                double iso = Math.Sqrt(sorted[i].Iso.Speed * sorted[end].Iso.Speed);
                double y = rule(sorted[i].Iso.Speed) - StrokeHeight - 14;
                bool near = set.Count > 0 && scale.At(iso) - set[^1].At < LabelWidth;
                bool up = near && !lastUp;
                set.Add((scale.At(iso), text, up ? y - LabelRow : y));
                lastUp = up;
            }

            i = end + 1;
        }

        return set;
    }

    private static string Word(Level level, HashSet<Iso> again) => again.Contains(level.Iso) ? "reshoot" : level.Usable ? "" : "left off";

    private static string Sentence(IReadOnlyList<Level> levels, BenchAnswer answer, HashSet<Iso> again)
    {
        Iso[] isos = [.. levels.Select(l => l.Iso).Order()];
        string levelsSay = $"{BenchVerdict.Capital(Figures.Count(levels.Count))} {(levels.Count == 1 ? "level" : "levels")} from {Figures.Name(isos[0])} to {Figures.Speed(isos[^1])}.";
        string steps = string.Concat(answer.GainSteps.Select(s => $" The read noise steps down between {Figures.Speed(s.Below)} and {Figures.Speed(s.Above)}."));
        string reshoot = again.Count > 0 ? $" {Figures.Names(again.Order())} to reshoot." : "";
        Iso[] off = [.. levels.Where(l => !l.Usable).Select(l => l.Iso)];
        string leftOff = off.Length > 0 ? $" {Figures.Names(off)} left off." : "";
        return levelsSay + steps + reshoot + leftOff + " No limit of this test is judged.";
    }
}
