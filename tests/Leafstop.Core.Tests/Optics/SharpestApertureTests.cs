using CsCheck;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using static Leafstop.Core.Tests.Optics.DepthOfFieldTests;

namespace Leafstop.Core.Tests.Optics;

public sealed class SharpestApertureTests
{
    private static readonly Length Green = Diffraction.GreenLight;

    // Published: DIF-17 (LF): optimum for a focus spread, written f/N and tenths of a stop beyond. The table follows N = 20 √D, which is the rule at 512 nm;
    // it cuts tenths off and rounds the last entry to 64. Tolerance 0.1 stop of the row.
    [Theory]
    [InlineData(1, 16, 0.6)]
    [InlineData(2, 22, 0.6)]
    [InlineData(4, 32, 0.6)]
    [InlineData(10, 64, 0)]
    public void The_rule_of_practice_is_that_of_the_published_table(double spread, double mark, double tenths)
    {
        FNumber rule = SharpestAperture.ByRule(Length.FromMillimetres(spread), Length.FromMillimetres(1 / (2 * 2.44 * 400)));
        double published = 2 * Math.Log2(FNumber.FromMarking(mark).Ratio) + tenths;
        Assert.Equal(published, 2 * Math.Log2(rule.Ratio), 0.1);
    }

    // Published: DIF-17 with note C6: at 546 nm the rule is N = √(375 D), up to 0.1 stop wider than 20 √D.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(10)]
    public void At_546_nm_the_rule_is_a_tenth_of_a_stop_wider(double spread)
    {
        FNumber rule = SharpestAperture.ByRule(Length.FromMillimetres(spread), Length.FromMillimetres(546e-6));
        Assert.Equal(Math.Sqrt(375 * spread), rule.Ratio, rule.Ratio * 1e-3);
        Assert.Equal(0.05, SharpestAperture.Light(FNumber.FromRatio(20 * Math.Sqrt(spread)), rule).Value, 0.05);
    }

    // Derived: DIF-19: minimiser and minimum at 550 nm, tolerance 1e-4 (f-number), 1e-7 mm as printed.
    [Theory]
    [InlineData(0.5, 13.6488, 0.0259037)]
    [InlineData(1, 19.3023, 0.0366333)]
    public void The_rule_makes_the_summed_blur_least(double spread, double n, double blur)
    {
        var focusSpread = Length.FromMillimetres(spread);
        FNumber rule = SharpestAperture.ByRule(focusSpread, Green);
        Assert.Equal(n, rule.Ratio, 1e-4);
        Assert.Equal(blur, SharpestAperture.BlurByRule(focusSpread, rule, Green).Millimetres, 1e-7);
        Assert.True(SharpestAperture.BlurByRule(focusSpread, FNumber.FromRatio(n * 1.01), Green) > SharpestAperture.BlurByRule(focusSpread, rule, Green));
        Assert.True(SharpestAperture.BlurByRule(focusSpread, FNumber.FromRatio(n / 1.01), Green) > SharpestAperture.BlurByRule(focusSpread, rule, Green));
    }

    // Derived: 2 J1(π) / π with J1(π) = 0.2846153.
    [Fact]
    public void Just_sharp_is_18_per_cent_of_contrast() => Assert.Equal(0.1811918, SharpestAperture.JustSharpContrast, 1e-6);

    // Derived: no aperture of a fine sweep beats the one found, and the worst of many distances in the depth is no worse than the limits.
    [Fact]
    public void No_other_aperture_leaves_more_contrast_at_the_worst_place()
    {
        DepthDemand demand = Fern();
        double u = 1 / 0.015;
        ApertureContrast best = SharpestAperture.Exact(demand, u, Green)!;
        for (double n = 2; n < 100; n *= 1.002)
            Assert.True(Worst(demand, FNumber.FromRatio(n), u) <= best.Contrast + 1e-9, $"f/{n}");
        Assert.Equal(Worst(demand, best.Aperture, u), best.Contrast, 1e-9);
    }

    // Derived: random depths: the sharpest aperture lies between the widest and the smallest that hold, and just outside they do not.
    [Fact]
    public void The_sharpest_aperture_lies_among_those_that_hold() =>
        Gen.Select(Gen.Double[14, 100], Gen.Double[20, 200], Gen.Double[1.2, 50], Gen.Double[0.012, 0.04]).Sample((f, nearTimes, farTimes, c) =>
        {
            var demand = DepthDemand.Of(Mm(f), SubjectDistance.FromMillimetres(f * nearTimes), SubjectDistance.FromMillimetres(f * nearTimes * farTimes));
            ApertureContrast? best = SharpestAperture.Exact(demand, 1 / c, Green);
            ApertureRange? holding = SharpestAperture.Holding(demand, 1 / c, Green, SharpestAperture.JustSharpContrast);
            if (holding is null)
                return best is null || best.Contrast < SharpestAperture.JustSharpContrast;
            double At(double n) => SharpestAperture.Contrast(demand, FNumber.FromRatio(n), 1 / c, Green);
            return holding.Widest <= best!.Aperture && best.Aperture <= holding.Smallest
                && (holding.Widest.Ratio < 1.001 || At(holding.Widest.Ratio / 1.001) < SharpestAperture.JustSharpContrast)
                && At(holding.Widest.Ratio) >= SharpestAperture.JustSharpContrast - 1e-9
                && At(holding.Smallest.Ratio) >= SharpestAperture.JustSharpContrast - 1e-9
                && At(holding.Smallest.Ratio * 1.001) < SharpestAperture.JustSharpContrast;
        }, iter: 60);

    // Derived: a deeper demand is never sharper and never asks for a wider aperture.
    [Fact]
    public void More_depth_asks_for_a_smaller_aperture_and_leaves_less()
    {
        ApertureContrast? before = null;
        foreach (double near in new[] { 5, 3, 2, 1.5, 1.2 })
        {
            ApertureContrast best = SharpestAperture.Exact(DepthDemand.Of(Mm(24), SubjectDistance.FromMetres(near), SubjectDistance.Infinity), 1 / 0.015, Green)!;
            Assert.True(before is null || (best.Contrast < before.Contrast && best.Aperture > before.Aperture));
            before = best;
        }
    }

    // Derived: the two methods differ, and by how much depends on the frequency, which the rule does not know.
    [Fact]
    public void The_exact_optimum_depends_on_the_print_and_the_rule_does_not()
    {
        DepthDemand demand = Fern();
        FNumber rule = SharpestAperture.ByRule(demand, Green);
        Stops fine = SharpestAperture.Light(SharpestAperture.Exact(demand, 1 / 0.012, Green)!.Aperture, rule);
        Stops lax = SharpestAperture.Light(SharpestAperture.Exact(demand, 1 / 0.030, Green)!.Aperture, rule);
        Assert.True(Math.Abs(fine.Value - lax.Value) > 0.1);
    }

    // Derived: beyond the cut-off of every aperture nothing is left.
    [Fact]
    public void A_depth_that_loses_the_pattern_at_every_aperture_has_no_sharpest()
    {
        var demand = DepthDemand.Of(Mm(200), SubjectDistance.FromMetres(1), SubjectDistance.Infinity);
        Assert.Null(SharpestAperture.Exact(demand, 100, Green));
        Assert.Null(SharpestAperture.Holding(demand, 100, Green, 0.2));
    }

    [Fact]
    public void Impossible_frequencies_and_contrasts_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SharpestAperture.Exact(Fern(), 0, Green));
        Assert.Throws<ArgumentOutOfRangeException>(() => SharpestAperture.Exact(Fern(), double.NaN, Green));
        Assert.Throws<ArgumentOutOfRangeException>(() => SharpestAperture.Holding(Fern(), 50, Green, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => SharpestAperture.ByRule(default(Length), Green));
    }

    private static DepthDemand Fern() => DepthDemand.Of(Mm(24), SubjectDistance.FromMetres(1.8), SubjectDistance.Infinity);

    // By brute force: 200 distances, evenly spread in reciprocal, the pattern lost counting as none from there to the limit.
    private static double Worst(DepthDemand demand, FNumber aperture, double u)
    {
        FNumber effective = demand.Lens.EffectiveAperture(aperture, demand.Focus);
        double worst = 1;
        for (int i = 0; i <= 200; i++)
        {
            double reciprocal = 1 / demand.Near.Millimetres + (1 / demand.Far.Millimetres - 1 / demand.Near.Millimetres) * i / 200;
            Length blur = demand.Lens.BlurDisc(aperture, demand.Focus, SubjectDistance.FromMillimetres(1 / reciprocal));
            worst = Math.Min(worst, BlurTransfer.Exact(Math.Min(1, u / Diffraction.CutOffPerMillimetre(effective, Green)), BlurTransfer.WavesAtRim(blur, effective, Green)));
        }
        return Math.Max(0, worst);
    }
}
