using System.Globalization;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using static Leafstop.Look.Markup;

namespace Leafstop.Look.Plan;

/// <summary>A plan over some hours: the ISO that its exposure needs as the light changes, and when that passes the limits.</summary>
/// <remarks>The light comes a minute apart from <see cref="Core.Light.LightCurve"/>; between two minutes it is taken as straight, which moves a crossing by under a second.</remarks>
public sealed class Evening
{
    private const double Height = 320, Foot = 28, TopIso = 12_800;

    private readonly ExposurePlan _plan;
    private readonly DateTimeOffset _from;
    private readonly IReadOnlyList<double> _ev, _uncertainty;
    private readonly double _asked;
    private readonly double _least, _most;

    /// <summary>Takes the light of a time with the hours around it.</summary>
    /// <param name="plan">The plan for that time.</param>
    /// <param name="from">Time of the first value.</param>
    /// <param name="ev">EV100 without filter, a minute apart, two or more.</param>
    /// <param name="uncertainty">Stops either way, as many.</param>
    /// <param name="asked">EV100 at the time of the plan.</param>
    public Evening(ExposurePlan plan, DateTimeOffset from, IReadOnlyList<double> ev, IReadOnlyList<double> uncertainty, double asked)
    {
        ArgumentNullException.ThrowIfNull(plan);
        (_plan, _from, _ev, _uncertainty, _asked) = (plan, from, ev, uncertainty, asked);
        double foot = Math.Log2(plan.Scene.BaseIso.Speed / 100), top = Math.Log2(TopIso / 100);
        double[] all = [.. Enumerable.Range(0, Minutes).Select(i => Math.Log2(Iso(i) / 100))];
        _least = Math.Floor(Math.Min(foot, Math.Clamp(all.Min(), foot - 3, top)));
        _most = Math.Ceiling(Math.Max(top, Math.Clamp(all.Max(), foot, top + 2)));
    }

    /// <summary>How many minutes are told.</summary>
    public int Minutes => _ev.Count;

    /// <summary>The time of a minute, by the clock of the place.</summary>
    public DateTimeOffset Time(int minute) => _from.AddMinutes(minute);

    /// <summary>The ISO that the exposure needs then, exact.</summary>
    public double Iso(int minute) => _plan.Answer.Iso.Speed * Math.Pow(2, _asked - _ev[minute]);

    /// <summary>"18:15: EV 9, ISO 800, at your clean limit, 0 to spare."</summary>
    public string Says(int minute)
    {
        GapAnswer then = Then(minute);
        var dialled = Core.Exposure.DialledIso.Of(then.Iso);
        string iso = then.Gap.Value < -Stops.Hair ? "base ISO is enough" : dialled.IsBeyondDial ? "no dial goes as high as this needs" : $"ISO {dialled.Dial.ToDisplay()}, {PlanSentences.Place(then, _plan.Limits)}";
        return $"{Clock(Time(minute))}: EV {ExposureValue.Of(_ev[minute]).ToDisplay()} ±{_uncertainty[minute].ToString("0.#", CultureInfo.InvariantCulture)}, {iso}.";
    }

    /// <summary>When a limit is passed.</summary>
    /// <param name="spare">Stops to the limit at the time of the plan.</param>
    public IReadOnlyList<(DateTimeOffset At, bool IsDarkening, double Minute)> Passes(Stops spare)
    {
        double wanted = _asked - spare.Value;
        List<(DateTimeOffset, bool, double)> found = [];
        for (int i = 1; i < _ev.Count; i++)
        {
            bool was = _ev[i - 1] >= wanted - Stops.Hair, isNow = _ev[i] >= wanted - Stops.Hair;
            if (was == isNow)
                continue;
            double minute = i - 1 + (wanted - _ev[i - 1]) / (_ev[i] - _ev[i - 1]);
            found.Add((_from.AddMinutes(minute), was, minute));
        }
        return found;
    }

    /// <summary>"At f/8 and 1/60 s you leave clean at 18:15 and pass stretch at 18:39."</summary>
    public string Title
    {
        get
        {
            List<string> told = [];
            if (_plan.Answer.SpareToClean is { } clean)
                told.AddRange(Passes(clean).Select(p => $"{(p.IsDarkening ? "leave" : "come back inside")} clean at {Clock(p.At)}"));
            if (_plan.Answer.SpareToStretch is { } stretch)
                told.AddRange(Passes(stretch).Select(p => $"{(p.IsDarkening ? "pass" : "come back inside")} stretch at {Clock(p.At)}"));
            string at = $"At {_plan.Scene.Aperture.ToDisplay()} and {_plan.Scene.Shutter.ToDisplay()}";
            return told.Count > 0 ? $"{at} you {Figures.List(told)}."
                : _plan.Limits is null ? $"{at} the ISO goes with the light; no limits are known that it could pass."
                : $"{at} you pass neither limit from {Clock(Time(0))} to {Clock(Time(Minutes - 1))}.";
        }
    }

    /// <summary>Why no hours are drawn around a reading of the moon or of lamps.</summary>
    /// <param name="at">When the meter was read.</param>
    /// <param name="over">Stops over what the sun leaves.</param>
    public static string OtherLight(DateTimeOffset at, Stops over) =>
        $"At {Clock(at)} your meter showed {PlanSentences.StopsWords(over)} more than the sun leaves after dusk: that is the moon or lamps. "
        + "How the sun goes says nothing of such light, so no hours are drawn: read the meter again when you shoot. (rule of thumb)";

    /// <summary>How the ISO of a time and the crossings are worked out.</summary>
    public IReadOnlyList<Statement> Why => PartsWhy.Evening(_plan, _asked);

    /// <summary>How fast the light goes at the time of the plan: "You lose a stop in about 12 minutes."</summary>
    public string Rate
    {
        get
        {
            int now = Now;
            double rate = _ev[Math.Min(Minutes - 1, now + 1)] - _ev[Math.Max(0, now - 1)];
            int span = Math.Min(Minutes - 1, now + 1) - Math.Max(0, now - 1);
            double minute = rate / span;
            return Math.Abs(minute) < 0.01 ? "At the time you ask the light holds." : $"At the time you ask you {(minute < 0 ? "lose" : "gain")} a stop in about {Figures.Fixed(1 / Math.Abs(minute), 0)}{Figures.NoBreak}minutes.";
        }
    }

    /// <summary>The minute of the time that was asked.</summary>
    public int Now { get; init; } = 60;

    /// <summary>Draws it: the standing ladder is the axis, the curve climbs into the grain, leaves mark the crossings, times stand at the foot.</summary>
    public Markup Draw(Markup page)
    {
        ArgumentNullException.ThrowIfNull(page);
        page.Open("svg", ("class", "plot"), ("width", "100%"), ("height", Px(Height + Foot + 6)), ("role", "img"), ("aria-label", Title));
        double? clean = _plan.Answer.SpareToClean is { } c ? Down(Level(c)) : null, stretch = _plan.Answer.SpareToStretch is { } s ? Down(Level(s)) : null;
        bool isOwn = _plan.Limits is { Origin: not Core.Viewing.LimitOrigin.WorkedOut };
        if (clean is { } from && isOwn)
        {
            double to = stretch ?? 0;
            page.Empty("rect", ("x", "0"), ("y", Px(to)), ("width", "100%"), ("height", Px(Math.Max(0, from - to))), ("fill", "url(#g1)"));
            page.Empty("rect", ("x", "0"), ("y", "0"), ("width", "100%"), ("height", Px(Math.Max(0, to))), ("fill", "url(#g2)"));
        }
        for (double stop = _least; stop <= _most + 1e-9; stop++)
        {
            double y = Down(stop);
            page.Empty("line", ("class", "g"), ("x1", "0"), ("x2", "100%"), ("y1", Px(y)), ("y2", Px(y)));
            page.Element("text", Figures.Fixed(100 * Math.Pow(2, stop), 0), ("class", "lb"), ("x", "-10"), ("y", Px(y + 6)), ("text-anchor", "end"));
        }
        Rule(page, clean, "clean", [0], isOwn, 3, IsCrossedEarly(_plan.Answer.SpareToClean));
        Rule(page, stretch, "stretch", [-3, 3], isOwn, 2, IsCrossedEarly(_plan.Answer.SpareToStretch));
        Curve(page, 0, "ln", "stroke-width:3");
        Curve(page, 1, "ln wk", "stroke-width:1.4");
        Curve(page, -1, "ln wk", "stroke-width:1.4");
        Hours(page);
        foreach ((Stops? spare, LeafState leaf) in new[] { (_plan.Answer.SpareToClean, LeafState.Whole), (_plan.Answer.SpareToStretch, LeafState.Half) })
        {
            foreach ((DateTimeOffset at, _, double minute) in spare is { } known ? Passes(known) : [])
                Crossing(page, minute / (Minutes - 1), Down(Level(spare!.Value)), leaf, Clock(at));
        }
        page.Empty("line", ("class", "ax"), ("x1", "0"), ("x2", "0"), ("y1", "0"), ("y2", Px(Height)));
        page.Empty("line", ("class", "ax"), ("x1", "0"), ("x2", "100%"), ("y1", Px(Height)), ("y2", Px(Height)));
        return page.Close();
    }

    /// <summary>"18:15".</summary>
    public static string Clock(DateTimeOffset at) => at.AddSeconds(30).ToString("HH:mm", CultureInfo.InvariantCulture);

    private GapAnswer Then(int minute) => GapAnswer.Of(_plan.Scene with { Metered = _plan.Scene.Metered + Stops.Of(_ev[minute] - _asked) });

    // Stops from ISO 100 at which a limit lies for the dialled ISO, lift and crop counted.
    private double Level(Stops spare) => Math.Log2(_plan.Answer.Iso.Speed / 100) + spare.Value;

    private double Down(double stops) => Height * (1 - Math.Clamp((stops - _least) / (_most - _least), 0, 1));

    // In hundredths of the drawing. Where the curve leaves it above or below, it ends at the border and comes in again there.
    private void Curve(Markup page, int side, string line, string style)
    {
        (double X, double Y)[] all = [.. Enumerable.Range(0, Minutes).Where(i => i % 4 == 0 || i == Minutes - 1)
            .Select(i => (100.0 * i / (Minutes - 1), 100 * (1 - (Math.Log2(Iso(i) / 100) + side * _uncertainty[i] - _least) / (_most - _least))))];
        System.Text.StringBuilder path = new();
        bool isInside = false;
        for (int i = 0; i < all.Length; i++)
        {
            (double x, double y) = all[i];
            bool isNext = y is >= 0 and <= 100;
            if (i > 0 && isNext != isInside)
            {
                (double x0, double y0) = all[i - 1];
                double border = (isNext ? y0 : y) < 0 ? 0 : 100;
                Point(isNext, x0 + (x - x0) * (border - y0) / (y - y0), border);
            }
            if (isNext)
                Point(!isInside && i == 0, x, y);
            isInside = isNext;
        }
        page.Open("svg", ("width", "100%"), ("height", Px(Height)), ("viewBox", "0 0 100 100"), ("preserveAspectRatio", "none"));
        page.Empty("path", ("class", line), ("vector-effect", "non-scaling-stroke"), ("style", style), ("d", path.ToString())).Close();

        void Point(bool isFirst, double x, double y) => path.Append(isFirst ? " M" : " L").Append(Px(x)).Append(',').Append(Px(y));
    }

    private static void Rule(Markup page, double? at, string name, double[] rules, bool isOwn, double width, bool isNamedRight)
    {
        if (at is not { } y)
            return;
        foreach (double dy in rules)
            page.Empty("line", ("x1", "0"), ("x2", "100%"), ("y1", Px(y + dy)), ("y2", Px(y + dy)), ("style", $"stroke:var(--ink);stroke-width:{Px(width)}{(isOwn ? "" : ";stroke-dasharray:5 5")}"));
        page.Element("text", name, ("class", "halo"), ("x", isNamedRight ? "100%" : "8"), ("dx", isNamedRight ? "-8" : "0"), ("y", Px(y - 9)), ("text-anchor", isNamedRight ? "end" : "start"));
    }

    // The leaf of a crossing at the left would lie on the name of its limit.
    private bool IsCrossedEarly(Stops? spare) => spare is { } known && Passes(known).Any(p => p.Minute < 0.25 * Minutes);

    private void Hours(Markup page)
    {
        int first = (30 - _from.Minute % 30) % 30;
        for (int minute = first; minute < Minutes; minute += 30)
        {
            string at = Share((double)minute / (Minutes - 1));
            bool isHour = Time(minute).Minute == 0;
            page.Empty("line", ("class", "ax"), ("x1", at), ("x2", at), ("y1", Px(Height)), ("y2", Px(Height + 8)));
            // A neighbour at the end is set leftwards and needs the room.
            if (!isHour && minute + 30 < Minutes && IsAtEnd(minute + 30))
                continue;
            page.Element("text", Time(minute).ToString("HH:mm", CultureInfo.InvariantCulture), ("class", isHour ? "lb" : "lb alt-wide"), ("x", at), ("y", Px(Height + Foot)), ("text-anchor", minute == 0 ? "start" : IsAtEnd(minute) ? "end" : "middle"));
        }
        string now = Share((double)Now / (Minutes - 1));
        page.Empty("line", ("class", "ax"), ("stroke-dasharray", "2 4"), ("x1", now), ("x2", now), ("y1", "0"), ("y2", Px(Height)));

        bool IsAtEnd(int minute) => minute > Minutes - 12;
    }

    private static void Crossing(Markup page, double x, double y, LeafState leaf, string time)
    {
        page.Empty("line", ("class", "ax"), ("stroke-dasharray", "2 4"), ("x1", Share(x)), ("x2", Share(x)), ("y1", Px(y)), ("y2", Px(Height)));
        page.Open("svg", ("x", Share(x)), ("y", Px(y)), ("overflow", "visible"));
        page.Open("g", ("transform", "rotate(-38) scale(0.95)")).LeafMarks(leaf).Close();
        page.Close();
        page.Open("svg", ("x", Share(x)), ("y", Px(Height - 12)), ("overflow", "visible"));
        page.Element("text", time, ("class", "halo b"), ("x", x > 0.8 ? "-8" : "8"), ("text-anchor", x > 0.8 ? "end" : "start")).Close();
    }
}
