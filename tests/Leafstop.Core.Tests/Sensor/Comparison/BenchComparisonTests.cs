using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Testing;

namespace Leafstop.Core.Tests.Sensor.Comparison;

/// <summary>Two tests of one body beside each other.</summary>
public sealed class BenchComparisonTests
{
    private const double ToEnds = 1.959963984540054;

    // Derived: relative variances of independent numbers add (JCGM 100:2008, 5.1.6); written out by hand for intervals that are even on logarithms.
    [Fact]
    public void The_interval_of_a_ratio_joins_both_intervals()
    {
        Change noise = BenchComparison.Of([Level(800, 0.4, 3.0, 0.04)], [Level(800, 0.4, 3.3, 0.03)]).Levels.Single().ReadNoise!.Value;
        Assert.Equal(1.1, noise.Ratio.Value, 1e-12);
        Assert.Equal(1.1 * Math.Exp(0.05), noise.Ratio.High, 1e-12);
        Assert.Equal(1.1 * Math.Exp(-0.05), noise.Ratio.Low, 1e-12);
    }

    // Derived: the seen clip has the interval of the gain, a clip by the tag is not compared.
    [Fact]
    public void The_clip_is_as_sure_as_the_gain()
    {
        LevelChange level = BenchComparison.Of([Level(100, 3, 3.6, 0.04, 0.01)], [Level(100, 3, 3.6, 0.04, 0.01) with { SaturationElectrons = 49_000 }]).Levels.Single();
        Assert.Equal(0.98, level.Saturation!.Value.Ratio.Value, 1e-12);
        Assert.Equal(level.Gain!.Value.Ratio.High / level.Gain.Value.Ratio.Low, level.Saturation.Value.Ratio.High / level.Saturation.Value.Ratio.Low, 1e-12);
        Assert.Null(BenchComparison.Of([Level(100, 3, 3.6, 0.04) with { SaturationElectrons = null }], [Level(100, 3, 3.6, 0.04)]).Levels.Single().Saturation);
    }

    // Derived: 3000 pairs of tests of nine levels with equal truth. One in twenty would be the share of false alarms if all numbers were independent; the clip goes with the gain, so it is at most that.
    // Binomial spread of 3000 at 5 %: 0.4 %; three of them are allowed.
    [Fact]
    public void By_chance_alone_a_difference_is_seen_in_less_than_one_comparison_of_twenty()
    {
        Gaussian chance = new(11);
        int alarms = 0;
        for (int i = 0; i < 3000; i++)
            alarms += Seen(BenchComparison.Of(Drawn(chance, 1), Drawn(chance, 1))) > 0 ? 1 : 0;
        Assert.InRange(alarms / 3000.0, 0.005, 0.05 + 3 * 0.004);
    }

    // Derived: at intervals of ±4 % a body whose read noise rose by a fifth at every level is called different nearly always.
    [Fact]
    public void A_difference_well_beyond_the_intervals_is_seen()
    {
        Gaussian chance = new(12);
        int seen = 0;
        for (int i = 0; i < 300; i++)
            seen += Seen(BenchComparison.Of(Drawn(chance, 1), Drawn(chance, 1.2))) > 0 ? 1 : 0;
        Assert.True(seen >= 299, $"{seen}");
    }

    // Derived: two tests of fresh frames never agree in all digits; one folder measured twice does.
    [Fact]
    public void One_folder_measured_twice_is_told_from_two_tests_that_agree()
    {
        ComparedLevel[] test = Drawn(new Gaussian(13), 1);
        Assert.True(BenchComparison.Of(test, test).IsOfSameFrames);
        Assert.False(BenchComparison.Of(test, [.. test[..^1], test[^1] with { ReadNoiseElectrons = new Estimate(test[^1].ReadNoiseElectrons!.Value.Value * 1.0001, 1, 4) }]).IsOfSameFrames);
        Assert.False(BenchComparison.Of([test[0]], []).IsOfSameFrames);
    }

    [Fact]
    public void Levels_of_one_test_alone_are_told_and_not_compared()
    {
        BenchComparison compared = BenchComparison.Of(
            [Level(100, 3, 3.6, 0.04), Level(200, 1.5, 3.3, 0.04) with { Usable = false }, Level(400, 0.75, 3.1, 0.04)],
            [Level(100, 3, 3.6, 0.04), Level(200, 1.5, 3.3, 0.04), Level(800, 0.4, 1.5, 0.04)]);
        Assert.Equal([(true, true), (false, true), (true, false), (false, true)], compared.Levels.Select(l => (l.Before, l.Now)));
        Assert.All(compared.Levels.Skip(1), l => Assert.True(l is { Gain: null, ReadNoise: null, Saturation: null }));
        Assert.Equal(3, compared.Numbers);
    }

    [Fact]
    public void An_unbounded_interval_is_not_compared()
    {
        ComparedLevel unsure = Level(100, 3, 3.6, 0.04) with { ReadNoiseElectrons = new Estimate(3.6, 0, double.PositiveInfinity) };
        Assert.Null(BenchComparison.Of([unsure], [Level(100, 3, 3.6, 0.04)]).Levels.Single().ReadNoise);
    }

    private static int Seen(BenchComparison compared) =>
        compared.Levels.Sum(l => new[] { l.Gain, l.ReadNoise, l.Saturation }.Count(c => c is { IsDifferent: true }));

    private static ComparedLevel[] Drawn(Gaussian chance, double noiseFactor) =>
    [
        .. Enumerable.Range(0, 9).Select(i => Level(100 * Math.Pow(2, i), 3 * Erring(chance, 0.01), 3 * noiseFactor * Erring(chance, 0.04), 0.04, 0.01)),
    ];

    /// <summary>A factor whose logarithm is normal, with 95 % of it within the half-width.</summary>
    private static double Erring(Gaussian chance, double half) => Math.Exp(half / ToEnds * chance.Next());

    private static ComparedLevel Level(double iso, double gain, double noise, double share, double gainShare = 0.01) => new(
        Iso.FromSpeed(iso), LadderKind.Metered, Around(gain, gainShare), Around(noise, share), 50_000 * 100 / iso, true);

    private static Estimate Around(double value, double half) => new(value, value * Math.Exp(-half), value * Math.Exp(half));
}
