using Leafstop.Core.Judging;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;
using Leafstop.Testing.Judging;

namespace Leafstop.Core.Tests.Judging;

public sealed class ChoiceOfTwoTests
{
    // Published: PSY-05, R package psyphy; 1e-5.
    [Theory]
    [InlineData(0.75, 0.953873)]
    [InlineData(0.7071, 0.770651)]
    [InlineData(0.9, 1.812388)]
    public void Separation_of_a_share_right(double share, double expected) => Assert.Equal(expected, ChoiceOfTwo.Separation(Chance.Of(share)), 1e-5);

    // Published: PSY-07, two choices at d' = 1.
    [Fact]
    public void Share_right_of_a_separation() => Assert.Equal(0.7602499, ChoiceOfTwo.ShareRight(1).Share, 1e-6);

    // Derived: PSY-21, binomial tail.
    [Theory]
    [InlineData(32, 50, 0.0324543)]
    [InlineData(60, 100, 0.0284440)]
    public void Chance_of_guessing_so_well(int right, int answers, double expected) => Assert.Equal(expected, ChoiceOfTwo.OfGuessing(right, answers).Share, 1e-7);

    // Derived: PSY-19, the exact (beta) interval of 38 right answers of 50; 1e-6.
    [Fact]
    public void Interval_of_the_share_right()
    {
        SideBySideResult result = SideBySideResult.Of(Iso.FromMarking(400), Iso.FromMarking(1600), right: 38, ties: 0, answers: 50);
        Assert.Equal(0.6183093, result.Interval.Low.Share, 1e-6);
        Assert.Equal(0.8693901, result.Interval.High.Share, 1e-6);
    }

    // Derived: a choice of two with Weibull slopes 2.5, 3.5 and 6 (PSY-09's form, lapse 2 %), 200 checks of 20 trials each. Seen far above the eye's own threshold, not seen well below it:
    // a guesser passes P(X >= 15 of 20) = 0.0207 of the checks, at most 11 of 200 in all but one of ten thousand.
    [Theory]
    [InlineData(2.5)]
    [InlineData(3.5)]
    [InlineData(6)]
    public void A_difference_is_seen_where_the_eye_sees_it_and_only_there(double slope)
    {
        Assert.True(Seen(contrast: 2, slope) >= 190);
        Assert.True(Seen(contrast: 0.1, slope) <= 11);
    }

    [Fact]
    public void The_check_never_gives_a_limit_and_says_so()
    {
        SideBySideCheck check = SideBySideCheck.Begin(3, Iso.FromMarking(400), Iso.FromMarking(1600), ToneKind.Smooth);
        Assert.Null(check.Result());
        while (check.Next() is { } trial)
        {
            SideBySidePictures pictures = check.Pictures(trial.Token);
            check.Answer(trial.Token, pictures.Left > pictures.Right ? SideReply.Left : SideReply.Right);
        }

        SideBySideResult result = check.Result()!;
        Assert.True(result.IsSeen);
        Assert.Equal(result.Answers, result.Right);
        Assert.Contains("limit", result.ToSentence(), StringComparison.Ordinal);
    }

    // Derived: the draws are fair coins, independent of each other; 200 of them lie within 4 standard errors (28) of 100, and each of the four pairs of frames within 4 of 50 (24).
    [Fact]
    public void Sides_and_frames_change_so_that_no_grain_goes_with_an_answer()
    {
        SideBySideCheck check = SideBySideCheck.Begin(5, Iso.FromMarking(400), Iso.FromMarking(1600), ToneKind.Smooth, 200);
        List<SideBySidePictures> shown = [];
        while (check.Next() is { } trial)
        {
            shown.Add(check.Pictures(trial.Token));
            check.Answer(trial.Token, SideReply.Same);
        }

        Assert.InRange(shown.Count(p => p.Left > p.Right), 72, 128);
        Assert.All(shown.CountBy(p => (p.IsSecondFrameLeft, p.IsSecondFrameRight)), pair => Assert.InRange(pair.Value, 26, 74));
        Assert.InRange(shown.Count(p => p.Left > p.Right == p.IsSecondFrameLeft), 72, 128);
    }

    // Derived: a coin passes P(X >= 15 of 20) = 0.0207 of checks, and a finger that always points left is right in half of the drawn sides.
    [Fact]
    public void Who_does_not_look_sees_nothing() =>
        Assert.True(Seen(200, run => new SideBySideObserver(run) { AlwaysLeft = true }, contrast: 2) <= 11);

    private static int Seen(double contrast, double slope) => Seen(200, run => new SideBySideObserver(500 + run) { Slope = slope }, contrast);

    private static int Seen(int runs, Func<int, SideBySideObserver> eye, double contrast) =>
        Enumerable.Range(0, runs).Count(run => eye(run).Judge(SideBySideCheck.Begin(run, Iso.FromMarking(400), Iso.FromMarking(1600), ToneKind.Smooth), contrast).IsSeen);
}
