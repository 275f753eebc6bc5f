using Leafstop.Raw.Synthetic;

namespace Leafstop.Raw.Tests.Synthetic;

public sealed class SensorRandomTests
{
    private const int Draws = 400_000;

    // Published: SEN-27, P(0) and P(X <= mean) of a Poisson count (computed with scipy).
    [Theory]
    [InlineData(1, 0.3678794, 0.7357589)]
    [InlineData(4, 0.0183156, 0.6288369)]
    [InlineData(10, 4.5399930e-5, 0.5830398)]
    public void Poisson_counts_have_the_published_probabilities(double mean, double zero, double upToMean)
    {
        var random = new SensorRandom(11, 1, (ulong)mean);
        int zeros = 0, low = 0;
        for (int i = 0; i < Draws; i++)
        {
            int k = random.NextPoisson(mean);
            zeros += k == 0 ? 1 : 0;
            low += k <= mean ? 1 : 0;
        }
        // Five binomial standard errors and half a count.
        Assert.Equal(zero, (double)zeros / Draws, 5 * Math.Sqrt(zero * (1 - zero) / Draws) + 0.5 / Draws);
        Assert.Equal(upToMean, (double)low / Draws, 5 * Math.Sqrt(upToMean * (1 - upToMean) / Draws));
    }

    /// <summary>Published: SEN-29, excess kurtosis 1/m of a Poisson count and 1/(2m) of a difference of two, which the weights of the noise curve rest on.
    /// Standard error √(24/n) for noise of normal distribution, 0.0077; at these means up to three times that. Five of them.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(20)]
    public void Poisson_counts_and_their_differences_have_the_published_kurtosis(double mean)
    {
        var random = new SensorRandom(14, 1, (ulong)mean);
        double[] counts = new double[Draws], differences = new double[Draws];
        for (int i = 0; i < Draws; i++)
            (counts[i], differences[i]) = (random.NextPoisson(mean), random.NextPoisson(mean) - random.NextPoisson(mean));
        double tolerance = 5 * 0.0077 * (1 + 2 / mean);
        Assert.Equal(1 / mean, Excess(counts), tolerance);
        Assert.Equal(1 / (2 * mean), Excess(differences), tolerance);

        static double Excess(double[] values)
        {
            double middle = values.Average(), second = values.Average(v => (v - middle) * (v - middle));
            return values.Average(v => Math.Pow(v - middle, 4)) / (second * second) - 3;
        }
    }

    [Theory]
    [InlineData(0.14)]
    [InlineData(2.5)]
    [InlineData(9.99)]
    [InlineData(10.01)]
    [InlineData(37)]
    [InlineData(900)]
    [InlineData(50_000)]
    public void Poisson_counts_have_the_mean_variance_and_skewness_of_theory(double mean)
    {
        // Derived: mean m, variance m, third central moment m; five standard errors.
        var random = new SensorRandom(12, 1, 1);
        double s1 = 0, s2 = 0, s3 = 0;
        for (int i = 0; i < Draws; i++)
        {
            double d = random.NextPoisson(mean) - mean;
            s1 += d;
            s2 += d * d;
            s3 += d * d * d;
        }
        Assert.Equal(0, s1 / Draws, 5 * Math.Sqrt(mean / Draws));
        Assert.Equal(mean, s2 / Draws, 5 * Math.Sqrt((mean + 2 * mean * mean) / Draws));
        // Var(d^3) = 15 m^3 + 25 m^2 + m for a Poisson count, mean of d^3 is m.
        Assert.Equal(mean, s3 / Draws, 5 * Math.Sqrt((15 * mean * mean * mean + 25 * mean * mean + mean) / Draws));
    }

    [Theory]
    [InlineData(8.7)]
    [InlineData(13.3)]
    [InlineData(61)]
    public void Poisson_counts_follow_the_exact_distribution(double mean)
    {
        // Derived: chi-square of all counts that are expected 20 times or more against m^k e^-m / k!.
        var random = new SensorRandom(13, 1, 1);
        var seen = new int[400];
        for (int i = 0; i < Draws; i++)
            seen[random.NextPoisson(mean)]++;
        double p = Math.Exp(-mean), chi = 0;
        int cells = 0;
        for (int k = 0; k < seen.Length; p *= mean / ++k)
        {
            double expected = Draws * p;
            if (expected < 20)
                continue;
            chi += (seen[k] - expected) * (seen[k] - expected) / expected;
            cells++;
        }
        Assert.InRange(chi, cells - 5 * Math.Sqrt(2 * cells), cells + 5 * Math.Sqrt(2 * cells));
    }

    [Fact]
    public void Gaussian_draws_have_the_moments_and_the_tail_of_theory()
    {
        // Published: SEN-36, standard errors at n = 1e6: variance 0.141421 %, kurtosis 0.0048990, skewness 0.0024495. Five of each.
        const int n = 1_000_000;
        var random = new SensorRandom(14, 1, 1);
        double s1 = 0, s2 = 0, s3 = 0, s4 = 0;
        int tail = 0;
        for (int i = 0; i < n; i++)
        {
            double x = random.NextGaussian(), q = x * x;
            s1 += x;
            s2 += q;
            s3 += q * x;
            s4 += q * q;
            tail += Math.Abs(x) > 3.5 ? 1 : 0;
        }
        double variance = s2 / n;
        Assert.Equal(0, s1 / n, 5e-3);
        Assert.Equal(1, variance, 5 * 0.00141421);
        Assert.Equal(0, s3 / n / Math.Pow(variance, 1.5), 5 * 0.0024495);
        Assert.Equal(0, s4 / n / (variance * variance) - 3, 5 * 0.0048990);
        // Derived: P(|x| > 3.5) = 4.6526e-4, where the ziggurat leaves its layers.
        Assert.Equal(465.3, tail, 5 * Math.Sqrt(465.3));
    }
}
