using System.Collections.Immutable;

namespace Leafstop.Core.Viewing;

/// <summary>Means over normally spread numbers, by equal steps between −6 and 6 standard deviations.</summary>
/// <remarks>For smooth functions equal steps are exact to rounding; a kink, as where a curve is cut off at black, costs about the square of the step.</remarks>
internal static class NormalMean
{
    /// <summary>Places in standard deviations and their weights, which add up to 1.</summary>
    public static ImmutableArray<(double Z, double Weight)> Points(int count)
    {
        double step = 12.0 / (count - 1);
        (double Z, double Weight)[] points = [.. Enumerable.Range(0, count).Select(i => -6 + i * step).Select(z => (z, Math.Exp(-z * z / 2)))];
        double sum = points.Sum(p => p.Weight);
        return [.. points.Select(p => (p.Z, p.Weight / sum))];
    }
}
