using CsCheck;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Viewing;

public sealed class LimitScalingTests
{
    private static readonly PrintCondition Usual = new(600, 600);
    private static readonly NoiseLimits Mine = NoiseLimits.Of(
        Iso.FromSpeed(800), Iso.FromSpeed(3200), new LimitTags("Body A", Usual, ToneKind.Smooth, NoiseTreatment.None), LimitOrigin.Given);

    // Published: job E4, the Long Wall, and answer 1. The job prints whole ISOs, 2222 as 2200.
    [Theory]
    [InlineData(900, 600, 356, 320, 0.5)]
    [InlineData(400, 600, 1800, 1600, 0.5)]
    [InlineData(600, 1000, 2200, 2000, 25)]
    [InlineData(1200, 1200, 800, 800, 1e-9)]
    [InlineData(600, 250, 139, 125, 0.5)]
    [InlineData(900, 900, 800, 800, 1e-9)]
    public void A_limit_goes_with_distance_over_width_squared(double width, double distance, double clean, double dial, double printed)
    {
        NoiseLimits there = Mine.For(new PrintCondition(width, distance));
        Assert.Equal(clean, there.Clean!.Speed, printed);
        Assert.Equal(dial, there.CleanDial!.Speed);
        Assert.Equal(2, there.Stretch!.Above(there.Clean).Value, 1e-12);
    }

    // Published: job E4 asks for a one-line reason each and the caveat on banding.
    [Fact]
    public void Every_conversion_gives_its_reason_in_one_line()
    {
        LimitShift shift = LimitScaling.Print(Usual, new PrintCondition(900, 600));
        Assert.Equal("1.5 times as wide, seen from just as far: the grain looks coarser, so the limit falls by 1.17 stops.", shift.Reason);
        Assert.Equal(HowKnown.WorkedOut, shift.How);
        Assert.Contains("the limit stays", LimitScaling.Print(Usual, new PrintCondition(1200, 1200)).Reason, StringComparison.Ordinal);
        Assert.Contains("Banding", LimitScaling.BandingCaveat, StringComparison.Ordinal);
        Assert.Same(Mine, Mine.For(Usual));
    }

    // Published: job, table of what to give up: 60 to 42 cm at the same distance is 1 stop; answer 12: 30 cm at 60 cm restores two.
    [Theory]
    [InlineData(424.264068711929, 1)]
    [InlineData(300, 2)]
    public void A_smaller_print_gives_stops_back(double width, double stops) =>
        Assert.Equal(stops, LimitScaling.Print(Usual, new PrintCondition(width, 600)).Stops.Value, 1e-9);

    // Published: job, answer 25 and the give-up table: keeping 2/3 of the width costs 1.17, keeping 1/3 costs 3.2.
    [Theory]
    [InlineData(2 / 3.0, -1.17, 0.005)]
    [InlineData(1 / 3.0, -3.2, 0.05)]
    [InlineData(1, 0, 1e-12)]
    public void A_crop_costs_stops(double kept, double stops, double printed) =>
        Assert.Equal(stops, LimitScaling.Crop(kept).Stops.Value, printed);

    // Published: job, answer 21: a 1.5 times smaller format has 1.17 stops less light, 800 becomes about 356, and f/11 becomes f/7.5, which gives it back.
    [Fact]
    public void A_smaller_format_is_a_draw_at_equal_depth()
    {
        Length full = Length.FromMillimetres(36), small = Length.FromMillimetres(24);
        LimitShift shift = LimitScaling.Format(full, small);
        Assert.Equal(-1.17, shift.Stops.Value, 0.005);
        Assert.Equal(356, Mine.Moved(shift).Clean!.Speed, 0.5);
        FNumber equal = LimitScaling.EqualDepth(FNumber.FromMarking(11), full, small);
        Assert.Equal(7.5, equal.Ratio, 0.05);
        Assert.Equal(-shift.Stops.Value, 2 * Math.Log2(FNumber.FromMarking(11).Ratio / equal.Ratio), 1e-12);
    }

    // Published: job, answer 20: 4 frames are 2 stops, 8 are 3. PRN-03: the mean of 4 has half the noise, which is 2 stops of light and 1 of noise.
    [Theory]
    [InlineData(1, 0)]
    [InlineData(4, 2)]
    [InlineData(8, 3)]
    public void Averaged_frames_are_stops_of_light(int frames, double stops) =>
        Assert.Equal(stops, LimitScaling.Averaging(frames).Stops.Value, 1e-12);

    // Published: job, part 0: textured tones are about 1 stop more forgiving, a rule of thumb; a tone without a rule is refused.
    [Fact]
    public void Tones_convert_by_a_rule_of_thumb_or_not_at_all()
    {
        LimitShift texture = LimitScaling.Tone(ToneKind.Smooth, ToneKind.Textured)!;
        Assert.Equal((1, HowKnown.RuleOfThumb), (texture.Stops.Value, texture.How));
        Assert.Equal(-1, LimitScaling.Tone(ToneKind.Textured, ToneKind.Smooth)!.Stops.Value);
        Assert.Null(LimitScaling.Tone(ToneKind.NotStated, ToneKind.Smooth));
    }

    // Derived: a limit that was judged with the dark lifted by 4 stops holds for that; 5 stops go 1 beyond, 1 stop is in it already, and less than was judged raises nothing.
    [Theory]
    [InlineData(5, 4.0, -1, "goes beyond it and counts")]
    [InlineData(1, 4.0, 0, "is in it already")]
    [InlineData(1, 0.0, -1, "Lifted shadows carry only")]
    [InlineData(1, null, -1, "Lifted shadows carry only")]
    public void Only_a_lift_beyond_the_judged_one_moves_a_limit(double lift, double? judged, double stops, string reason)
    {
        LimitShift shift = LimitScaling.Lift(Stops.Of(lift), judged is { } known ? Stops.Of(known) : null);
        Assert.Equal(stops, shift.Stops.Value, 1e-12);
        Assert.Contains(reason, shift.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_limit_that_stays_moves_by_nothing_in_words_too() =>
        Assert.EndsWith("so the limit stays.", LimitScaling.Print(Usual, new PrintCondition(2 * Usual.WidthMm, 2 * Usual.ViewingDistanceMm)).Reason, StringComparison.Ordinal);

    // Derived: there and back is where it was; distance that grows with the print changes nothing.
    [Fact]
    public void Conversions_can_be_undone() =>
        Gen.Select(Gen.Double[50, 5000], Gen.Double[50, 5000], Gen.Double[0.1, 10]).Sample((width, distance, factor) =>
        {
            PrintCondition other = new(width, distance);
            double back = Mine.For(other).For(Usual).Clean!.Above(Mine.Clean!).Value;
            double scaled = LimitScaling.Print(other, new PrintCondition(width * factor, distance * factor)).Stops.Value;
            return Math.Abs(back) < 1e-9 && Math.Abs(scaled) < 1e-9;
        });

    [Fact]
    public void What_cannot_be_converted_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => LimitScaling.Crop(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => LimitScaling.Crop(1.01));
        Assert.Throws<ArgumentOutOfRangeException>(() => LimitScaling.Lift(Stops.Of(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => LimitScaling.Averaging(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => LimitScaling.Print(Usual, new PrintCondition(0, 600)));
        Assert.Throws<ArgumentException>(() => NoiseLimits.Of(Iso.FromSpeed(3200), Iso.FromSpeed(800), Mine.Tags, LimitOrigin.Given));
    }
}
