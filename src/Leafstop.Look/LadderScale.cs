using static Leafstop.Look.Markup;

namespace Leafstop.Look;

/// <summary>The scale that all ladders of a page share: whole stops from ISO 100 numbered, thirds ticked.</summary>
public sealed class LadderScale
{
    private const double NumberWidth = 62;

    private readonly int _first;
    private readonly int _last;

    /// <summary>Covers the given ISOs, outwards to a third of a stop below and two thirds above.</summary>
    public LadderScale(IReadOnlyCollection<double> isos)
    {
        _first = (int)Math.Floor((3 * Math.Log2(isos.Min() / 100)) + 1e-9);
        _last = Math.Max(_first + 3, (int)Math.Ceiling((3 * Math.Log2(isos.Max() / 100)) - 1e-9) + 2);
    }

    /// <summary>Lowest ISO.</summary>
    public double Low => 100 * Math.Pow(2, _first / 3.0);

    /// <summary>Highest ISO.</summary>
    public double High => 100 * Math.Pow(2, _last / 3.0);

    /// <summary>Stops from end to end.</summary>
    public double Stops => (_last - _first) / 3.0;

    /// <summary>Place of an ISO as a share of the width.</summary>
    public double At(double iso) => Math.Log2(iso / Low) / Stops;

    /// <summary>On which pages the number of a stop stands: "n" on all, "alt" from 600 px, "alt-wide" from 900 px; null on none.</summary>
    /// <remarks>The ladder is at least 284, 520 and 790 px wide there, and "12 800" with room to its neighbour takes 62 px. Steps double, so that a wider page adds numbers and moves none.</remarks>
    private string? NumberClass(int stop) =>
        stop % StopsPerNumber(284) == 0 ? "n"
        : stop % StopsPerNumber(520) == 0 ? "alt"
        : stop % StopsPerNumber(790) == 0 ? "alt-wide"
        : null;

    private int StopsPerNumber(double width)
    {
        int step = 1;
        while (step * width / Stops < NumberWidth)
            step *= 2;
        return step;
    }

    /// <summary>Draws ticks and numbers.</summary>
    /// <param name="page">Page to write on.</param>
    /// <param name="rule">Height of the rule at an ISO, px.</param>
    /// <param name="numbers">Base line of the numbers, px.</param>
    public void Ticks(Markup page, Func<double, double> rule, double numbers)
    {
        for (int third = _first; third <= _last; third++)
        {
            double iso = 100 * Math.Pow(2, third / 3.0);
            bool isWhole = third % 3 == 0;
            string at = Share(At(iso));
            double y = rule(iso);
            page.Empty("line", ("class", isWhole ? "tick-w" : "tick"), ("x1", at), ("x2", at), ("y1", Px(y)), ("y2", Px(y + (isWhole ? 15 : 8))));
            if (isWhole && NumberClass(third / 3) is { } shown)
                page.Element("text", Figures.Fixed(iso, iso < 20 ? 1 : 0), ("class", shown), ("x", at), ("y", Px(numbers)), ("text-anchor", "middle"));
        }
    }
}
