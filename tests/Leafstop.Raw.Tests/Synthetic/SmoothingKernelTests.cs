using Leafstop.Raw.Synthetic;

namespace Leafstop.Raw.Tests.Synthetic;

public sealed class SmoothingKernelTests
{
    [Fact]
    public void A_tenth_to_each_side_gives_the_known_smoothed_camera()
    {
        // Derived: k = 0.1 gives variance 0.66 (sd 0.8124, 19 % low) and correlation 0.16 / 0.66 = 0.2424.
        var kernel = new SmoothingKernel(0.1);
        Assert.Equal(0.8124, Math.Sqrt(kernel.VarianceRatio), 4);
        Assert.Equal(0.2424, kernel.Correlation, 4);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.06)]
    [InlineData(0.24)]
    [InlineData(0.4)]
    public void The_kernel_for_a_correlation_has_it(double correlation) =>
        // Derived: round trip.
        Assert.Equal(correlation, SmoothingKernel.ForCorrelation(correlation).Correlation, 12);

    [Fact]
    public void The_row_kernel_1_2_1_has_the_published_fingerprint()
    {
        // Published: SEN-40, 3x3 binomial 1-2-1: variance ratio 0.140625 = 0.375^2, lag-1 correlation 0.6666667. Our kernel at k = 1/4 is one of its two passes.
        var kernel = new SmoothingKernel(0.25);
        Assert.Equal(0.140625, kernel.VarianceRatio * kernel.VarianceRatio, 12);
        Assert.Equal(0.6666667, kernel.Correlation, 7);
    }
}
