using Leafstop.Core.Sensor;
using MathNet.Numerics.Distributions;

namespace Leafstop.Core.Tests.Sensor;

public sealed class MedianDeviationTests
{
    [Fact] // Published: SEN-34, to 1e-9. Derived: the upper quartile of the standard normal is its inverse.
    public void The_factor_is_the_inverse_of_the_upper_quartile()
    {
        Assert.Equal(1 / 0.6744897502, MedianDeviation.ToSigma, 1e-9);
        Assert.Equal(0.75, Normal.CDF(0, 1, 1 / MedianDeviation.ToSigma), 1e-9);
    }

    [Fact] // Derived: quantiles of a normal of deviation 3. 1e-3: a thousand of them.
    public void Normal_values_give_their_standard_deviation_and_wild_ones_hardly_move_it()
    {
        double[] normal = [.. Enumerable.Range(0, 1000).Select(i => Normal.InvCDF(0, 3, (i + 0.5) / 1000))];
        Assert.Equal(3, MedianDeviation.Sigma(normal), 1e-3 * 3);
        // One in fifty wild: the median moves to the 0.51 / 0.98 of the rest at most, by less than 3 %.
        Assert.InRange(MedianDeviation.Sigma([.. normal, .. Enumerable.Repeat(1e9, 20)]), 3, 3.1);
    }
}
