using System.Collections.Immutable;

namespace Leafstop.Core.Quantities;

/// <summary>A mark of a dial.</summary>
/// <param name="Label">The number engraved or shown, for instance 11 or 0.0166… for 1/60.</param>
/// <param name="Exact">The exact power it stands for, for instance 11.3137 or 1/64.</param>
public readonly record struct Mark(double Label, double Exact);

/// <summary>The marks of one dial, lowest first, evenly spaced in stops.</summary>
public sealed class MarkSeries
{
    private readonly double _stopsPerDoubling;

    internal MarkSeries(ImmutableArray<Mark> marks, double stopsPerDoubling) => (All, _stopsPerDoubling) = (marks, stopsPerDoubling);

    /// <summary>Every mark.</summary>
    public ImmutableArray<Mark> All { get; }

    /// <summary>The exact power of a label; the number itself when it is no mark.</summary>
    public double ExactOf(double number)
    {
        foreach (Mark mark in All)
        {
            if (Math.Abs(number - mark.Label) <= mark.Label * 1e-9)
                return mark.Exact;
        }
        return number;
    }

    /// <summary>The label of an exact power, or of a number that already is a label; null when it is neither.</summary>
    public double? LabelOf(double number)
    {
        foreach (Mark mark in All)
        {
            if (StopsBetween(number, mark.Exact) is > -Stops.Hair and < Stops.Hair || number == mark.Label)
                return mark.Label;
        }
        return null;
    }

    /// <summary>The mark nearest in stops; half-way goes up. Beyond the ends it is the last one.</summary>
    public Mark Nearest(double number)
    {
        Mark nearest = All[0];
        foreach (Mark mark in All)
        {
            if (Math.Abs(StopsBetween(number, mark.Exact)) <= Math.Abs(StopsBetween(number, nearest.Exact)) + Stops.Hair)
                nearest = mark;
        }
        return nearest;
    }

    /// <summary>The highest mark that is not above the number, a hair allowed; the lowest when all are above. A label is its own mark.</summary>
    public Mark AtOrBelow(double number)
    {
        double exact = ExactOf(number);
        Mark found = All[0];
        foreach (Mark mark in All)
        {
            if (StopsBetween(exact, mark.Exact) >= -Stops.Hair)
                found = mark;
        }
        return found;
    }

    private double StopsBetween(double number, double exact) => Math.Log2(number / exact) * _stopsPerDoubling;
}
