using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using static Leafstop.Look.Markup;

namespace Leafstop.Look.Bench;

/// <summary>A worked-out limit on the ladder: broken rules, because nobody has judged it, and no grain.</summary>
public static class LimitLadder
{
    /// <summary>Draws the rules of one tone; a limit that the ladder does not reach is not drawn.</summary>
    public static void Draw(Markup page, LadderScale scale, PredictedLimit limit)
    {
        const double Rule = 66;
        page.Open("div", ("class", "ladder"), ("role", "img"), ("aria-label", Sentence(limit)));
        page.Open("svg", ("width", "100%"), ("height", "112"), ("aria-hidden", "true"));
        scale.Ticks(page, _ => Rule, 106);
        page.Empty("line", ("class", "rule"), ("x1", "0"), ("x2", "100%"), ("y1", Px(Rule)), ("y2", Px(Rule)));
        double last = double.NegativeInfinity;
        foreach ((string name, Iso? exact, double[] offsets, string line) in new (string, Iso?, double[], string)[]
                 { ("clean", limit.CleanExact, [0], "clean"), ("stretch", limit.StretchExact, [-3, 3], "stretch"), ("acceptable", limit.AcceptableExact, [0], "tick-w") })
        {
            if (exact is null || exact.Speed < scale.Low || exact.Speed > scale.High)
                continue;
            double at = scale.At(exact.Speed);
            bool near = (at - last) * scale.Stops < 2.5;
            double text = near ? 34 : 14;
            last = near ? double.NegativeInfinity : at;
            page.Open("svg", ("x", Share(at)), ("y", "0"), ("overflow", "visible"));
            foreach (double x in offsets)
                page.Empty("line", ("class", line + " maybe"), ("x1", Px(x)), ("x2", Px(x)), ("y1", Px(text + 7)), ("y2", Px(Rule + 9)));
            string anchor = at < 0.08 ? "start" : at > 0.92 ? "end" : "middle";
            page.Open("text", ("x", anchor == "start" ? "-6" : anchor == "end" ? "6" : "0"), ("y", Px(text)), ("text-anchor", anchor), ("class", "halo")).Text(name + " ")
                .Element("tspan", Figures.Speed(exact.DialAtOrBelow()) + "?", ("class", "b")).Close();
            page.Close();
        }

        page.Close().Close().Line();
    }

    private static string Sentence(PredictedLimit limit)
    {
        static string Where(string name, Iso? iso) => iso is null ? $"{name} not reached" : $"{name} at ISO {Figures.Speed(iso.DialAtOrBelow())}";
        return $"Worked out, not judged: {Where("clean", limit.CleanExact)}, {Where("stretch", limit.StretchExact)}, {Where("published acceptable", limit.AcceptableExact)}.";
    }
}
