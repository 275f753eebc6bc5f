using Leafstop.Core.Motion;

namespace Leafstop.Core.Tests.Motion;

public sealed class SmearContrastTests
{
    // B-10 and MOT-03 (standard form; values computed there). 1e-5 and 1e-7 as the rows give it.
    [Theory]
    [InlineData(0.1, 0.98363, 1e-5)]
    [InlineData(0.25, 0.9003163, 1e-7)]
    [InlineData(0.5, 0.6366198, 1e-7)]
    [InlineData(0.60335, 0.5, 1e-5)]
    [InlineData(0.75, 0.30011, 1e-5)]
    [InlineData(1, 0, 1e-7)]
    [InlineData(0, 1, 0)]
    public void Steady_motion(double periods, double contrast, double tolerance) =>
        Assert.Equal(contrast, SmearContrast.Steady(periods), tolerance);

    // B-11 (standard form). 1e-5 as the row gives it; 2e-5 at the two roots, which have five decimals where the slope is near −3.
    [Theory]
    [InlineData(0.05, 0.97548, 1e-5)]
    [InlineData(0.1, 0.90371, 1e-5)]
    [InlineData(0.2, 0.64251, 1e-5)]
    [InlineData(0.24210, 0.5, 2e-5)]
    [InlineData(0.25, 0.47200, 1e-5)]
    [InlineData(0.38274, 0, 2e-5)]
    public void A_long_look_at_a_swing(double periods, double contrast, double tolerance) =>
        Assert.Equal(contrast, SmearContrast.Swaying(periods), tolerance);

    // B-12 (standard form).
    [Theory]
    [InlineData(0.05, 0.95185)]
    [InlineData(0.1, 0.82087)]
    [InlineData(0.25, 0.29121)]
    public void Random_jitter(double periods, double contrast) => Assert.Equal(contrast, SmearContrast.Jittering(periods), 1e-5);

    // M-06 (derived): four exposures of 0.25 s, a fleck that crosses half a period of the detail in a second.
    [Theory]
    [InlineData(0, 0.63662)]
    [InlineData(0.05, 0.51036)]
    [InlineData(0.25, 0)]
    public void Gaps_in_a_streak(double gap, double contrast)
    {
        const double frequency = 0.5, shutter = 0.25;
        Assert.Equal(contrast, SmearContrast.SteadyWithGaps(frequency * shutter, frequency * (shutter + gap), 4), 1e-5);
    }

    [Fact]
    public void Without_gaps_several_exposures_are_one_long_one()
    {
        for (double step = 0.01; step < 3; step += 0.173)
            Assert.Equal(SmearContrast.Steady(8 * step), SmearContrast.SteadyWithGaps(step, step, 8), 1e-12);
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void What_is_no_motion_is_refused(double periods)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SmearContrast.Steady(periods));
        Assert.Throws<ArgumentOutOfRangeException>(() => SmearContrast.Swaying(periods));
        Assert.Throws<ArgumentOutOfRangeException>(() => SmearContrast.Jittering(periods));
        Assert.Throws<ArgumentOutOfRangeException>(() => SmearContrast.SteadyWithGaps(1, 0.5, 2));
    }
}
