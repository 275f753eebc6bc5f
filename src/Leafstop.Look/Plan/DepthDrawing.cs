using System.Globalization;
using Leafstop.Core.Optics;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using static Leafstop.Look.Markup;

namespace Leafstop.Look.Plan;

/// <summary>What must be sharp, drawn to scale from the camera outwards: slant lines where blur would be seen, circles of the blur on the print, enlarged.</summary>
public sealed class DepthDrawing
{
    private const double Ground = 248, Top = 62, PixelsPerMillimetre = 96 / 25.4, LargestRadius = 30;
    private static readonly int[] Enlargements = [50, 20, 10, 5, 2, 1];

    private readonly ExposurePlan _plan;
    private readonly DepthWish _depth;
    private readonly DepthOfField _held;
    private readonly Length _blur, _allowed;
    private readonly double _farthest;

    private DepthDrawing(ExposurePlan plan, DepthWish depth, Core.Sensor.PrintCondition print)
    {
        (_plan, _depth) = (plan, depth);
        (FNumber aperture, double kept) = (plan.Scene.Aperture, plan.Scene.WidthKept);
        _held = depth.Held(aperture, print, kept);
        (_blur, _allowed) = (depth.BlurOnPrint(aperture, print, kept), depth.AllowedOnPrint(print));
        double metres = depth.Demand.Far.IsInfinite ? depth.Demand.Focus.Metres * 2 : depth.Demand.Far.Metres * 1.25;
        double step = Step(metres);
        _farthest = Math.Ceiling(metres / step - 1e-9) * step;
    }

    /// <summary>The drawing; null when no depth or no print is asked.</summary>
    public static DepthDrawing? Of(ExposurePlan plan) => plan?.Scene.Depth is { } depth && plan.Print is { } print ? new DepthDrawing(plan, depth, print) : null;

    /// <summary>"At f/8, focused at 9 m, you hold 7 m to 12.7 m."</summary>
    public string Title => $"At {_plan.Scene.Aperture.ToDisplay()}, focused at {_depth.Demand.Focus.ToDisplay()}, you hold {_held.Near.ToDisplay()} to {_held.Far.ToDisplay()}.";

    /// <summary>What the marks mean, in numbers.</summary>
    public string Caption => $"Slant lines: blur you would see. Circles are the blur at near and far on your print, {Hundredths(_blur)} mm, drawn {Enlarged} times its size; you start to see {Hundredths(_allowed)}.";

    /// <summary>The whole drawing in a sentence.</summary>
    public string Says => $"Side view to scale: camera at 0, near at {_depth.Demand.Near.ToDisplay()} and far at {_depth.Demand.Far.ToDisplay()} blur {Hundredths(_blur)} millimetres on the print. {Title}";

    /// <summary>Draws it.</summary>
    public Markup Draw(Markup page)
    {
        ArgumentNullException.ThrowIfNull(page);
        page.Open("svg", ("class", "plot"), ("width", "100%"), ("height", "286"), ("role", "img"), ("aria-label", Says));
        double near = At(_held.Near), far = At(_held.Far), focus = At(_depth.Demand.Focus);
        Soft(page, 0, near);
        Soft(page, far, 1);
        foreach (double edge in (double[])[near, far])
        {
            if (edge < 1)
                Upright(page, edge, Top, false);
        }
        Upright(page, focus, 92, true);
        Ticks(page);
        page.Empty("line", ("x1", "0"), ("x2", "100%"), ("y1", Px(Ground)), ("y2", Px(Ground)), ("style", "stroke:var(--ink);stroke-width:2.5"));
        page.Open("svg", ("x", "14"), ("y", Px(Ground)), ("overflow", "visible"));
        page.Empty("path", ("d", "M0,-44 L-12,0 M0,-44 L12,0 M0,-44V-6"), ("style", "stroke:var(--ink);stroke-width:2;fill:none"));
        page.Empty("rect", ("x", "-10"), ("y", "-58"), ("width", "20"), ("height", "14"), ("style", "fill:var(--paper);stroke:var(--ink);stroke-width:2")).Close();
        double first = At(_depth.Demand.Near), last = At(_depth.Demand.Far);
        Thing(page, first, "near", last - first < 0.3 && first > 0.12 ? "end" : "middle");
        Thing(page, last, "far", last > 0.88 || last - first < 0.3 ? last > 0.88 ? "end" : "start" : "middle");
        page.Open("svg", ("x", Share(focus)), ("overflow", "visible")).Empty("circle", ("cy", "86"), ("r", "3"), ("style", "fill:var(--ink)"))
            .Element("text", $"focus {_depth.Demand.Focus.ToDisplay()}", ("class", "halo"), ("x", focus > 0.7 ? "-8" : "8"), ("y", "234"), ("text-anchor", focus > 0.7 ? "end" : "start")).Close();
        return page.Close();
    }

    private int Enlarged => Enlargements.FirstOrDefault(e => Radius(e) <= LargestRadius, 1);

    private double Radius(int enlarged) => _blur.Millimetres * enlarged * PixelsPerMillimetre / 2;

    private void Thing(Markup page, double at, string name, string anchor)
    {
        double radius = Math.Clamp(Radius(Enlarged), 1, 44);
        page.Open("svg", ("x", Share(at)), ("overflow", "visible"));
        page.Empty("path", ("d", $"M0,{Px(Ground)}V{Px(86 + radius)}"), ("style", "stroke:var(--ink);stroke-width:1.8;fill:none"));
        page.Empty("circle", ("cy", "86"), ("r", Px(radius)), ("style", "fill:var(--paper);stroke:var(--ink);stroke-width:2"));
        string dx = anchor switch { "end" => "6", "start" => "-6", _ => "0" };
        page.Element("text", name, ("x", dx), ("y", "20"), ("text-anchor", anchor));
        page.Element("text", $"{Hundredths(_blur)} mm", ("class", "b"), ("x", dx), ("y", "44"), ("text-anchor", anchor)).Close();
    }

    private void Ticks(Markup page)
    {
        double step = Step(_farthest);
        int count = (int)Math.Round(_farthest / step);
        bool endless = _depth.Demand.Far.IsInfinite;
        for (int i = 0; i <= count; i++)
        {
            string at = Share((double)i / count);
            bool isNamed = i % 2 == 0 || i == count;
            page.Empty("line", ("class", "ax"), ("x1", at), ("x2", at), ("y1", Px(Ground)), ("y2", Px(Ground + (isNamed ? 12 : 6))));
            // The words at the end want more room than a number.
            if (isNamed && (i == count || count - i > (endless ? 2 : 1)))
            {
                string text = i == count && endless ? "and on to infinity" : $"{(i * step).ToString("0.##", CultureInfo.InvariantCulture)}{Figures.NoBreak}m";
                page.Element("text", text, ("x", at), ("y", "281"), ("text-anchor", i == 0 ? "start" : i == count ? "end" : "middle"));
            }
        }
    }

    private static void Soft(Markup page, double from, double to)
    {
        if (to > from)
            page.Empty("rect", ("x", Share(from)), ("y", Px(Top)), ("width", Share(to - from)), ("height", Px(Ground - Top)), ("fill", "url(#soft)"));
    }

    private static void Upright(Markup page, double at, double from, bool isBroken) =>
        page.Empty("line", ("class", "ax"), ("x1", Share(at)), ("x2", Share(at)), ("y1", Px(from)), ("y2", Px(Ground)), ("stroke-dasharray", isBroken ? "2 4" : "none"));

    private double At(SubjectDistance distance) => distance.IsInfinite ? 1 : Math.Min(1, distance.Metres / _farthest);

    // About six steps of 1, 2 or 5.
    private static double Step(double metres)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(metres / 6)));
        return power * ((metres / 6 / power) switch { <= 1 => 1, <= 2 => 2, <= 5 => 5, _ => 10 });
    }

    private static string Hundredths(Length length) => length.Millimetres.ToString("0.00", CultureInfo.InvariantCulture);
}
