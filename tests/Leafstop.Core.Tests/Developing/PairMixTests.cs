using Leafstop.Core.Developing;

namespace Leafstop.Core.Tests.Developing;

public sealed class PairMixTests
{
    /// <summary>Derived: white noise mixed and measured.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.25)]
    [InlineData(0.5)]
    [InlineData(0.8)]
    [InlineData(1)]
    public void Noise_falls_by_the_squares_of_the_weights_and_brightness_stays(double first)
    {
        const int n = 200_000;
        var random = new Random(7);
        PairMix mix = PairMix.OfFirst(first);
        double sum = 0, squares = 0;
        for (int i = 0; i < n; i++)
        {
            double value = mix.Of((float)(10 + Normal()), (float)(10 + Normal()));
            sum += value;
            squares += (value - 10) * (value - 10);
        }

        // Five standard errors.
        Assert.Equal(10, sum / n, 5 / Math.Sqrt(n));
        Assert.Equal(first * first + (1 - first) * (1 - first), squares / n, 5 * Math.Sqrt(2.0 / n));
        Assert.Equal(first * first + (1 - first) * (1 - first), mix.VarianceShare, 1e-15);

        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
    }

    [Fact]
    public void A_share_of_the_noise_gives_its_weights()
    {
        foreach (double share in (double[])[0.5, 0.6, 0.7937, 1])
            Assert.Equal(share, PairMix.ForVarianceShare(share).VarianceShare, 1e-12);
        // Half the noise variance is one stop of light (4 frames are 2 stops).
        Assert.Equal(1, PairMix.ForVarianceShare(0.5).StopsCleaner, 1e-12);
        Assert.Throws<ArgumentOutOfRangeException>(() => PairMix.ForVarianceShare(0.49));
        Assert.Throws<ArgumentOutOfRangeException>(() => PairMix.OfFirst(double.NaN));
        Assert.Equal(1, default(PairMix).First);
        Assert.Equal(1, PairMix.SecondAlone.Second);
    }

    [Fact]
    public void Between_two_levels_noise_goes_in_even_steps_and_a_mix_does_not_reach_beyond_a_stop()
    {
        PairMix third = PairMix.Between(1, 1.9, 1.0 / 3)!.Value;
        Assert.Equal(Math.Pow(1.9, 1.0 / 3), 1.9 * third.VarianceShare, 1e-12);
        Assert.Equal(1, PairMix.Between(1, 1.9, 1)!.Value.First);
        Assert.Equal(1, 1.9 * PairMix.Between(1, 1.9, 0)!.Value.VarianceShare, 1e-12);
        Assert.Null(PairMix.Between(1, 4, 0.25));
        Assert.NotNull(PairMix.Between(1, 4, 0.75));
    }
}
