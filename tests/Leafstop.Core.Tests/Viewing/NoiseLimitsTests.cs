using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Viewing;

public sealed class NoiseLimitsTests
{
    private static readonly PrintCondition Usual = new(600, 600);
    private static readonly LimitTags Tags = new("Body A, 14-bit raw", Usual, ToneKind.Smooth, NoiseTreatment.None);

    // Published: job, answer 1 and E1: clean 800 (640 to 1000), stretch 3200 (2500 to 4000), after about 40 answers each.
    private static readonly LimitEvidence Evidence = new(
        new DateOnly(2026, 11, 14),
        JudgedAnswers.Of(Iso.FromSpeed(640), Iso.FromSpeed(1000), Stops.Of(0.5), 41),
        JudgedAnswers.Of(Iso.FromSpeed(2500), Iso.FromSpeed(4000), Stops.Of(0.6), 44));

    private static readonly NoiseLimits Mine = NoiseLimits.Judged(Iso.FromSpeed(800), Iso.FromSpeed(3200), Tags, Evidence);

    [Fact]
    public void Judged_limits_carry_their_evidence_and_it_moves_along()
    {
        Assert.Equal(LimitOrigin.Judged, Mine.Origin);
        Assert.Equal(new DateOnly(2026, 11, 14), Mine.Evidence!.JudgedOn);
        NoiseLimits there = Mine.For(new PrintCondition(900, 600));
        Assert.Equal(356, there.Clean!.Speed, 0.5); // Published: E4.
        // Derived: the ends of the interval move by the same 1.17 stops; spread and answers stay.
        Assert.Equal(640 / 2.25, there.Evidence!.Clean!.Low.Speed, 1e-9);
        Assert.Equal(4000 / 2.25, there.Evidence.Stretch!.High.Speed, 1e-9);
        Assert.Equal((0.5, 41), (there.Evidence.Clean.Spread.Value, there.Evidence.Clean.Answers));
        Assert.NotEqual(Mine, NoiseLimits.Of(Iso.FromSpeed(800), Iso.FromSpeed(3200), Tags, LimitOrigin.Judged));
    }

    // Derived: the lift that a limit was judged with goes with it, and is never counted a second time.
    [Fact]
    public void A_lift_that_was_judged_stays_a_tag_and_is_told()
    {
        NoiseLimits opened = NoiseLimits.Judged(Iso.FromSpeed(800), Iso.FromSpeed(3200), Tags with { Lift = Stops.Of(4) }, Evidence);
        NoiseLimits used = opened.ForUse(new LimitUse { Lift = Stops.Of(1), Print = new PrintCondition(300, 600) }).Limits!;
        Assert.Equal(3200, used.Clean!.Speed, 1e-6);
        Assert.Equal(Stops.Of(4), used.Tags.Lift);
        Assert.Contains(used.Shifts, s => s.What == LimitShiftKind.Lift && s.Reason.Contains("judged with the dark lifted by 4 stops", StringComparison.Ordinal));
        Assert.Equal(400, opened.ForUse(new LimitUse { Lift = Stops.Of(5) }).Limits!.Clean!.Speed, 1e-6);
        Assert.NotEqual(Mine, NoiseLimits.Judged(Iso.FromSpeed(800), Iso.FromSpeed(3200), Tags with { Lift = Stops.Of(4) }, Evidence));
    }

    // Published: job, answer 25: two thirds of the width and a stop of lift cost 2.17: ISO 500 behaves like 2250, over clean 800 by 1.5, under stretch 3200 by 1/2.
    [Fact]
    public void A_crop_and_a_lift_together_cost_what_the_expert_says()
    {
        NoiseLimits limits = Mine.ForUse(new LimitUse { WidthKept = 2 / 3.0, Lift = Stops.Of(1) }).Limits!;
        Iso dialled = Iso.FromSpeed(500);
        Assert.Equal(1.5, dialled.Above(limits.Clean!).Value, 0.02);
        Assert.Equal(-0.5, dialled.Above(limits.Stretch!).Value, 0.02);
        Assert.Equal([LimitShiftKind.Crop, LimitShiftKind.Lift], limits.Shifts.Select(s => s.What));
        Assert.All(limits.Shifts, s => Assert.False(string.IsNullOrWhiteSpace(s.Reason) || s.Reason.Contains('\n')));
    }

    // Published: job, answer 12: stretch lies two stops past clean, and a 30 cm print at 60 cm restores exactly those two.
    [Fact]
    public void A_print_of_half_the_width_makes_stretch_clean() =>
        Assert.Equal(3200, Mine.ForUse(new LimitUse { Print = new PrintCondition(300, 600) }).Limits!.Clean!.Speed, 1e-9);

    // Published: job, answer 21: a 1.5 times smaller format makes 800 about 356; part 0: texture forgives about a stop; answer 20: four frames are two stops.
    [Fact]
    public void Format_tone_and_averaging_convert_with_their_reasons()
    {
        LimitUse use = new() { Body = "Body B, 14-bit raw", Format = (Length.FromMillimetres(36), Length.FromMillimetres(24)) };
        NoiseLimits borrowed = Mine.ForUse(use).Limits!;
        Assert.Equal(356, borrowed.Clean!.Speed, 0.5);
        Assert.Equal("Body B, 14-bit raw", borrowed.Tags.Body);
        Assert.Contains("draw", borrowed.Shifts.Single().Reason, StringComparison.Ordinal);
        NoiseLimits rock = Mine.ForUse(new LimitUse { Tone = ToneKind.Textured, FramesAveraged = 4 }).Limits!;
        Assert.Equal(6400, rock.Clean!.Speed, 1e-6);
        Assert.Equal((ToneKind.Textured, HowKnown.RuleOfThumb), (rock.Tags.Tone, rock.Shifts[0].How));
    }

    // The job's trap: a limit applied to another print, body, tone or treatment is converted or refused, never silently reused.
    [Fact]
    public void What_no_rule_leads_to_is_refused_with_the_reason()
    {
        Refused(new LimitUse { Body = "Body A, 12-bit raw" }, "Body A, 12-bit raw");
        Refused(new LimitUse { Treatment = NoiseTreatment.Usual }, "the usual treatment");
        Refused(new LimitUse { Tone = ToneKind.Shadows }, "shadows");
        Refused(new LimitUse { Tone = ToneKind.MidGrey }, "mid-grey");

        static void Refused(LimitUse use, string names)
        {
            LimitAnswer answer = Mine.ForUse(use);
            Assert.Null(answer.Limits);
            Assert.Contains(names, answer.Refusal, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_use_they_hold_for_gets_them_as_they_are()
    {
        LimitUse same = new() { Body = Tags.Body, Print = Usual, Tone = ToneKind.Smooth, Treatment = NoiseTreatment.None };
        Assert.Same(Mine, Mine.ForUse(same).Limits);
        Assert.Empty(Mine.Shifts);
    }

    [Fact]
    public void Worked_out_limits_are_of_the_same_type_and_never_called_judged()
    {
        PredictedLimit predicted = new() { Tone = LimitTone.MidGrey, CleanExact = Iso.FromSpeed(412.5), Body = "Body A", Print = Usual, Treatment = "none" };
        NoiseLimits limits = NoiseLimits.Of(predicted);
        Assert.Equal((LimitOrigin.WorkedOut, 412.5, ToneKind.MidGrey), (limits.Origin, limits.Clean!.Speed, limits.Tags.Tone));
        Assert.Null(limits.Evidence);
        Assert.Null(limits.Stretch);
        Assert.NotNull(limits.ForUse(new LimitUse { Tone = ToneKind.Smooth }).Refusal);
    }

    [Fact]
    public void A_judged_limit_without_its_tags_or_evidence_is_refused()
    {
        Assert.Throws<ArgumentException>(() => NoiseLimits.Judged(Iso.FromSpeed(800), null, Tags with { Tone = ToneKind.NotStated }, Evidence with { Stretch = null }));
        Assert.Throws<ArgumentException>(() => NoiseLimits.Judged(Iso.FromSpeed(800), null, Tags, Evidence));
        Assert.Throws<ArgumentException>(() => NoiseLimits.Judged(Iso.FromSpeed(1600), null, Tags, Evidence with { Stretch = null }));
        Assert.Throws<ArgumentOutOfRangeException>(() => JudgedAnswers.Of(Iso.FromSpeed(640), Iso.FromSpeed(1000), Stops.Of(0.5), 0));
    }
}
