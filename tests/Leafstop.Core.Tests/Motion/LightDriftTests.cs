using CsCheck;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Motion;

public sealed class LightDriftTests
{
    // Derived: worked figures of the job. A stop in 4 to 5 min before sunrise leaves a pair about a minute for 0.2 stop; 10 to 15 min after it, 2 to 3.
    [Theory]
    [InlineData(4, 48)]
    [InlineData(5, 60)]
    [InlineData(10, 120)]
    [InlineData(15, 180)]
    public void A_pair_has_a_fifth_of_the_time_of_a_stop(double minutesAStop, double seconds)
    {
        Assert.Equal(seconds, LightDrift.TimeFor(LightDrift.UsuallyAllowed, Stops.Of(1 / minutesAStop))!.Value.TotalSeconds, 1e-6);
        Assert.Equal(seconds, LightDrift.TimeFor(LightDrift.UsuallyAllowed, Stops.Of(-1 / minutesAStop))!.Value.TotalSeconds, 1e-6);
    }

    [Fact]
    public void Steady_light_sets_no_time()
    {
        Assert.Null(LightDrift.TimeFor(LightDrift.UsuallyAllowed, default));
        Assert.Null(LightDrift.TimeFor(LightDrift.UsuallyAllowed, Stops.Of(1e-9)));
        Assert.Throws<ArgumentOutOfRangeException>(() => LightDrift.TimeFor(default, Stops.Of(0.2)));
    }

    [Fact]
    public void Faster_light_leaves_less_time() =>
        Gen.Select(Gen.Double[0.01, 2], Gen.Double[0.01, 2]).Sample((a, b) =>
            LightDrift.TimeFor(LightDrift.UsuallyAllowed, Stops.Of(Math.Max(a, b)))!.Value <= LightDrift.TimeFor(LightDrift.UsuallyAllowed, Stops.Of(Math.Min(a, b)))!.Value);
}
