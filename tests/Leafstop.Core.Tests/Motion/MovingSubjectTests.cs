using CsCheck;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Motion;

public sealed class MovingSubjectTests
{
    private static readonly Length Circle = Length.FromMillimetres(0.030);

    private static MovingSubject Seen(double focalMm, double metres, double degrees = 90) =>
        MovingSubject.Of(Lens.Of(Length.FromMillimetres(focalMm)), SubjectDistance.FromMetres(metres), Angle.FromDegrees(degrees));

    private static Speed MetresPerSecond(double speed) => Speed.FromMetresPerSecond(speed);

    // B-01 and, for the second lens, B-02: same magnification, same blur (derived). 0.1 % as the rows give it.
    [Theory]
    [InlineData(50, 5)]
    [InlineData(100, 10)]
    public void Image_speed_is_speed_times_magnification(double focalMm, double metres)
    {
        MovingSubject subject = Seen(focalMm, metres);
        Assert.Equal(0.010101, subject.Scale, 1e-5);
        Assert.Equal(1.0101e-3, subject.ImageSpeed(MetresPerSecond(0.1)).MetresPerSecond, 1e-6);
        Length smear = subject.Smear(MetresPerSecond(0.1), ShutterTime.FromSeconds(0.25));
        Assert.Equal(0.2525, smear.Millimetres, 0.2525e-3);
        Assert.Equal(8.42, smear.Millimetres / Circle.Millimetres, 8.42e-3);
        Assert.Equal(58.1, smear.Millimetres / 0.00435, 58.1e-3);
    }

    // B-03 (derived): a fern close by.
    [Fact]
    public void A_close_fern_smears()
    {
        Length smear = Seen(85, 4).Smear(MetresPerSecond(0.02), ShutterTime.FromSeconds(0.25));
        Assert.Equal(0.1086, smear.Millimetres, 1.1e-4);
        Assert.Equal(3.62, smear.Millimetres / Circle.Millimetres, 3.6e-3);
        // Half of the last digit printed.
        Assert.Equal(25.0, smear.Millimetres / 0.00435, 0.05);
    }

    // B-04 (derived): a fall across the frame, 23 % of a frame height of 24 mm.
    [Fact]
    public void A_fall_crosses_a_quarter_of_the_frame()
    {
        Length smear = Seen(35, 8).Smear(MetresPerSecond(5), ShutterTime.FromSeconds(0.25));
        Assert.Equal(5.49, smear.Millimetres, 5.5e-3);
        Assert.Equal(0.23, smear.Millimetres / 24, 0.005);
    }

    // B-05 (derived from B-01 with W-13): longest sharp times, 1 %.
    [Theory]
    [InlineData(0.0243, 0.122)]
    [InlineData(0.0548, 0.0542)]
    [InlineData(0.152, 0.0195)]
    public void The_longest_sharp_time_is_the_circle_over_the_image_speed(double speed, double seconds)
    {
        HoldingShutter holds = Seen(50, 5).LongestShutter(MetresPerSecond(speed), Circle);
        Assert.Equal(seconds, holds.Exact!.Seconds, seconds * 0.01);
        Assert.True(holds.Mark()!.Seconds <= holds.Exact.Seconds);
    }

    // B-06: exact geometry, to the three decimals given.
    [Theory]
    [InlineData(30, 0.500)]
    [InlineData(45, 0.707)]
    [InlineData(60, 0.866)]
    public void Only_the_part_across_the_view_counts(double degrees, double share) =>
        Assert.Equal(share, Seen(50, 5, degrees).Scale / Seen(50, 5).Scale, 5e-4);

    // MOT-01 (derived): f 50, s 5000 mm, 1000 mm/s, 1/30 s literally; limit for 0.030 mm.
    [Fact]
    public void Blur_of_a_walker_at_a_thirtieth()
    {
        MovingSubject subject = Seen(50, 5);
        Assert.Equal(0.336700, subject.Smear(MetresPerSecond(1), ShutterTime.FromSeconds(1 / 30.0)).Millimetres, 1e-6);
        Assert.Equal(2.970e-3, subject.LongestShutter(MetresPerSecond(1), Circle).Exact!.Seconds, 1e-6);
    }

    [Fact]
    public void What_does_not_move_in_the_picture_holds_at_any_time()
    {
        var far = MovingSubject.Of(Lens.Of(Length.FromMillimetres(50)), SubjectDistance.Infinity);
        Assert.True(far.LongestShutter(MetresPerSecond(10), Circle).HoldsAnyTime);
        Assert.Null(far.TravelFor(Circle));
        HoldingShutter still = Seen(50, 5).LongestShutter(default, Circle);
        Assert.Equal("any time", still.ToDisplay());
        Assert.Null(still.Mark());
        Assert.True(Seen(50, 5, 0).LongestShutter(MetresPerSecond(1), Circle).HoldsAnyTime);
    }

    [Fact]
    public void A_bullet_is_held_by_no_mark()
    {
        HoldingShutter holds = Seen(50, 1).LongestShutter(MetresPerSecond(1000), Circle);
        Assert.NotNull(holds.Exact);
        Assert.Null(holds.Mark());
        Assert.Equal("shorter than any mark", holds.ToDisplay());
    }

    [Fact]
    public void Inside_the_focal_length_and_no_smear_at_all_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Seen(50, 0.05));
        Assert.Throws<ArgumentOutOfRangeException>(() => Seen(50, 5).LongestShutter(MetresPerSecond(1), default));
    }

    [Fact]
    public void Smear_is_linear_in_time_and_the_longest_shutter_uses_up_what_is_allowed() =>
        Gen.Select(Gen.Double[10, 600], Gen.Double[1, 500], Gen.Double[0.001, 30], Gen.Double[1e-4, 60]).Sample((focal, metres, speed, seconds) =>
        {
            MovingSubject subject = Seen(focal, metres);
            double once = subject.Smear(MetresPerSecond(speed), ShutterTime.FromSeconds(seconds)).Millimetres;
            double twice = subject.Smear(MetresPerSecond(speed), ShutterTime.FromSeconds(2 * seconds)).Millimetres;
            Length used = subject.Smear(MetresPerSecond(speed), subject.LongestShutter(MetresPerSecond(speed), Circle).Exact!);
            return Math.Abs(twice - 2 * once) <= 1e-12 * twice && Math.Abs(used.Millimetres - 0.030) < 1e-12;
        });

    // Derived: the inverse of Smear. E3 of the job: 0.33 mm on a print 60 cm wide at 1/60 s, 50 mm lens, 10 m, is a leaf at 25 cm/s.
    [Fact]
    public void A_smear_that_is_seen_gives_the_speed_back()
    {
        var leaf = MovingSubject.Of(Lens.Of(Length.FromMillimetres(50)), SubjectDistance.FromMetres(10));
        ShutterTime shutter = ShutterTime.FromMarking(1 / 60.0);
        Speed speed = Speed.FromMetresPerSecond(0.25);
        Assert.Equal(0.25, leaf.SpeedFrom(leaf.Smear(speed, shutter), shutter)!.Value.MetresPerSecond, 1e-12);
        Assert.Equal(0.25, leaf.SpeedFrom(Length.FromMillimetres(0.33 * 36 / 600), shutter)!.Value.MetresPerSecond, 0.005);
        Assert.Null(MovingSubject.Of(Lens.Of(Length.FromMillimetres(50)), SubjectDistance.Infinity).SpeedFrom(Length.FromMillimetres(1), shutter));
    }
}
