using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Judging;

public sealed class PaperAnswersTests
{
    [Fact]
    public void No_level_stands_beside_itself()
    {
        for (int levels = 3; levels <= 14; levels++)
        {
            JudgingLadder ladder = JudgingLadder.Of(Enumerable.Range(0, levels).Select(i => new LadderIso(Iso.FromMarking(100 * Math.Pow(2, i)), true)));
            for (int seed = 1; seed <= 50; seed++)
            {
                BlindCodes codes = BlindCodes.For(seed, ladder, Math.Min(4, levels));
                Assert.DoesNotContain(codes.Codes.Zip(codes.Codes.Skip(1)), pair => pair.First.Shown.Iso == pair.Second.Shown.Iso);
            }
        }
    }

    private static readonly LimitTags Tags = new("Body A, 14-bit raw", new PrintCondition(600, 600), ToneKind.Smooth, NoiseTreatment.None);

    private static BlindCodes Key(long seed) =>
        BlindCodes.For(seed, JudgingLadder.Of(((double[])[100, 200, 400, 800, 1600, 3200, 6400, 12800]).Select(i => new LadderIso(Iso.FromMarking(i), true))));

    [Fact]
    public void Letters_are_drawn_by_the_seed_and_hide_the_order()
    {
        Assert.Equal(Key(4).Codes, Key(4).Codes);
        Assert.NotEqual(Key(4).Codes, Key(5).Codes);
        Assert.Equal(13, Key(4).Codes.Length);
        Assert.Single(Key(4).Codes, c => c.IsBlank);
        Assert.Equal(4, Key(4).Codes.GroupBy(c => (c.Shown.Iso, c.IsBlank)).Count(g => g.Count() == 2));
        Assert.DoesNotContain(Key(4).Codes, c => c.Letter is "I" or "O");
        Assert.NotEqual(Key(4).Codes.Select(c => c.Shown.EquivalentStops).Order(), Key(4).Codes.Select(c => c.Shown.EquivalentStops));
    }

    [Fact]
    public void Case_separators_and_groups_of_letters_do_not_matter()
    {
        BlindCodes key = Key(1);
        PaperAnswers answers = PaperAnswers.Read("a: Clean; b=NO\nc d e - bearable, F unsure", key);
        Assert.Equal([PaperWord.Clean, PaperWord.No, PaperWord.Bearable, PaperWord.Bearable, PaperWord.Bearable, PaperWord.Unsure], answers.Words.Values);
        Assert.Equal(["G", "H", "J", "K", "L", "M", "N"], answers.Missing);
    }

    [Theory]
    [InlineData("A clean, Z no", "no crop 'Z'")]
    [InlineData("A clean, B no, A no", "called both clean and no")]
    [InlineData("A clean, B", "B has no answer")]
    [InlineData("clean A", "no letter before it")]
    [InlineData("A lovely", "'lovely' is no answer")]
    [InlineData("A clean, B no", "too few")]
    [InlineData("", "too few")]
    public void What_cannot_be_read_is_said_in_a_sentence(string text, string reason)
    {
        Assert.False(PaperAnswers.TryRead(text, Key(1), out PaperAnswers? answers, out string why));
        Assert.Null(answers);
        Assert.Contains(reason, why, StringComparison.Ordinal);
    }

    // Derived: clean up to 800, bearable up to 3200: each limit lies between the last yes and the first no, a third of a stop either way.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_consistent_eye_finds_its_limits_on_paper(long seed)
    {
        BlindCodes key = Key(seed);
        JudgingResult result = PaperAnswers.Read(string.Join(", ", key.Codes.Select(c => $"{c.Letter} {(c.Shown.Equivalent.Speed < 1000 ? "clean" : c.Shown.Equivalent.Speed < 4000 ? "bearable" : "no")}")), key).Judge(Tags);
        Assert.InRange(result.Clean.LimitStops!.Value.Value, 3 - (1 / 3.0), 4 + (1 / 3.0));
        Assert.InRange(result.Stretch.LimitStops!.Value.Value, 5 - (1 / 3.0), 6 + (1 / 3.0));
        NoiseLimits limits = result.ToLimits(new DateOnly(2026, 3, 1))!;
        Assert.Equal((LimitOrigin.Judged, Tags, new DateOnly(2026, 3, 1)), (limits.Origin, limits.Tags, limits.Evidence!.JudgedOn));
    }

    // Derived: one answer every time tells on which side of the ladder the limit lies, and no limit.
    [Theory]
    [InlineData("clean", LimitOutcome.AboveLadder, "above the noisiest shown, because you never", LimitOutcome.AboveLadder, "above the noisiest shown, because you never said no")]
    [InlineData("bearable", LimitOutcome.BelowLadder, "below the cleanest shown, because you called the noise disturbing every time", LimitOutcome.AboveLadder, "above the noisiest shown")]
    [InlineData("no", LimitOutcome.BelowLadder, "below the cleanest shown", LimitOutcome.BelowLadder, "below the cleanest shown, because you said no every time")]
    [InlineData("unsure", LimitOutcome.NotByNoise, "do not depend on the noise", LimitOutcome.NotByNoise, "do not depend on the noise")]
    public void An_eye_that_calls_everything_the_same_is_told_on_which_side_its_limit_lies(string word, LimitOutcome clean, string cleanWords, LimitOutcome stretch, string stretchWords)
    {
        BlindCodes key = Key(1);
        JudgingResult result = PaperAnswers.Read(string.Join(", ", key.Codes.Select(c => $"{c.Letter} {word}")), key).Judge(Tags);
        Assert.Equal((clean, stretch), (result.Clean.Outcome, result.Stretch.Outcome));
        Assert.Contains(cleanWords, result.ToSentences()[0], StringComparison.Ordinal);
        Assert.Contains(stretchWords, result.ToSentences()[1], StringComparison.Ordinal);
        Assert.Null(result.ToLimits(new DateOnly(2026, 3, 1)));
    }

    // The noisiest letter was passed over: nothing is known of what lies above those that were judged.
    [Fact]
    public void One_answer_to_a_part_of_the_ladder_says_nothing_of_its_end()
    {
        BlindCodes key = Key(1);
        JudgingResult result = PaperAnswers.Read(string.Join(", ", key.Codes.Where(c => c.Shown.Equivalent.Speed < 2000).Select(c => $"{c.Letter} clean")), key).Judge(Tags);
        Assert.Equal(LimitOutcome.NotByNoise, result.Clean.Outcome);
    }
}
