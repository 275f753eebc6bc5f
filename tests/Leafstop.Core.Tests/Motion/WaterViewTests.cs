using CsCheck;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Motion;

public sealed class WaterViewTests
{
    private static readonly FrameFormat Smaller = FrameFormat.Of(Length.FromMillimetres(24), Length.FromMillimetres(16));
    private static readonly Speed OneMetre = Speed.FromMetresPerSecond(1);

    private static WaterView View(double focalMm, double metres, FrameFormat? format = null) =>
        WaterView.Of(Lens.Of(Length.FromMillimetres(focalMm)), SubjectDistance.FromMetres(metres), format ?? FrameFormat.FullFrame);

    // Derived: worked figures of the job: 35 mm at 6 m, water at 1 m/s.
    [Theory]
    [InlineData("1/15", 1.0)]
    [InlineData("1/8", 2.0)]
    [InlineData("1/4", 4.1)]
    [InlineData("1/2", 8.1)]
    public void A_streak_is_a_share_of_the_width(string shutter, double percent) =>
        Assert.Equal(percent, Math.Round(View(35, 6).StreakOf(OneMetre, ShutterTime.Parse(shutter)).Percent, 1));

    // Derived: the last of the same figures, given without decimals.
    [Fact]
    public void A_second_draws_a_sixth_of_the_width() =>
        Assert.Equal(16, Math.Round(View(35, 6).StreakOf(OneMetre, ShutterTime.FromSeconds(1)).Percent));

    // Derived: worked figures of the job. From 35 to 70 mm on the same spot 1/4 becomes 1/8 and the gap grows by one stop; the same framing from twice
    // the distance keeps 1/4.
    [Fact]
    public void Twice_the_focal_length_halves_the_time_unless_the_photographer_walks_back()
    {
        var quarter = ShutterTime.Parse("1/4");
        StreakConversion closer = View(35, 6).ConvertTo(View(70, 6), quarter);
        Assert.Equal("1/8 s", closer.Mark().ToDisplay());
        Assert.Equal(1, closer.GapGrows().Value, 1e-12);
        StreakConversion back = View(35, 6).ConvertTo(View(70, 12), quarter);
        Assert.Equal(0.25, back.Exact.Seconds, 1e-12);
        Assert.Equal(0, back.GapGrows().Value, 1e-12);
    }

    // Derived: a frame two thirds as wide with two thirds of the focal length frames the same; the thin lens differs by under half a per cent at 6 m.
    [Fact]
    public void A_smaller_format_with_the_same_framing_keeps_the_time()
    {
        StreakConversion same = View(36, 6).ConvertTo(View(24, 6, Smaller), ShutterTime.Parse("1/4"));
        Assert.Equal(0.25, same.Exact.Seconds, 0.25 * 0.005);
        Assert.Equal(0, same.GapGrows().Value, 1e-12);
    }

    // Derived: worked figure of the job: the taste of about 4 % is 1/4 at 35 mm and 6 m, and one test frame tells the speed.
    [Fact]
    public void A_taste_becomes_a_shutter_and_a_test_frame_tells_the_speed()
    {
        WaterView view = View(35, 6);
        Assert.Equal("1/4 s", view.ShutterFor(Streak.FromPercent(4), OneMetre).NearestMark().ToDisplay());
        Streak seen = view.StreakOf(Speed.FromMetresPerSecond(1.7), ShutterTime.Parse("1/15"));
        Assert.Equal(1.7, view.SpeedFrom(seen, ShutterTime.Parse("1/15")).MetresPerSecond, 1e-12);
    }

    [Fact]
    public void A_taste_is_the_middle_of_the_kept_streaks_by_ratio() =>
        Assert.Equal(4, Streak.TasteOf([Streak.FromPercent(2), Streak.FromPercent(4), Streak.FromPercent(8)]).Percent, 1e-9);

    [Fact]
    public void Converting_there_and_back_changes_nothing_and_keeps_the_streak() =>
        Gen.Select(Gen.Double[12, 400], Gen.Double[12, 400], Gen.Double[1, 100], Gen.Double[1, 100], Gen.Double[0.001, 30], Gen.Bool).Sample((f1, f2, d1, d2, seconds, smaller) =>
        {
            WaterView here = View(f1, d1), there = View(f2, d2, smaller ? Smaller : null);
            var shutter = ShutterTime.FromSeconds(seconds);
            ShutterTime converted = here.ConvertTo(there, shutter).Exact;
            double before = here.StreakOf(OneMetre, shutter).ShareOfWidth, after = there.StreakOf(OneMetre, converted).ShareOfWidth;
            return Math.Abs(there.ConvertTo(here, converted).Exact.Seconds - seconds) <= 1e-12 * seconds && Math.Abs(after - before) <= 1e-12 * before;
        });

    [Fact]
    public void A_shutter_for_a_taste_draws_that_streak() =>
        Gen.Select(Gen.Double[12, 400], Gen.Double[1, 100], Gen.Double[0.1, 50], Gen.Double[0.1, 20]).Sample((focal, metres, percent, speed) =>
        {
            WaterView view = View(focal, metres);
            Speed water = Speed.FromMetresPerSecond(speed);
            return Math.Abs(view.StreakOf(water, view.ShutterFor(Streak.FromPercent(percent), water)).Percent - percent) <= 1e-12 * percent;
        });

    [Theory]
    [InlineData("4%", 4)]
    [InlineData("4.1 %", 4.1)]
    [InlineData("1/2 %", 0.5)]
    public void A_streak_is_read_as_people_write_it(string text, double percent) => Assert.Equal(percent, Streak.Parse(text).Percent, 1e-12);

    [Theory]
    [InlineData("4", "no % sign")]
    [InlineData("", "missing")]
    [InlineData("-4%", "not above zero")]
    [InlineData("four%", "cannot be read")]
    public void What_is_no_streak_is_told_so(string text, string why) =>
        Assert.Contains(why, Assert.Throws<FormatException>(() => Streak.Parse(text)).Message, StringComparison.Ordinal);

    [Fact]
    public void Water_that_does_not_show_is_refused()
    {
        var lens = Lens.Of(Length.FromMillimetres(35));
        var towards = new WaterView(MovingSubject.Of(lens, SubjectDistance.FromMetres(6), default), FrameFormat.FullFrame);
        Assert.Throws<ArgumentOutOfRangeException>(() => towards.ShutterFor(Streak.FromPercent(4), OneMetre));
        Assert.Throws<ArgumentOutOfRangeException>(() => View(35, 6).ConvertTo(towards, ShutterTime.FromSeconds(0.25)));
        Assert.Throws<ArgumentOutOfRangeException>(() => View(35, 6).ShutterFor(Streak.FromPercent(4), default));
        Assert.Throws<ArgumentOutOfRangeException>(() => View(35, 6).ShutterFor(default, OneMetre));
        Assert.Throws<ArgumentException>(() => Streak.TasteOf([]));
    }
}
