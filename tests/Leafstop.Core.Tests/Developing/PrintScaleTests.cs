using Leafstop.Core.Developing;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Developing;

/// <summary>Derived: means of areas worked out by hand, and white noise.</summary>
public sealed class PrintScaleTests
{
    private static readonly ViewingCondition SixtyByArm = ViewingCondition.Of(Length.FromCentimetres(60), Length.FromCentimetres(60), Angle.FromArcminutes(1));

    [Fact]
    public void A_centimetre_of_the_print_has_the_pixels_that_were_asked_for()
    {
        // 6000 pixels on 60 cm are 100 a centimetre.
        PrintScale scale = PrintScale.Of(SixtyByArm, 6000, 40);
        Assert.Equal(0.4, scale.Ratio, 1e-12);
        Assert.Equal(160, scale.SizeOf(400));
        Assert.Throws<ArgumentOutOfRangeException>(() => PrintScale.Of(SixtyByArm, 6000, 900));
        Assert.Throws<ArgumentOutOfRangeException>(() => PrintScale.Of(SixtyByArm, 6000, 1));
    }

    [Fact]
    public void Each_pixel_is_the_mean_of_the_light_on_its_square()
    {
        // 3 pixels become 2: (1 + 0.5·2)/1.5 and (0.5·2 + 4)/1.5.
        LinearPicture drawn = PrintScale.Of(SixtyByArm, 6000, 100 * 2 / 3.0).Apply(new LinearPicture(3, 3, [[1, 2, 4, 1, 2, 4, 1, 2, 4]]));
        Assert.Equal((2, 2), (drawn.Width, drawn.Height));
        Assert.Equal(new[] { 4 / 3.0, 10 / 3.0, 4 / 3.0, 10 / 3.0 }, drawn.Channels[0].Select(v => (double)v), (a, b) => Math.Abs(a - b) < 1e-6);
        // Twice as large: squares.
        LinearPicture large = PrintScale.Of(SixtyByArm, 6000, 200).Apply(new LinearPicture(2, 1, [[1, 3]]));
        Assert.Equal([1, 1, 3, 3, 1, 1, 3, 3], large.Channels[0]);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void White_noise_falls_by_the_pixels_that_are_merged(int merged)
    {
        const int side = 600;
        var random = new Random(3);
        float[] noise = [.. Enumerable.Range(0, side * side).Select(_ => (float)(random.NextDouble() - 0.5))];
        LinearPicture drawn = PrintScale.Of(SixtyByArm, 6000, 100.0 / merged).Apply(new LinearPicture(side, side, [noise]));
        double variance = drawn.Channels[0].Average(v => (double)v * v), expected = 1.0 / 12 / (merged * merged);
        // Five standard errors.
        Assert.Equal(expected, variance, 5 * expected * Math.Sqrt(2.0 / drawn.Channels[0].Length));
    }

    [Fact]
    public void Flat_light_stays_what_it_is_at_any_scale()
    {
        var flat = new LinearPicture(97, 53, [[.. Enumerable.Repeat(0.3f, 97 * 53)]]);
        foreach (double perCentimetre in (double[])[11, 29.3, 59, 77.7, 118, 333])
            Assert.All(PrintScale.Of(SixtyByArm, 6000, perCentimetre).Apply(flat).Channels[0], v => Assert.Equal(0.3, v, 1e-6));
    }
}
