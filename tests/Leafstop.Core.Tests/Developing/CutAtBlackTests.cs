using Leafstop.Core.Developing;

namespace Leafstop.Core.Tests.Developing;

public sealed class CutAtBlackTests
{
    /// <summary>Derived: the mean of Gaussian noise around a dark, up to three times as strong as its light, is that of the light once it is shown; cut without care it would be up to 0.8 stop brighter.</summary>
    [Theory]
    [InlineData(0.2, 0.01)]
    [InlineData(1, 0.08)]
    [InlineData(3, 0.8)]
    public void A_dark_that_is_shown_is_as_bright_as_its_light(double noise, double leastError)
    {
        const double light = 0.045;
        float[] dark = Noisy(light, noise * light, 40_000);
        LinearPicture picture = new(200, 200, [dark, dark, dark]), shown = picture.CutAtBlack();
        double mean = dark.Average(v => (double)v);
        Assert.All(shown.Channels, c => Assert.All(c, v => Assert.True(v >= 0)));
        Assert.All(shown.Channels, c => Assert.Equal(mean, c.Average(v => (double)v), 1e-6));
        // What the plain cut would have done, stops.
        double plain = Math.Log2(dark.Average(v => Math.Max(0.0, v)) / mean);
        Assert.True(noise < 0.3 ? plain < leastError : plain > leastError, $"{plain:F2} stops");
    }

    [Fact]
    public void A_picture_without_light_below_black_stays_as_it_is()
    {
        float[] grey = [0, 0.18f, 0.5f, 1.2f];
        Assert.Same(grey, new LinearPicture(2, 2, [grey]).CutAtBlack().Channels[0]);
    }

    /// <summary>Derived: what is wanted is what is left, whether light below black has to be cut for it or not.</summary>
    [Theory]
    [InlineData(0.01, 0.045)]
    [InlineData(1, 0.05)]
    [InlineData(1, 0.04)]
    public void A_picture_is_as_bright_as_is_wanted(double noise, double wanted)
    {
        float[] dark = Noisy(0.045, noise * 0.045, 40_000);
        LinearPicture shown = new LinearPicture(200, 200, [dark]).CutAtBlack([wanted]);
        Assert.All(shown.Channels[0], v => Assert.True(v >= 0));
        Assert.Equal(wanted, shown.Means[0], 1e-6);
    }

    [Fact]
    public void A_mean_at_or_below_black_becomes_black()
    {
        LinearPicture shown = new LinearPicture(2, 2, [[-0.2f, 0.1f, -0.3f, 0.1f]]).CutAtBlack();
        Assert.All(shown.Channels[0], v => Assert.Equal(0, v, 1e-6));
    }

    private static float[] Noisy(double mean, double sd, int count)
    {
        Random random = new(4);
        return [.. Enumerable.Range(0, count).Select(_ => (float)(mean + sd * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble())))];
    }
}
