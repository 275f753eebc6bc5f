using Leafstop.Core.Developing;

namespace Leafstop.Core.Tests.Developing;

public sealed class DisplayCurveTests
{
    /// <summary>Published: PER-25, PER-26; 118 by PER-27.</summary>
    [Fact]
    public void Light_is_shown_by_the_curve_of_sRGB()
    {
        Assert.Equal(0.461356129500442, DisplayCurve.Encode(0.18), 1e-12);
        Assert.Equal(0.9546872, DisplayCurve.Encode(0.9), 1e-7);
        Assert.Equal(118, DisplayCurve.Byte(0.1811642));
        Assert.Equal(0, DisplayCurve.Byte(-0.1));
        Assert.Equal(255, DisplayCurve.Byte(1.2));
        Assert.Equal(65535, DisplayCurve.Word(1));
        Assert.Equal(0, DisplayCurve.Word(double.NaN));
    }

    /// <summary>Derived: differences of the curve itself.</summary>
    [Theory]
    [InlineData(0.001)]
    [InlineData(0.01)]
    [InlineData(0.18)]
    [InlineData(0.9)]
    public void The_slope_is_the_change_of_the_curve(double linear)
    {
        const double h = 1e-6;
        double difference = (DisplayCurve.Encode(linear + h) - DisplayCurve.Encode(linear - h)) / (2 * h);
        Assert.Equal(difference, DisplayCurve.Slope(linear), 1e-6 * difference);
    }

    [Fact]
    public void Where_light_is_cut_the_slope_is_none() => Assert.Equal(0, DisplayCurve.Slope(1.01) + DisplayCurve.Slope(-0.01));
}
