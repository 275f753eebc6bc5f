using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Motion;

/// <summary>Falls, streams and the sea.</summary>
public sealed class WaterSpeedTests
{
    private static Length Metres(double metres) => Length.FromMetres(metres);

    // A-01 (derived, kinematics).
    [Theory]
    [InlineData(0.5, 3.132)]
    [InlineData(1, 4.429)]
    [InlineData(2, 6.263)]
    [InlineData(5, 9.903)]
    [InlineData(10, 14.005)]
    [InlineData(20, 19.806)]
    public void Free_fall(double drop, double speed) => Assert.Equal(speed, FallingWater.ThickSheet(Metres(drop)).MetresPerSecond, 1e-3);

    // A-02 (derived; 9 m/s for the largest drops from memory).
    [Theory]
    [InlineData(9, 1, 4.174)]
    [InlineData(9, 5, 7.541)]
    [InlineData(9, 20, 8.964)]
    [InlineData(6, 1, 3.889)]
    [InlineData(6, 5, 5.800)]
    public void Fall_with_drag(double end, double drop, double speed) =>
        Assert.Equal(speed, FallingWater.Drops(Metres(drop), Speed.FromMetresPerSecond(end)).MetresPerSecond, 1e-3);

    // A-03 (derived): thin veil to thick sheet, as printed; and the job's own figure, a 3 m fall runs up to 7.7 m/s at its foot.
    [Fact]
    public void A_fall_runs_between_a_veil_and_a_sheet()
    {
        SpeedBand five = FallingWater.AtFoot(Metres(5)), twenty = FallingWater.AtFoot(Metres(20));
        Assert.Equal((7.5, 9.9), (Math.Round(five.Low.MetresPerSecond, 1), Math.Round(five.High.MetresPerSecond, 1)));
        Assert.Equal((9, 20), (Math.Round(twenty.Low.MetresPerSecond), Math.Round(twenty.High.MetresPerSecond)));
        Assert.Equal(7.7, FallingWater.AtFoot(Metres(3)).High.MetresPerSecond, 0.05);
        Assert.True(five.Low < five.Best && five.Best < five.High);
    }

    // A-04 (standard form).
    [Theory]
    [InlineData(0.05, 0.3, 0.02, 1.267)]
    [InlineData(0.04, 0.5, 0.01, 1.575)]
    [InlineData(0.07, 0.4, 0.05, 1.734)]
    [InlineData(0.03, 1, 0.002, 1.491)]
    public void Streams_by_their_bed(double roughness, double radius, double slope, double speed) =>
        Assert.Equal(speed, StreamFlow.Manning(Metres(radius), slope, roughness).MetresPerSecond, 1e-3);

    // A-08 (formula from memory, 1 %).
    [Theory]
    [InlineData(0.02, 0.5, 0.0815, 1.093)]
    [InlineData(0.01, 1, 0.0560, 1.784)]
    public void Roughness_of_steep_streams(double slope, double radius, double roughness, double speed)
    {
        double n = StreamFlow.SteepRoughness(Metres(radius), slope);
        Assert.Equal(roughness, n, roughness * 0.01);
        Assert.Equal(speed, StreamFlow.Manning(Metres(radius), slope, n).MetresPerSecond, speed * 0.01);
    }

    // A-09 and A-10 (published limits of the Froude number; speeds derived).
    [Theory]
    [InlineData(0.2, 0.574, 0.252)]
    [InlineData(0.5, 0.908, 0.399)]
    public void Riffles_and_pools_by_depth(double depth, double riffle, double pool)
    {
        Assert.Equal(riffle, StreamFlow.AtFroude(Metres(depth), StreamFlow.RiffleFroude).MetresPerSecond, 1e-3);
        Assert.Equal(pool, StreamFlow.AtFroude(Metres(depth), StreamFlow.PoolFroude).MetresPerSecond, 1e-3);
    }

    // A-11 (linear theory, 0.1 %).
    [Theory]
    [InlineData(6, 56.2, 9.37)]
    [InlineData(10, 156.1, 15.61)]
    [InlineData(14, 305.9, 21.85)]
    public void Waves_in_deep_water(double period, double length, double speed)
    {
        var wave = SeaWave.InDeepWater(TimeSpan.FromSeconds(period));
        Assert.Equal(length, wave.WaveLength.Metres, length * 1e-3);
        Assert.Equal(speed, wave.CrestSpeed.MetresPerSecond, speed * 1e-3);
    }

    // A-12 (linear theory).
    [Theory]
    [InlineData(0.5, 2.214)]
    [InlineData(1, 3.132)]
    [InlineData(2, 4.429)]
    [InlineData(3, 5.424)]
    public void Waves_over_shallow_water(double depth, double speed) =>
        Assert.Equal(speed, SeaWave.InShallowWater(Metres(depth)).MetresPerSecond, 1e-3);

    // A-13 (linear theory, root found numerically there).
    [Theory]
    [InlineData(5, 10, 67.67, 6.767)]
    [InlineData(10, 8, 70.88, 8.860)]
    public void Waves_at_any_depth(double depth, double period, double length, double speed)
    {
        var wave = SeaWave.AtDepth(TimeSpan.FromSeconds(period), Metres(depth));
        Assert.Equal(length, wave.WaveLength.Metres, 0.01);
        Assert.Equal(speed, wave.CrestSpeed.MetresPerSecond, 0.01);
    }

    // Derived: the two limits of the same law.
    [Fact]
    public void Any_depth_ends_in_deep_and_in_shallow_water()
    {
        var period = TimeSpan.FromSeconds(8);
        Assert.Equal(SeaWave.InDeepWater(period).WaveLength.Metres, SeaWave.AtDepth(period, Metres(2000)).WaveLength.Metres, 1e-6);
        Assert.Equal(SeaWave.InShallowWater(Metres(0.02)).MetresPerSecond, SeaWave.AtDepth(period, Metres(0.02)).CrestSpeed.MetresPerSecond, 1e-3);
    }

    // A-14 (published after Kamphuis 2000; 1 %).
    [Theory]
    [InlineData(1, 3.55)]
    [InlineData(2, 5.01)]
    public void Crests_of_breakers(double height, double speed)
    {
        Assert.Equal(speed, SeaWave.BreakingCrest(Metres(height)).MetresPerSecond, speed * 0.01);
        Assert.Equal(1.28, 1 / SeaWave.BreakingShare, 0.0128);
    }

    // A-16 (derived, 0.1 % or the last digit printed): travel in an exposure, literal times.
    [Theory]
    [InlineData(500, 8.9, 0.05)]
    [InlineData(60, 74, 0.5)]
    [InlineData(8, 554, 0.6)]
    [InlineData(1, 4430, 4.4)]
    public void Travel_of_water_that_fell_a_metre(double perSecond, double millimetres, double tolerance)
    {
        double travel = FallingWater.ThickSheet(Metres(1)).MetresPerSecond / perSecond;
        Assert.Equal(millimetres, travel * 1000, tolerance);
        Assert.Equal(travel / 0.15, WaterLooks.Of(FallingWater.ThickSheet(Metres(1)), ShutterTime.FromSeconds(1 / perSecond), WaterLooks.UsualTexture).TravelInTextures, 1e-9);
    }

    [Fact]
    public void Every_row_of_the_table_is_a_range_with_a_source()
    {
        Assert.All(WaterSpeedTable.Rows, row => Assert.True(row.Low < row.High && row.Source.Length > 0 && row.Name.Length > 0));
        // A-07 (published, Yochum et al. 2012): steep mountain reaches ran at 0.44 m/s in the mean.
        Assert.Equal(0.44, Assert.Single(WaterSpeedTable.Rows, row => row.Name.StartsWith("steep", StringComparison.Ordinal)).Low.MetresPerSecond);
        Assert.Equal(WaterSpeedTable.Rows.Length, WaterSpeedTable.Rows.Select(row => row.Name).Distinct().Count());
    }

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => FallingWater.AtFoot(default));
        Assert.Throws<ArgumentOutOfRangeException>(() => FallingWater.Drops(Metres(1), default));
        Assert.Throws<ArgumentOutOfRangeException>(() => StreamFlow.Manning(Metres(1), -0.1, 0.05));
        Assert.Throws<ArgumentOutOfRangeException>(() => StreamFlow.Manning(Metres(1), 0.1, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => StreamFlow.SteepRoughness(Metres(1), 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => StreamFlow.AtFroude(Metres(1), -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => SeaWave.AtDepth(TimeSpan.FromSeconds(8), default));
        Assert.Throws<ArgumentOutOfRangeException>(() => SeaWave.InDeepWater(TimeSpan.Zero));
    }
}
