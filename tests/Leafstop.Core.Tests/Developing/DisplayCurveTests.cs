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

    /// <summary>Derived: looked up against worked out, at every border between two bytes and on both sides of it.</summary>
    [Fact]
    public void Bytes_of_a_picture_are_those_of_the_curve()
    {
        float[] light =
        [
            0, -0f, 1, float.NaN, float.PositiveInfinity, float.NegativeInfinity, -0.2f, 1.7f, float.Epsilon,
            .. Enumerable.Range(0, 256).Select(b => (float)Leafstop.Core.Colour.SrgbCurve.Decode((b + 0.5) / 255))
                .SelectMany(v => Enumerable.Range(-3, 7).Select(step => BitConverter.Int32BitsToSingle(BitConverter.SingleToInt32Bits(v) + step))),
            .. Enumerable.Range(0, 20_001).Select(i => i / 20_000f),
        ];
        byte[] shown = new LinearPicture(light.Length, 1, [light]).Bytes();
        for (int i = 0; i < light.Length; i++)
            Assert.True(DisplayCurve.Byte(light[i]) == shown[3 * i] && shown[3 * i] == shown[3 * i + 2], $"{light[i]:G9} became {shown[3 * i]}, not {DisplayCurve.Byte(light[i])}.");
    }
}
