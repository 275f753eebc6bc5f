using System.Globalization;

namespace Leafstop.Look;

/// <summary>One axis of a plot: where a value lies between its ends, and where the rules are.</summary>
public sealed class Axis
{
    private readonly double _low;
    private readonly double _high;
    private readonly bool _inStops;

    private Axis(double low, double high, bool inStops, IReadOnlyList<(double Value, string Label, bool IsMinor)> rules)
    {
        (_low, _high, _inStops) = (low, high, inStops);
        Rules = rules;
    }

    /// <summary>Ruled values with their labels; a minor one loses its label on a narrow page, an empty label is not written.</summary>
    public IReadOnlyList<(double Value, string Label, bool IsMinor)> Rules { get; }

    /// <summary>Place of a value, 0 at the low end, 1 at the high end; held within a little of the frame.</summary>
    public double At(double value)
    {
        double low = _inStops ? Math.Log2(_low) : _low;
        double high = _inStops ? Math.Log2(_high) : _high;
        double v = _inStops ? Math.Log2(Math.Max(value, _low / 1024)) : value;
        return Math.Clamp((v - low) / (high - low), -0.02, 1.02);
    }

    /// <summary>Low end.</summary>
    public double Low => _low;

    /// <summary>High end.</summary>
    public double High => _high;

    /// <summary>Ruled in stops, that is in powers of two, outwards to whole steps.</summary>
    /// <param name="low">Smallest value, above zero.</param>
    /// <param name="high">Largest value.</param>
    /// <param name="stopsPerRule">Stops between two rules.</param>
    public static Axis InStops(double low, double high, int stopsPerRule)
    {
        int first = (int)Math.Floor(Math.Log2(low) / stopsPerRule);
        int last = Math.Max(first + 1, (int)Math.Ceiling(Math.Log2(high) / stopsPerRule));
        var rules = Enumerable.Range(first, last - first + 1).Select(i => Math.Pow(2, i * stopsPerRule)).ToList();
        return new Axis(rules[0], rules[^1], true, [.. rules.Select((v, i) => (v, Label(v), i % 2 == 1))]);
    }

    /// <summary>ISO in stops, the range exactly that of the levels, a rule at each whole stop from 100.</summary>
    public static Axis OfIso(double low, double high)
    {
        double first = Math.Floor(Math.Log2(low / 100) + 1e-9);
        double last = Math.Ceiling(Math.Log2(high / 100) - 1e-9);
        if (last <= first)
            last = first + 1;
        int count = (int)(last - first) + 1;
        // More than eight labels do not fit beside each other; on a narrow page half of those that are left must do.
        return new Axis(100 * Math.Pow(2, first), 100 * Math.Pow(2, last), true, [.. Enumerable.Range(0, count).Select(i =>
        {
            double iso = 100 * Math.Pow(2, first + i);
            return count > 8 ? (iso, i % 2 == 1 ? "" : Label(iso), i % 4 != 0) : (iso, Label(iso), count > 5 && i % 2 == 1);
        })]);
    }

    /// <summary>Even rules from zero or below to above the largest value.</summary>
    /// <param name="low">Low end.</param>
    /// <param name="high">Largest value, above <paramref name="low"/>.</param>
    public static Axis Even(double low, double high)
    {
        double span = Math.Max(high - low, 1e-9);
        double power = Math.Pow(10, Math.Floor(Math.Log10(span)));
        double step = power * ((span / power) switch { <= 1.2 => 0.2, <= 3 => 0.5, <= 6 => 1, _ => 2 });
        double first = Math.Floor(low / step + 1e-9);
        double last = Math.Ceiling(high / step - 1e-9);
        int decimals = Math.Max(0, (int)Math.Ceiling(-Math.Log10(step) - 1e-9));
        return new Axis(first * step, last * step, false, [.. Enumerable.Range(0, (int)(last - first) + 1).Select(i => ((first + i) * step, Figures.Fixed((first + i) * step, decimals), false))]);
    }

    private static string Label(double value) => value >= 1
        ? Figures.Fixed(value, value == Math.Round(value) ? 0 : 1)
        : value.ToString("0.####", CultureInfo.InvariantCulture);
}
