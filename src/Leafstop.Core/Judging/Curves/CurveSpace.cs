using System.Collections.Immutable;

namespace Leafstop.Core.Judging.Curves;

/// <summary>A value of a grid with its weight before any answer.</summary>
/// <param name="Value">The value.</param>
/// <param name="Weight">Above zero; weights are made to add up to one.</param>
public readonly record struct Weighted(double Value, double Weight);

/// <summary>Every curve that is held possible: thresholds × spreads × guesses × lapses, with their weights before any answer.</summary>
/// <remarks>The grid of the psi method (Kontsevich and Tyler 1999; PSY-17). Heights of the curve are kept for each stimulus asked once, so that a second question is quick; one
/// space is used by one thread at a time.</remarks>
public sealed class CurveSpace
{
    private readonly Dictionary<double, double[]> _rises = [];

    /// <summary>Makes a space.</summary>
    /// <param name="shape">Shape of the rise.</param>
    /// <param name="thresholds">Rising, evenly likely before any answer.</param>
    /// <param name="spreads">Spreads (slopes for Weibull), above zero.</param>
    /// <param name="guesses">Chances of the answer where nothing is seen.</param>
    /// <param name="lapses">Chances that the answer is missing where all is seen.</param>
    /// <exception cref="ArgumentException">A list is empty, a threshold does not rise, or a weight is not above zero.</exception>
    public CurveSpace(SigmoidShape shape, IEnumerable<double> thresholds, IEnumerable<Weighted> spreads, IEnumerable<Weighted> guesses, IEnumerable<Weighted> lapses)
    {
        Shape = shape;
        Thresholds = [.. thresholds];
        if (Thresholds.Length == 0 || Thresholds.Zip(Thresholds.Skip(1)).Any(p => !(p.First < p.Second)))
            throw new ArgumentException("Thresholds are at least one, each above the one before.", nameof(thresholds));
        Spreads = Normalised(spreads, nameof(spreads));
        Guesses = Normalised(guesses, nameof(guesses));
        Lapses = Normalised(lapses, nameof(lapses));
    }

    /// <summary>Shape of the rise.</summary>
    public SigmoidShape Shape { get; }

    /// <summary>Thresholds, rising.</summary>
    public ImmutableArray<double> Thresholds { get; }

    /// <summary>Spreads with weights that add up to one.</summary>
    public ImmutableArray<Weighted> Spreads { get; }

    /// <summary>Guesses with weights that add up to one.</summary>
    public ImmutableArray<Weighted> Guesses { get; }

    /// <summary>Lapses with weights that add up to one.</summary>
    public ImmutableArray<Weighted> Lapses { get; }

    /// <summary>The rise F for every threshold and spread at a stimulus; threshold by threshold.</summary>
    internal double[] Rises(double stimulus)
    {
        if (_rises.TryGetValue(stimulus, out double[]? known))
            return known;
        double[] rises = new double[Thresholds.Length * Spreads.Length];
        int at = 0;
        foreach (double threshold in Thresholds)
        {
            foreach (Weighted spread in Spreads)
                rises[at++] = AnswerCurve.Rise(Shape, stimulus, threshold, spread.Value);
        }
        _rises[stimulus] = rises;
        return rises;
    }

    private static ImmutableArray<Weighted> Normalised(IEnumerable<Weighted> values, string name)
    {
        Weighted[] all = [.. values];
        double sum = all.Sum(v => v.Weight);
        return all.Length > 0 && all.All(v => v.Weight > 0 && double.IsFinite(v.Value))
            ? [.. all.Select(v => v with { Weight = v.Weight / sum })]
            : throw new ArgumentException("At least one value is given, each with a weight above zero.", name);
    }
}
