using CsCheck;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Motion;

/// <summary>Wind at the leaf, what it does to leaves and branches, gusts and forces.</summary>
public sealed class WindTests
{
    private static Speed MetresPerSecond(double speed) => Speed.FromMetresPerSecond(speed);

    // W-01 (published: WMO scale, two public tables): limits exact.
    [Theory]
    [InlineData(0, 0, 0.2)]
    [InlineData(1, 0.3, 1.5)]
    [InlineData(2, 1.6, 3.3)]
    [InlineData(3, 3.4, 5.4)]
    [InlineData(4, 5.5, 7.9)]
    [InlineData(5, 8.0, 10.7)]
    [InlineData(6, 10.8, 13.8)]
    public void Forces_have_the_limits_of_the_scale(int force, double from, double to)
    {
        Beaufort row = Beaufort.All[force];
        Assert.Equal((force, from, to), (row.Force, row.From.MetresPerSecond, row.To.MetresPerSecond));
        Assert.Equal(row, Beaufort.Of(MetresPerSecond(from)));
        Assert.Equal(row, Beaufort.Of(MetresPerSecond(to)));
    }

    [Fact]
    public void Above_force_six_nobody_waits_for_a_lull() => Assert.Null(Beaufort.Of(MetresPerSecond(14)));

    // W-04 (derived from the standard form; roughness of grass from memory).
    [Theory]
    [InlineData(0.03, 1.5, 0.6734)]
    [InlineData(0.03, 1, 0.6036)]
    [InlineData(0.1, 1.5, 0.5880)]
    [InlineData(0.1, 1, 0.5000)]
    public void Wind_near_the_ground_in_the_open(double roughness, double height, double share) =>
        Assert.Equal(share, WindAtLeaf.LogProfile(Length.FromMetres(height), Length.FromMetres(roughness)), 1e-4);

    // W-05 (standard form) and W-27 (published coefficients, Pinker and Moses; the last two).
    [Theory]
    [InlineData(0.1, 2, 0.1653)]
    [InlineData(0.1, 3, 0.0672)]
    [InlineData(0.5, 2, 0.3679)]
    [InlineData(0.5, 3, 0.2231)]
    [InlineData(0.5, 4.04, 0.1327)]
    [InlineData(0.5, 1.77, 0.4127)]
    public void Wind_inside_foliage(double height, double attenuation, double share) =>
        Assert.Equal(share, WindAtLeaf.InsideFoliage(height, attenuation), 1e-4);

    // W-06 (arithmetic 1 %), W-02 and W-03 (published shares), W-04 for the open.
    [Fact]
    public void The_usual_chain_from_an_airfield_to_the_leaf()
    {
        SpeedBand floor = WindAtLeaf.From(MetresPerSecond(5), WindSite.Floor);
        Assert.Equal(0.41, floor.Best.MetresPerSecond, 0.0041);
        Assert.Equal(3, floor.Factor, 1e-12);
        Assert.Equal(floor.Best.MetresPerSecond / 3, floor.Low.MetresPerSecond, 1e-12);
        Assert.InRange(WindAtLeaf.CanopyTopShare, 0.4, 0.7);
        Assert.Equal(0.42, WindAtLeaf.Share(WindSite.Stand), 1e-12);
        Assert.InRange(WindAtLeaf.Share(WindSite.Open), 0.6, 0.7);
    }

    // W-08 (published: Durst 1960, Krayer and Marshall 1992, ±0.1) and W-09 (arithmetic; 2.5 from memory).
    [Fact]
    public void Gust_factors_of_open_ground_and_of_an_old_stand()
    {
        Assert.Equal(1.40, Gusts.OpenGroundFactor, 0.1);
        Assert.Equal(Gusts.OpenGroundFactor, Gusts.Factor(0.16), 1e-12);
        Assert.Equal(3.15, Gusts.Factor(0.86), 1e-12);
    }

    // W-10 (published spacing in canopy heights; seconds to the whole second given).
    [Theory]
    [InlineData(3, 40, 67)]
    [InlineData(5, 24, 40)]
    public void Gusts_over_a_twenty_metre_wood(double travel, double shortest, double longest)
    {
        (TimeSpan Shortest, TimeSpan Longest) spacing = Gusts.Spacing(Length.FromMetres(20), MetresPerSecond(travel));
        Assert.Equal((shortest, longest), (Math.Round(spacing.Shortest.TotalSeconds), Math.Round(spacing.Longest.TotalSeconds)));
    }

    // W-13 (published law, arXiv 2504.10584; 1 % on the arithmetic, a factor of 3 as physics). The first value has two figures only.
    [Theory]
    [InlineData(5, 1, 0.0061, 5e-5)]
    [InlineData(5, 2, 0.0243, 2.4e-4)]
    [InlineData(5, 3, 0.0548, 5.5e-4)]
    [InlineData(5, 5, 0.152, 1.5e-3)]
    [InlineData(8, 2, 0.0390, 3.9e-4)]
    [InlineData(8, 3, 0.0877, 8.8e-4)]
    public void Speed_of_a_leaf_in_a_wind(double centimetres, double wind, double speed, double tolerance)
    {
        SpeedBand leaf = LeafSpeed.From(MetresPerSecond(wind), Length.FromCentimetres(centimetres));
        Assert.Equal(speed, leaf.Best.MetresPerSecond, tolerance);
        Assert.Equal(3, leaf.Factor, 1e-12);
        Assert.Equal(leaf.Best.MetresPerSecond * 3, leaf.High.MetresPerSecond, 1e-12);
        Assert.Contains("a factor of 3 either way", leaf.ToDisplay(), StringComparison.Ordinal);
    }

    // Derived: the wind counts twice, exp √((2 ln 3)² + (ln 3)²) = 3^√5 = 11.66.
    [Fact]
    public void A_forecast_leaves_the_leaf_a_wide_band()
    {
        SpeedBand wind = WindAtLeaf.From(MetresPerSecond(3), WindSite.Stand);
        SpeedBand leaf = LeafSpeed.From(wind, Length.FromCentimetres(5));
        Assert.Equal(LeafSpeed.From(wind.Best, Length.FromCentimetres(5)).Best, leaf.Best);
        Assert.Equal(11.66, leaf.Factor, 0.01);
    }

    // W-14 (formula read in a public source after Billingsley 2002; 1 % on the arithmetic).
    [Theory]
    [InlineData(2, 0.1117, 0.158, 0.335)]
    [InlineData(5, 0.153, 0.217, 0.459)]
    [InlineData(10, 0.185, 0.262, 0.554)]
    public void Speed_of_branches_in_the_wind(double wind, double mean, double rms, double below95)
    {
        BranchSpeed branches = BranchSpeed.In(MetresPerSecond(wind))!;
        Assert.Equal(mean, branches.Mean.MetresPerSecond, mean * 0.01);
        Assert.Equal(rms, branches.RootMeanSquare.MetresPerSecond, rms * 0.01);
        Assert.Equal(below95, branches.Below(Chance.Of(0.95)).MetresPerSecond, below95 * 0.01);
    }

    [Fact]
    public void Outside_its_winds_the_branch_law_says_nothing()
    {
        Assert.Null(BranchSpeed.In(MetresPerSecond(0.4)));
        Assert.Null(BranchSpeed.In(MetresPerSecond(25)));
        Assert.Throws<ArgumentOutOfRangeException>(() => BranchSpeed.In(MetresPerSecond(5))!.Below(Chance.Of(1)));
    }

    // W-15 (derived): leaves of 5 cm and branches cross near 6 m/s, ±1.
    [Fact]
    public void Leaves_overtake_branches_near_six_metres_a_second()
    {
        bool LeafIsFaster(double wind) =>
            LeafSpeed.From(MetresPerSecond(wind), Length.FromCentimetres(5)).Best > BranchSpeed.In(MetresPerSecond(wind))!.RootMeanSquare;
        Assert.False(LeafIsFaster(5));
        Assert.True(LeafIsFaster(7));
        Assert.True(LeafSpeed.IsWithinLaw(MetresPerSecond(6)));
        Assert.False(LeafSpeed.IsWithinLaw(MetresPerSecond(6.1)));
    }

    [Fact]
    public void More_wind_never_calms_a_leaf() =>
        Gen.Select(Gen.Double[0, 20], Gen.Double[0, 20], Gen.Enum<WindSite>()).Sample((a, b, site) =>
            LeafSpeed.From(WindAtLeaf.From(MetresPerSecond(Math.Min(a, b)), site), Length.FromCentimetres(5)).High.MetresPerSecond
            <= LeafSpeed.From(WindAtLeaf.From(MetresPerSecond(Math.Max(a, b)), site), Length.FromCentimetres(5)).High.MetresPerSecond + 1e-15);

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => WindAtLeaf.LogProfile(Length.FromMetres(0.01), Length.FromMetres(0.03)));
        Assert.Throws<ArgumentOutOfRangeException>(() => WindAtLeaf.InsideFoliage(1.1, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => WindAtLeaf.InsideFoliage(0.5, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => LeafSpeed.From(MetresPerSecond(2), default(Length)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Gusts.Factor(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Gusts.Spacing(Length.FromMetres(20), default));
        Assert.Throws<ArgumentOutOfRangeException>(() => SpeedBand.WithinFactor(MetresPerSecond(1), 0.5));
    }
}
