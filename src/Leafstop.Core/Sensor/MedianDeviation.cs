namespace Leafstop.Core.Sensor;

/// <summary>The spread of values that a few wild ones do not change.</summary>
public static class MedianDeviation
{
    /// <summary>Standard deviation of normal values over the median of their absolute deviations: 1 / 0.6744898, the upper quartile of the standard normal. Source: SEN-34.</summary>
    public const double ToSigma = 1.4826022185;

    /// <summary>The standard deviation that normal values of this median absolute deviation have.</summary>
    /// <param name="deviations">Deviations from what is expected, of either sign, in any order and unit; at least one. Up to half of them may be wild.</param>
    /// <returns>In the unit of the deviations.</returns>
    public static double Sigma(IEnumerable<double> deviations) => ToSigma * Median.Of(deviations.Select(Math.Abs));
}
