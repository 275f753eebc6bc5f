namespace Leafstop.Core.Sensor;

/// <summary>The middle value.</summary>
internal static class Median
{
    /// <summary>Middle of values in any order; there is at least one.</summary>
    public static double Of(IEnumerable<double> values) => OfSorted([.. values.Order()]);

    /// <summary>Middle of values in order; there is at least one.</summary>
    public static double OfSorted(double[] sorted) =>
        sorted.Length % 2 == 1 ? sorted[sorted.Length / 2] : (sorted[sorted.Length / 2 - 1] + sorted[sorted.Length / 2]) / 2;
}
