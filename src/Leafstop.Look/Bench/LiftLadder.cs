using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using static Leafstop.Look.Markup;

namespace Leafstop.Look.Bench;

/// <summary>Lift or dial on the ladder: what is shot, what it is lifted to, and the stops between them. The words beside it say the same.</summary>
public static class LiftLadder
{
    private const double Rule = 62;

    /// <summary>Draws it.</summary>
    /// <param name="page">Page to write on.</param>
    /// <param name="scale">The scale of all ladders of the page.</param>
    /// <param name="shot">ISO that is shot.</param>
    /// <param name="liftedTo">ISO that the light is metered for.</param>
    /// <param name="steps">Gain steps, drawn as a step down of the rule.</param>
    public static void Draw(Markup page, LadderScale scale, Iso shot, Iso liftedTo, IReadOnlyList<GainStep> steps)
    {
        double[] drops = [.. steps.Select(s => Math.Sqrt(s.Below.Speed * s.Above.Speed)).Where(m => m > scale.Low && m < scale.High).Order()];
        double Down(double iso) => Rule + (13 * drops.Count(d => iso > d));
        double low = Down(scale.High), height = low + 92;
        page.Open("div", ("class", "ladder")).Open("svg", ("width", "100%"), ("height", Px(height)), ("aria-hidden", "true"));
        scale.Ticks(page, Down, low + 44);
        double from = 0;
        foreach (double drop in drops)
        {
            double at = scale.At(drop), y = Down(drop);
            page.Empty("line", ("class", "rule"), ("x1", Share(from)), ("x2", Share(at)), ("y1", Px(y)), ("y2", Px(y)));
            page.Empty("line", ("class", "rule"), ("x1", Share(at)), ("x2", Share(at)), ("y1", Px(y - 1)), ("y2", Px(y + 14)));
            from = at;
        }

        page.Empty("line", ("class", "rule"), ("x1", Share(from)), ("x2", "100%"), ("y1", Px(low)), ("y2", Px(low)));
        double one = scale.At(shot.Speed), other = scale.At(liftedTo.Speed);
        Mark(page, one, Down(shot.Speed), "shot", other - one < 0.3 ? "end" : "middle", "stroke");
        Mark(page, other, Down(liftedTo.Speed), "lifted to", other - one < 0.3 ? "start" : "middle", "stroke-off");
        page.Empty("line", ("class", "dim"), ("x1", Share(one)), ("x2", Share(other)), ("y1", Px(low + 66)), ("y2", Px(low + 66)));
        foreach (double end in (ReadOnlySpan<double>)[one, other])
            page.Empty("line", ("class", "dim"), ("x1", Share(end)), ("x2", Share(end)), ("y1", Px(low + 60)), ("y2", Px(low + 72)));
        page.Close().Close().Line();
    }

    private static void Mark(Markup page, double at, double foot, string word, string anchor, string line)
    {
        // At the ends of the ladder a word in the middle would reach beyond the page.
        string held = at < 0.12 ? "start" : at > 0.88 ? "end" : anchor;
        page.Open("svg", ("x", Share(at)), ("y", Px(foot - 7)), ("overflow", "visible"));
        page.Empty("line", ("class", line), ("x1", "0"), ("x2", "0"), ("y1", "0"), ("y2", "-22"));
        page.Element("text", word, ("class", "halo"), ("x", held == "end" ? "-8" : held == "start" ? "8" : "0"), ("y", "-30"), ("text-anchor", held)).Close();
    }
}
