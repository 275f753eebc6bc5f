using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Exposure;

public sealed class ShotListTests
{
    private static ShotList Usual(Lamp lamp) => ShotList.For(lamp, [.. ShotList.UsualLevels.Select(Iso.FromSpeed)]);

    // Derived: |sin(πfT)/(πfT)| with full modulation and the exact powers behind the marks gives the worked figures of the job:
    // ±20 % at 1/60, ±77 % at 1/250 (to half a percent, as they are rounded), under 4 % at 1/30, under 3 % at 1/8.
    [Fact]
    public void Ripple_of_a_lamp_that_flickers_fully_at_100_Hz_is_as_worked_out_for_the_bench()
    {
        Assert.Equal(0.20, LampRipple.Share(Lamp.Mains50, ShutterTime.Parse("1/60")), 0.005);
        Assert.Equal(0.77, LampRipple.Share(Lamp.Mains50, ShutterTime.Parse("1/250")), 0.005);
        Assert.InRange(LampRipple.Share(Lamp.Mains50, ShutterTime.Parse("1/30")), 0.03, 0.04);
        Assert.InRange(LampRipple.Share(Lamp.Mains50, ShutterTime.Parse("1/8")), 0.02, 0.03);
    }

    // Derived: the closed form against a plain sum over one exposure, worst starting moment of 720.
    [Theory]
    [InlineData(Lamp.Mains50, 1 / 64.0, 1)]
    [InlineData(Lamp.Mains60, 1 / 32.0, 1)]
    [InlineData(Lamp.Mains60, 1 / 256.0, 0.4)]
    public void Ripple_is_what_summing_the_light_gives(Lamp lamp, double seconds, double modulation)
    {
        const int steps = 2000;
        double worst = 0;
        for (int start = 0; start < 720; start++)
        {
            double sum = 0;
            for (int i = 0; i < steps; i++)
            {
                double t = (i + 0.5) / steps * seconds;
                sum += modulation * Math.Cos(2 * Math.PI * (LampRipple.Frequency(lamp) * t + start / 720.0));
            }
            worst = Math.Max(worst, Math.Abs(sum / steps));
        }
        // 1e-4: the starting moments lie half a degree apart and the sum has 2000 steps.
        Assert.Equal(worst, LampRipple.Share(lamp, ShutterTime.FromSeconds(seconds), modulation), 1e-4);
    }

    // Published: job figures, 8 s at ISO 100 down to 1/30 s at ISO 25 600 at f/8, two frames a level.
    [Fact]
    public void The_usual_list_runs_from_8_s_at_ISO_100_to_a_30th_at_ISO_25600()
    {
        ShotList list = Usual(Lamp.Mains50);
        Assert.Equal("f/8", list.Aperture.ToDisplay());
        Assert.Equal(
            ["100 8 s", "200 4 s", "400 2 s", "500 1.6 s", "640 1.3 s", "800 1 s", "1600 0.5 s", "3200 1/4 s", "6400 1/8 s", "12800 1/15 s", "25600 1/30 s"],
            list.Levels.Select(l => $"{l.Iso.ToDisplay()} {l.Shutter.ToDisplay()}"));
        Assert.All(list.Levels, l => Assert.Equal((2, 2), (l.Frames, l.CapFrames)));
        Assert.Equal(44, list.TotalFrames);
    }

    [Theory]
    [InlineData(Lamp.Mains50)]
    [InlineData(Lamp.Mains60)]
    [InlineData(Lamp.LedDc)]
    public void No_level_ripples_by_more_than_four_hundredths_and_light_falls_as_ISO_rises(Lamp lamp)
    {
        ShotList list = Usual(lamp);
        Assert.All(list.Levels, l => Assert.InRange(l.RippleShare, 0, ShotList.RippleAllowed));
        double first = list.Levels[0].Shutter.Seconds * Iso.FromMarking(list.Levels[0].Iso.Speed).Speed;
        Assert.All(list.Levels, l => Assert.Equal(first, l.Shutter.Seconds * Iso.FromMarking(l.Iso.Speed).Speed, first * 1e-9));
    }

    // Derived: on 60 Hz mains 1/30 (exactly 1/32) would ripple by 6 %, so the list starts a little slower.
    [Fact]
    public void On_60_Hz_mains_the_list_is_slower_because_a_30th_would_ripple()
    {
        Assert.Equal(0.06, LampRipple.Share(Lamp.Mains60, ShutterTime.Parse("1/30")), 0.001);
        Assert.Equal("1/20 s", Usual(Lamp.Mains60).Levels[^1].Shutter.ToDisplay());
    }

    // Derived: what holds under each lamp holds under the one that is there; 26 thirds are 1/13 s to 30 s.
    [Fact]
    public void A_list_for_a_lamp_that_is_not_known_holds_under_every_lamp_and_always_reaches_eight_and_two_thirds_stops()
    {
        foreach (double low in new[] { 25.0, 50, 100, 200 })
        {
            var list = ShotList.ForAnyLamp([.. Enumerable.Range(0, 27).Select(third => Iso.FromSpeed(low * Math.Pow(2, third / 3.0)).NearestDial())]);
            Assert.Null(list.Lamp);
            Assert.All(list.Levels, l => Assert.All(Enum.GetValues<Lamp>(), lamp => Assert.InRange(LampRipple.Share(lamp, l.Shutter), 0, ShotList.RippleAllowed)));
        }
    }

    [Fact]
    public void Levels_that_no_shutter_can_follow_are_refused_with_the_reason()
    {
        var far = Assert.Throws<ArgumentException>(() => ShotList.For(Lamp.Mains50, [Iso.FromSpeed(25), Iso.FromSpeed(102400)]));
        Assert.Contains("further apart", far.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => ShotList.For(Lamp.LedDc, [Iso.FromSpeed(100), Iso.FromSpeed(100)]));
    }
}
