using Leafstop.Raw.Crops;

namespace Leafstop.Raw.Tests.Crops;

public sealed class SrgbCurveTests
{
    /// <summary>Published: PER-25 (unit tests of the colour-science library) and PER-26 (IEC 61966-2-1 as quoted); tolerances are those of the rows.</summary>
    [Theory]
    [InlineData(0.18, 0.461356129500442, 1e-12)]
    [InlineData(0.5, 0.7353570, 1e-7)]
    [InlineData(0.001, 0.01292, 1e-7)]
    [InlineData(0.9, 0.9546872, 1e-7)]
    public void Linear_light_is_encoded_as_published(double linear, double encoded, double tolerance) =>
        Assert.Equal(encoded, SrgbCurve.Encode(linear), tolerance);

    /// <summary>Derived: the curve is continuous where its two parts meet, and cut outside 0 to 1.</summary>
    [Fact]
    public void The_curve_is_continuous_and_cut_at_both_ends()
    {
        Assert.Equal(SrgbCurve.Encode(0.0031307), SrgbCurve.Encode(0.0031309), 1e-5);
        Assert.Equal((0, 255), (SrgbCurve.Byte(-0.3), SrgbCurve.Byte(7)));
        Assert.Equal(118, SrgbCurve.Byte(0.18));
    }
}
