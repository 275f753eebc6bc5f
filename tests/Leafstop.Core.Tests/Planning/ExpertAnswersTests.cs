using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Tests.Sensor;

namespace Leafstop.Core.Tests.Planning;

/// <summary>Published: the job's expert answers that are arithmetic and belong to no single page, each with its number. Answers on lifting, smoothing, metering, limits,
/// filters, foam and long exposures stand beside the code they check.</summary>
public sealed class ExpertAnswersTests
{
    private static readonly Speed QuarterMetre = Speed.FromMetresPerSecond(0.25);

    // 0.17 mm on a print of 60 cm from a frame of 36 mm.
    private static readonly Length Allowed = Length.FromMillimetres(0.17 * 36 / 600);

    private static MovingSubject At(double focal, double metres) => MovingSubject.Of(Lens.Of(Length.FromMillimetres(focal)), SubjectDistance.FromMetres(metres));

    // Answer 4.
    [Theory]
    [InlineData(0.5, 5)]
    [InlineData(0.3, 9)]
    [InlineData(0.2, 14)]
    [InlineData(0.1, 29)]
    [InlineData(0.05, 59)]
    public void Frames_until_one_is_still(double chance, int frames) =>
        Assert.Equal(frames, FrameOdds.FramesFor(Chance.Of(chance), Chance.UsuallySure));

    // Answer 4 and E7.
    [Fact]
    public void A_trial_gives_a_range()
    {
        FramesNeeded some = KeeperTrial.Of(5, 25).StillNeeded(Chance.UsuallySure);
        Assert.Equal((14, 6, 43), (some.Best, some.Fewest, some.Most));
        var none = KeeperTrial.Of(0, 10);
        Assert.Null(none.StillNeeded(Chance.UsuallySure).Most);
        Assert.Equal(0.26, none.High.Share, 0.005);
    }

    // Answers 4 and 5, E7: four areas, one frame with all of them, or a blend.
    [Theory]
    [InlineData(0.5, 47, 7)]
    [InlineData(1 / 3.0, 242, 11)]
    public void Four_areas_in_one_frame_or_blended(double chance, int inOne, int blended)
    {
        var odds = BlendOdds.CompareAlike(Chance.Of(chance), 4, Chance.UsuallySure);
        Assert.Equal((inOne, blended), (odds.SingleFrames, odds.BlendFrames));
    }

    // Answer 8: about 4 % of the width, 35 mm at 6 m, 1 m/s; the lens equation makes it 0.6 % shorter than the job's plain f/d.
    [Fact]
    public void A_streak_of_four_percent_is_a_quarter_of_a_second() =>
        Assert.Equal("1/4 s", Scenes.Water.ShutterFor(Streak.FromPercent(4), Scenes.WaterSpeed).NearestMark().ToDisplay());

    // Answer 12: two stops past clean is half the signal-to-noise, 28 and 14 at mid-grey.
    [Fact]
    public void Two_stops_past_clean_is_half_the_signal_to_noise()
    {
        double clean = MeteredTone.SignalToNoise(ExactBench.Model(800), 0), stretch = MeteredTone.SignalToNoise(ExactBench.Model(3200), 0);
        Assert.Equal(28, clean, 0.5);
        Assert.Equal(14, stretch, 0.5);
        Assert.Equal(2, clean / stretch, 0.02);
    }

    // Answer 13: 50 mm at 10 m holds at 1/125; 100 mm at 15 m needs 1/163, dialled 1/200, and 1/160 leaves 0.172 mm. The job takes f/d, the lens equation is 0.7 % stricter.
    [Fact]
    public void The_shutter_that_holds_the_leaves_from_here()
    {
        Assert.Equal("1/125 s", At(50, 10).LongestShutter(QuarterMetre, Allowed).ToDisplay());
        HoldingShutter longer = At(100, 15).LongestShutter(QuarterMetre, Allowed);
        Assert.Equal(163, 1 / longer.Exact!.Seconds, 163 * 0.01);
        Assert.Equal("1/200 s", longer.ToDisplay());
        Assert.Equal(0.172, At(100, 15).Smear(QuarterMetre, ShutterTime.FromMarking(1 / 160.0)).Millimetres * 600 / 36, 0.172 * 0.01);
        // 24 mm from 5 m is about the same.
        Assert.Equal(1, At(24, 5).Scale / At(50, 10).Scale, 0.05);
    }

    // Answer 14 and A6: 24 mm, a circle of 0.015 mm: hyperfocal 3.4 m at f/11, 4.8 m at f/8; diffraction on the print f/8 0.08, f/11 0.11, f/16 0.15, f/22 0.21 mm.
    [Fact]
    public void What_the_aperture_does_to_depth_and_sharpness()
    {
        var lens = Lens.Of(Length.FromMillimetres(24));
        Length circle = Length.FromMillimetres(0.015);
        Assert.Equal(3.4, lens.Hyperfocal(FNumber.FromMarking(11), circle).Metres, 0.05);
        Assert.Equal(4.8, lens.Hyperfocal(FNumber.FromMarking(8), circle).Metres, 0.05);
        foreach ((double mark, double millimetres) in new[] { (8, 0.08), (11, 0.11), (16, 0.15), (22, 0.21) })
            Assert.Equal(millimetres, Diffraction.FullWidthAtHalfMaximum(FNumber.FromMarking(mark), Diffraction.GreenLight).Millimetres * 600 / 36, 0.005);
    }

    // Answer 23: open sky before sunrise gains 1 stop in 4 to 5 minutes: a pair within 0.2 stop has one minute at most.
    [Fact]
    public void A_pair_at_dawn_has_a_minute()
    {
        Assert.Equal(60, LightDrift.TimeFor(Stops.Of(0.2), Stops.Of(1 / 5.0))!.Value.TotalSeconds, 0.5);
        Assert.Equal(48, LightDrift.TimeFor(Stops.Of(0.2), Stops.Of(1 / 4.0))!.Value.TotalSeconds, 0.5);
    }
}
