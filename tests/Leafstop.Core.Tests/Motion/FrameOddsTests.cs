using CsCheck;
using Leafstop.Core.Motion;

namespace Leafstop.Core.Tests.Motion;

public sealed class FrameOddsTests
{
    // W-25 (derived, checked numerically there): 1 − (1−p)^n, four decimals given.
    [Theory]
    [InlineData(0.2, 5, 0.6723)]
    [InlineData(0.2, 10, 0.8926)]
    [InlineData(0.1, 10, 0.6513)]
    [InlineData(0.1, 20, 0.8784)]
    public void At_least_one_of_some_fresh_tries(double each, int frames, double expected) =>
        Assert.Equal(expected, FrameOdds.AtLeastOne(Chance.Of(each), frames).Share, 1e-4);

    // W-25 for 20 % and 10 %; the other three are Derived (the job's own worked figures). Counts are whole numbers: no tolerance.
    [Theory]
    [InlineData(0.5, 5)]
    [InlineData(0.3, 9)]
    [InlineData(0.2, 14)]
    [InlineData(0.1, 29)]
    [InlineData(0.05, 59)]
    public void Frames_for_ninety_five_per_cent(double each, int frames) =>
        Assert.Equal(frames, FrameOdds.FramesFor(Chance.Of(each), Chance.UsuallySure));

    // Derived: worked figures of the job. Four areas, each still a third of the time, take 242 frames for one perfect frame and 11 for a
    // blend; each at one half, 47 and 7.
    [Theory]
    [InlineData(1 / 3.0, 242, 11)]
    [InlineData(0.5, 47, 7)]
    public void Four_areas_take_many_frames_for_one_and_few_for_a_blend(double perArea, int oneFrame, int blended)
    {
        BlendOdds odds = BlendOdds.CompareAlike(Chance.Of(perArea), 4, Chance.UsuallySure);
        Assert.Equal((oneFrame, blended), (odds.SingleFrames, odds.BlendFrames));
        Assert.Equal(Math.Pow(perArea, 4), odds.AllInOneFrame.Share, 1e-12);
    }

    [Fact]
    public void No_chance_at_all_is_not_a_number_of_frames()
    {
        Assert.Null(FrameOdds.FramesFor(default, Chance.UsuallySure));
        BlendOdds odds = BlendOdds.Compare([Chance.Of(0.9), default], Chance.UsuallySure);
        Assert.Null(odds.SingleFrames);
        Assert.Null(odds.BlendFrames);
        Assert.Equal(1, FrameOdds.FramesFor(Chance.Of(1), Chance.UsuallySure));
        Assert.Equal(0, FrameOdds.AtLeastOne(Chance.Of(0.5), 0).Share);
    }

    // Derived: for small p the chance is n·p − …, with all digits kept; a naive 1 − (1−p)ⁿ has four of them left here.
    [Fact]
    public void A_very_small_chance_keeps_its_digits()
    {
        Assert.Equal(3e-12, FrameOdds.AtLeastOne(Chance.Of(1e-12), 3).Share, 1e-23);
        Assert.Equal(1 - Math.Pow(0.99, 50), FrameOdds.AtLeastOne(Chance.Of(0.01), 50).Share, 1e-14);
        Assert.Equal(1, FrameOdds.AtLeastOne(Chance.Of(0.9), int.MaxValue).Share);
    }

    [Fact]
    public void What_cannot_be_asked_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => FrameOdds.FramesFor(Chance.Of(0.5), Chance.Of(1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => FrameOdds.AtLeastOne(Chance.Of(0.5), -1));
        Assert.Throws<ArgumentException>(() => FrameOdds.AllInOneFrame([]));
        Assert.Throws<ArgumentOutOfRangeException>(() => BlendOdds.CompareAlike(Chance.Of(0.5), 0, Chance.UsuallySure));
        foreach (double share in new[] { -0.01, 1.01, double.NaN })
            Assert.Throws<ArgumentOutOfRangeException>(() => Chance.Of(share));
    }

    // Derived: the count is the first that reaches the chance asked for, and one frame fewer does not.
    [Fact]
    public void The_count_is_the_smallest_that_is_enough() =>
        Gen.Select(Gen.Double[0.001, 0.999], Gen.Double[0.01, 0.999]).Sample((each, sure) =>
        {
            int frames = FrameOdds.FramesFor(Chance.Of(each), Chance.Of(sure))!.Value;
            // 1e-8: the count forgives a miss of 1e-9 of a frame.
            return FrameOdds.AtLeastOne(Chance.Of(each), frames).Share >= sure - 1e-8
                && (frames == 1 || FrameOdds.AtLeastOne(Chance.Of(each), frames - 1).Share < sure);
        });

    [Fact]
    public void A_better_chance_never_takes_more_frames_and_a_blend_never_more_than_one_frame() =>
        Gen.Select(Gen.Double[0.05, 0.99], Gen.Double[0.05, 0.99], Gen.Int[1, 5]).Sample((a, b, areas) =>
        {
            BlendOdds worse = BlendOdds.CompareAlike(Chance.Of(Math.Min(a, b)), areas, Chance.UsuallySure);
            BlendOdds better = BlendOdds.CompareAlike(Chance.Of(Math.Max(a, b)), areas, Chance.UsuallySure);
            return better.SingleFrames <= worse.SingleFrames && better.BlendFrames <= worse.BlendFrames && worse.BlendFrames <= worse.SingleFrames;
        });
}
