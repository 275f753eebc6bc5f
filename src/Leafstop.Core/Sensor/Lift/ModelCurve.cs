using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Sensor;

/// <summary>The sensor model at any ISO between the measured levels.</summary>
/// <remarks>Gain and saturation run as straight lines of their logarithms against log2 ISO (both fall as one over ISO between true levels);
/// read noise runs straight against log2 ISO and never across a gain step: between the two levels of a step the lower side is carried on.</remarks>
public sealed class ModelCurve
{
    private readonly ImmutableArray<(double LogIso, NoiseModel Model)> _levels;
    private readonly ImmutableArray<(double Below, double Above)> _steps;

    private ModelCurve(ImmutableArray<(double Iso, NoiseModel Model)> levels, IEnumerable<(Iso Below, Iso Above)> steps)
    {
        Isos = [.. levels.Select(l => l.Iso)];
        _levels = [.. levels.Select(l => (Math.Log2(l.Iso), l.Model))];
        Steps = [.. steps.Select(s => (s.Below.Speed, s.Above.Speed))];
        _steps = [.. Steps.Select(s => (Math.Log2(s.Below), Math.Log2(s.Above)))];
    }

    /// <summary>Lowest and highest ISO that were measured.</summary>
    public (double Lowest, double Highest) Range => (Isos[0], Isos[^1]);

    /// <summary>Measured ISO levels in order.</summary>
    public ImmutableArray<double> Isos { get; }

    /// <summary>Last ISO before and first after each gain step.</summary>
    public ImmutableArray<(double Below, double Above)> Steps { get; }

    /// <summary>Takes the usable levels that have a model; of two at one ISO the one with the narrower read noise. Null when there is none.</summary>
    public static ModelCurve? Of(IEnumerable<Level> levels, IEnumerable<GainStep> steps)
    {
        ImmutableArray<(double, NoiseModel)> models = [.. levels
            .Where(l => l is { Usable: true, Model: not null })
            .GroupBy(l => l.Iso.Speed)
            .OrderBy(g => g.Key)
            .Select(g => (g.Key, g.MinBy(l => l.ReadNoiseElectrons!.Value.RelativeHalfWidth)!.Model!))];
        return models.IsEmpty ? null : new ModelCurve(models, steps.Select(s => (s.Below, s.Above)));
    }

    /// <summary>Takes the models of a camera as they are kept, one an ISO; of two at one ISO the first. Null when there is none.</summary>
    /// <param name="models">ISO and model.</param>
    /// <param name="steps">Last ISO before and first after each gain step.</param>
    public static ModelCurve? Of(IEnumerable<(Iso Iso, NoiseModel Model)> models, IEnumerable<(Iso Below, Iso Above)> steps)
    {
        ImmutableArray<(double, NoiseModel)> levels = [.. models.DistinctBy(m => m.Iso.Speed).OrderBy(m => m.Iso.Speed).Select(m => (m.Iso.Speed, m.Model))];
        return levels.IsEmpty ? null : new ModelCurve(levels, steps);
    }

    /// <summary>The model at an ISO inside <see cref="Range"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The ISO lies outside what was measured.</exception>
    public NoiseModel At(double iso)
    {
        double x = Math.Log2(iso);
        if (!(x >= _levels[0].LogIso - 1e-9 && x <= _levels[^1].LogIso + 1e-9))
            throw new ArgumentOutOfRangeException(nameof(iso), iso, "The ISO lies outside the measured levels.");
        int above = 0;
        while (above < _levels.Length && _levels[above].LogIso < x - 1e-9) above++;
        above = Math.Min(above, _levels.Length - 1);
        var (upperX, upper) = _levels[above];
        if (Math.Abs(upperX - x) < 1e-9 || above == 0) return upper;
        var (lowerX, lower) = _levels[above - 1];
        double t = (x - lowerX) / (upperX - lowerX);
        return new NoiseModel(
            Between(lower.GainElectronsPerDn, upper.GainElectronsPerDn, t),
            ReadNoise(above, x, t),
            Between(lower.SaturationElectrons, upper.SaturationElectrons, t));
    }

    private double ReadNoise(int above, double x, double t)
    {
        var (lowerX, lower) = _levels[above - 1];
        var (upperX, upper) = _levels[above];
        if (!IsStep(lowerX, upperX)) return lower.ReadNoiseElectrons + t * (upper.ReadNoiseElectrons - lower.ReadNoiseElectrons);
        if (above < 2 || IsStep(_levels[above - 2].LogIso, lowerX)) return lower.ReadNoiseElectrons;
        var (beforeX, before) = _levels[above - 2];
        double slope = (lower.ReadNoiseElectrons - before.ReadNoiseElectrons) / (lowerX - beforeX);
        return Math.Max(upper.ReadNoiseElectrons, lower.ReadNoiseElectrons + slope * (x - lowerX));
    }

    private bool IsStep(double lowerX, double upperX) => _steps.Any(s => s.Below >= lowerX - 1e-9 && s.Above <= upperX + 1e-9);

    private static double Between(double low, double high, double t) => low * Math.Pow(high / low, t);
}
