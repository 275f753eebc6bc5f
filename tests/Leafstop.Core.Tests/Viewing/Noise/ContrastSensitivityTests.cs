using Leafstop.Core.Colour;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Viewing;

public sealed class ContrastSensitivityTests
{
    [Theory] // Published: PER-16, Reinhard et al. 2008; seven decimals.
    [InlineData(4, 1.0532934)]
    [InlineData(10, 1.1122188)]
    [InlineData(20, 0.7285752)]
    public void Luminance_is_as_published(double frequency, double value) => Assert.Equal(value, ContrastSensitivity.Luminance(frequency), 1e-6);

    [Fact] // Published: PER-16, the upper frequency at which it is 1.
    public void Luminance_falls_through_one_where_published()
    {
        Assert.Equal(1, ContrastSensitivity.Luminance(13.3395), 1e-5);
        Assert.Equal(1, ContrastSensitivity.LuminanceShare(ContrastSensitivity.LuminancePeakFrequency), 1e-12); // Derived.
        Assert.True(ContrastSensitivity.LuminanceShare(7) < 1 && ContrastSensitivity.LuminanceShare(7.5) < 1);
    }

    [Theory] // Published: PER-17.
    [InlineData(4, 0.9331799)]
    [InlineData(10, 0.5528065)]
    [InlineData(0, 1)]
    public void Red_green_is_as_published(double frequency, double value) => Assert.Equal(value, ContrastSensitivity.RedGreen(frequency), 1e-6);

    // Published: PER-20: weights 0.488 and 0.371, spreads 0.0536 and 0.386 degrees, kernels exp(−r²/s²) each normalised to 1. Derived: their transform, here summed over the kernels in space
    // (Bessel-free: along one direction a Gaussian is a Gaussian, ∫ exp(−x²/s²) cos(2πfx) dx / (s√π)).
    [Theory]
    [InlineData(0.5)]
    [InlineData(3)]
    [InlineData(8)]
    public void Blue_yellow_is_the_transform_of_the_published_kernels(double frequency)
    {
        double sum = 0, step = 0.0005;
        for (double x = -3; x <= 3; x += step)
            sum += step * Math.Cos(2 * Math.PI * frequency * x) * (0.488 * Kernel(x, 0.0536) + 0.371 * Kernel(x, 0.386)) / (0.488 + 0.371);
        Assert.Equal(sum, ContrastSensitivity.BlueYellow(frequency), 1e-6);

        static double Kernel(double x, double s) => Math.Exp(-x * x / (s * s)) / (s * Math.Sqrt(Math.PI));
    }

    [Fact] // Derived: the axes are those of CIELAB before its curve: the same colour by both ways, and greys have no colour.
    public void Opponent_axes_lead_to_the_same_colour()
    {
        LinearRgb colour = new(0.31, 0.12, 0.45);
        Lab direct = Lab.FromXyz(RgbSpace.Srgb.ToXyz(colour), Chromaticity.D65), round = OpponentColour.Of(colour).ToLab();
        Assert.Equal(direct.L, round.L, 1e-9);
        Assert.Equal(direct.A, round.A, 1e-9);
        Assert.Equal(direct.B, round.B, 1e-9);
        OpponentColour grey = OpponentColour.Of(LinearRgb.Neutral(0.4));
        Assert.Equal((0.4, 0, 0), (grey.Lightness, grey.RedGreen, grey.YellowBlue), (a, b) => Math.Abs(a.Item1 - b.Item1) + Math.Abs(a.Item2 - b.Item2) + Math.Abs(a.Item3 - b.Item3) < 1e-12);
    }
}
