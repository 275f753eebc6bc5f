using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Motion;

/// <summary>Derived throughout: stops over minutes, and what a third of a stop of doubt does to them.</summary>
public sealed class LightTrendTests
{
    private static readonly TimeSpan TenMinutes = TimeSpan.FromMinutes(10);

    private static LightTrend Fading => LightTrend.Between(ExposureValue.Of(8), ExposureValue.Of(7), TenMinutes);

    [Fact]
    public void A_stop_in_ten_minutes_is_a_tenth_a_minute_and_known_to_a_thirtieth()
    {
        Assert.Equal(-0.1, Fading.PerMinute.Value, 1e-12);
        Assert.Equal(1 / 30.0, Fading.Uncertain.Value, 1e-12);
        Assert.True(Fading.IsSure);
    }

    [Fact]
    public void Two_thirds_to_spare_last_less_than_seven_minutes_five_to_ten()
    {
        TrendTime time = Fading.Until(Stops.Of(-2 / 3.0))!;
        Assert.Equal(20 / 3.0, time.About.TotalMinutes, 1e-6);
        Assert.Equal(5, time.Soonest.TotalMinutes, 1e-6);
        Assert.Equal(10, time.Latest!.Value.TotalMinutes, 1e-6);
    }

    [Fact]
    public void Light_that_fades_never_reaches_what_wants_more_of_it() => Assert.Null(Fading.Until(Stops.Of(1)));

    [Fact]
    public void A_change_no_larger_than_the_doubt_has_no_latest_time_and_is_not_sure()
    {
        var trend = LightTrend.Between(ExposureValue.Of(8), ExposureValue.Of(8 + 1 / 3.0), TenMinutes);
        Assert.False(trend.IsSure);
        TrendTime time = trend.Until(Stops.Of(1))!;
        Assert.Equal(30, time.About.TotalMinutes, 1e-6);
        Assert.Null(time.Latest);
    }

    [Fact]
    public void Steady_light_goes_nowhere_and_what_is_reached_is_reached_now()
    {
        var trend = LightTrend.Between(ExposureValue.Of(8), ExposureValue.Of(8), TenMinutes);
        Assert.Null(trend.Until(Stops.Of(-1)));
        Assert.Equal(TimeSpan.Zero, trend.Until(default)!.About);
    }

    [Fact]
    public void Readings_closer_than_half_a_minute_are_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => LightTrend.Between(ExposureValue.Of(8), ExposureValue.Of(7), TimeSpan.FromSeconds(29)));
}
