using Leafstop.Core.Judging;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Judging;

public sealed class JudgingResultTests
{
    private static readonly LimitTags Tags = new("Body A, 14-bit raw", new PrintCondition(600, 600), ToneKind.Smooth, NoiseTreatment.None);
    private static readonly DateOnly Day = new(2026, 3, 1);

    // Derived: a third is 100 · 2^(n/3); intervals are rounded outwards to it, as they are told, so 2.8 to 3.3 stops is 640 to 1000.
    [Fact]
    public void Day_interval_spread_and_answers_travel_with_the_limits()
    {
        NoiseLimits limits = new JudgingResult(Tags, Read(JudgingQuestion.Disturbs, 3.05, 2.8, 3.3, 35), Read(JudgingQuestion.WouldSign, 5, 4.7, 5.3, 41)).ToLimits(Day)!;
        Assert.Equal((LimitOrigin.Judged, Tags, Day), (limits.Origin, limits.Tags, limits.Evidence!.JudgedOn));
        Assert.Equal(["800", "3200"], [limits.Clean!.ToDisplay(), limits.Stretch!.ToDisplay()]);
        JudgedAnswers clean = limits.Evidence.Clean!, stretch = limits.Evidence.Stretch!;
        Assert.Equal(["640", "1000", "2500", "4000"], [clean.Low.ToDisplay(), clean.High.ToDisplay(), stretch.Low.ToDisplay(), stretch.High.ToDisplay()]);
        Assert.Equal((0.5, 35, 41), (clean.Spread.Value, clean.Answers, stretch.Answers));
        // Derived: half the width moves a limit and its interval by two stops.
        NoiseLimits half = limits.ForUse(new LimitUse { Print = new PrintCondition(300, 600) }).Limits!;
        Assert.Equal(4, half.Evidence!.Clean!.High.Speed / clean.High.Speed, 1e-9);
    }

    // A stretch limit a little below clean, each sure in its own way: however the two meet, the joint limit lies in both intervals that are told, and neither got narrower.
    [Theory]
    [InlineData(3.0, 2.9, 3.1, 2.6, 1.7, 3.5)]
    [InlineData(3.0, 2.1, 3.9, 2.1, 2.0, 2.2)]
    [InlineData(3.0, 2.2, 3.8, 2.1, 1.9, 2.3)]
    [InlineData(3.5, 2.34, 4.3, 2.1, 1.95, 2.35)]
    [InlineData(3.0, 2.95, 3.05, 2.94, 2.89, 2.99)]
    [InlineData(3.34, 3.0, 3.7, 3.32, 3.0, 3.6)]
    public void Limits_that_meet_become_one_inside_both_intervals(double clean, double cleanLow, double cleanHigh, double stretch, double stretchLow, double stretchHigh)
    {
        JudgingResult result = new(Tags, Read(JudgingQuestion.Disturbs, clean, cleanLow, cleanHigh, 40), Read(JudgingQuestion.WouldSign, stretch, stretchLow, stretchHigh, 40));
        Assert.False(result.IsContradictory);
        NoiseLimits limits = result.ToLimits(Day)!;
        Assert.True(limits.Clean! <= limits.Stretch!);
        Assert.InRange(Math.Log2(limits.Clean!.Speed / 100), stretch - 0.17, clean + 0.17);
        foreach ((JudgedAnswers told, double low, double high) in ((JudgedAnswers, double, double)[])[(limits.Evidence!.Clean!, cleanLow, cleanHigh), (limits.Evidence.Stretch!, stretchLow, stretchHigh)])
        {
            Assert.True(told.Low <= limits.Clean && limits.Clean <= told.High);
            Assert.InRange(low, Math.Log2(told.Low.Speed / 100) - 1e-9, high);
            Assert.InRange(high, low, Math.Log2(told.High.Speed / 100) + 1e-9);
        }
    }

    [Fact]
    public void One_limit_comes_alone_and_a_contradiction_gives_none()
    {
        QuestionReading none = Read(JudgingQuestion.WouldSign, 5, 4, 6, 60) with { Outcome = LimitOutcome.AboveLadder, LimitStops = null, SpreadStops = null };
        NoiseLimits alone = new JudgingResult(Tags, Read(JudgingQuestion.Disturbs, 3, 2.7, 3.3, 30), none).ToLimits(Day)!;
        Assert.Null(alone.Stretch);
        Assert.Null(alone.Evidence!.Stretch);
        JudgingResult contrary = new(Tags, Read(JudgingQuestion.Disturbs, 5, 4.7, 5.3, 30), Read(JudgingQuestion.WouldSign, 3, 2.7, 3.3, 30));
        Assert.True(contrary.IsContradictory);
        Assert.False(contrary.HasLimits);
        Assert.Null(contrary.ToLimits(Day));
    }

    private static QuestionReading Read(JudgingQuestion question, double stops, double low, double high, int answers) => new()
    {
        Question = question,
        Answers = answers,
        Blanks = answers / 5,
        BlanksRefused = 0,
        Outcome = high - low <= 2 / 3.0 ? LimitOutcome.Reached : LimitOutcome.Wide,
        LimitStops = new Estimate(stops, low, high),
        SpreadStops = 0.5,
    };
}
