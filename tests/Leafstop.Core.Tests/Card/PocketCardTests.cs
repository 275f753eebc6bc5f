using Leafstop.Core.Card;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Card;

public sealed class PocketCardTests
{
    private static readonly PocketCard Card = PocketCard.Of(CardTextTests.BodyA, new CardWish
    {
        Lenses = [Length.FromMillimetres(24), Length.FromMillimetres(35), Length.FromMillimetres(70)],
        Format = FrameFormat.FullFrame,
    });

    // Derived: the worked ladder of the job, which marks 800 clean and 3200 stretch.
    [Theory]
    [InlineData(0, 100, PlanVerdict.Clean)]
    [InlineData(3, 200, PlanVerdict.Clean)]
    [InlineData(4, 250, PlanVerdict.Clean)]
    [InlineData(5, 320, PlanVerdict.Clean)]
    [InlineData(6, 400, PlanVerdict.Clean)]
    [InlineData(7, 500, PlanVerdict.Clean)]
    [InlineData(8, 640, PlanVerdict.Clean)]
    [InlineData(9, 800, PlanVerdict.Clean)]
    [InlineData(10, 1000, PlanVerdict.Stretch)]
    [InlineData(12, 1600, PlanVerdict.Stretch)]
    [InlineData(15, 3200, PlanVerdict.Stretch)]
    [InlineData(16, 4000, PlanVerdict.Beyond)]
    public void The_ladder_is_the_one_of_the_job(int thirds, double dial, PlanVerdict verdict)
    {
        CardRung rung = Card.Ladder[thirds];
        Assert.Equal((dial, verdict), (rung.Dial.Speed, rung.Answer.Verdict));
        Assert.Equal(Stops.FromThirds(thirds), rung.Gap);
    }

    // Derived: the two recurring scenes of the job, planned, stand on the ladder with the same ISO, verdict and spare.
    [Theory]
    [InlineData("f/11", "1/4", "6 2/3", 500, 2 / 3.0)]
    [InlineData("f/8", "1/60", "9", 800, 0)]
    [InlineData("f/8", "1/125", "9", 1600, -1)]
    public void A_plan_of_a_scene_says_what_its_rung_says(string aperture, string shutter, string light, double dial, double spare)
    {
        ExposurePlan plan = Planner.Plan(new Scene
        {
            Aperture = FNumber.Parse(aperture),
            Shutter = ShutterTime.Parse(shutter),
            Metered = ExposureValue.Parse(light),
            BaseIso = Card.Text.BaseIso,
            Limits = Card.Limits,
        });
        CardRung rung = Card.Ladder.Single(r => Math.Abs(r.Gap.Value - plan.Answer.Gap.Value) < 1e-9);
        Assert.Equal((dial, dial), (plan.Iso.Dial.Speed, rung.Dial.Speed));
        Assert.Equal(plan.Answer.Verdict, rung.Answer.Verdict);
        Assert.Equal(spare, rung.Answer.SpareToClean!.Value.Value, 1e-9);
    }

    // Derived: the job's own list of what is cheapest to give up, in its order of loss.
    [Fact]
    public void What_can_be_given_up_gains_what_the_job_says() => Assert.Equal(
        [("wait for a lull", 1, 3), ("polariser off", 1.5, 1.5), ("f/11 to f/8", 1, 1), ("twice the shutter", 1, 1), ("print 60 to 42 cm", 1, 1), ("average 4, still parts", 2, 2), ("noise reduction, smooth tones", 1, 2)],
        Card.GiveUp.Select(r => (r.Words, Math.Round(r.Least.Value, 9), Math.Round(r.Most.Value, 9))));

    // Derived: job.md's hyperfocal figures, 24 mm 3.4 m and 35 mm 7.3 m at f/11, to the figure it gives; its streak of 4 % at 35 mm, 6 m, 1 m/s is 1/4 s, 70 mm 1/8 s, from 12 m 1/4 s again.
    [Fact]
    public void The_lenses_have_the_worked_figures_of_the_job()
    {
        Assert.Equal([3.4, 7.3], Card.Lenses.Take(2).Select(l => Math.Round(l.Hyperfocal[1].Metres, 1)));
        Assert.Equal(4.8, Card.Lenses[0].Hyperfocal[0].Metres, 0.05);
        Assert.Equal(["1/4 s", "1/8 s", "1/4 s"], new[] { Card.Lenses[1].Water[1], Card.Lenses[2].Water[1], Card.Lenses[2].Water[2] }.Select(t => t.ToDisplay()));
        // 25 cm/s smears 0.1745 mm on the print in 1/160 s at 35 mm from 6 m, as the exact figure of Motion says.
        Assert.Equal("1/160 s", Card.Lenses[1].Leaves[1].ToDisplay());
        Assert.Equal([(2, 5), (3, 8), (5, 14), (10, 29)], Card.Odds.Select(o => (o.OneIn, o.Frames)));
        Assert.Equal(0.015, Card.CircleOfConfusion.Millimetres, 0.0001);
        // The job: about 4.7; its figure has one decimal.
        Assert.Equal(4.7, Card.Zoom, 0.05);
        // 2 log2 1.5 = 1.17.
        Assert.Equal(2 * Math.Log2(1.5), Card.CropCosts.Value, 1e-9);
    }

    [Fact]
    public void Without_limits_the_ladder_says_that_it_cannot_say()
    {
        PocketCard unknown = PocketCard.Of(CardTextTests.BodyA with { Limits = null }, Card.Wish);
        Assert.Equal(19, unknown.Ladder.Length);
        Assert.All(unknown.Ladder, r => Assert.Equal(PlanVerdict.Unknown, r.Answer.Verdict));
        Assert.DoesNotContain(unknown.GiveUp, r => r.Words.StartsWith("print", StringComparison.Ordinal));
    }

    [Fact]
    public void A_larger_print_lowers_the_limits_on_the_ladder()
    {
        // E4 of the job: 90 cm from 60 cm is 356 clean, dial 320.
        PocketCard large = PocketCard.Of(CardTextTests.BodyA with { Print = new PrintCondition(900, 600), Limits = CardTextTests.BodyA.Limits }, Card.Wish);
        Assert.Equal(320, large.Limits!.CleanDial!.Speed);
        Assert.Equal(PlanVerdict.Clean, large.Ladder[5].Answer.Verdict);
        Assert.Equal(PlanVerdict.Stretch, large.Ladder[6].Answer.Verdict);
    }

    /// <summary>Body A as measured, nobody judged it: limits by the criterion, for a print.</summary>
    private static PocketCard WorkedOut(double width, double distance)
    {
        PrintCondition print = new(width, distance);
        WorkedOutLimits worked = WorkedOutLimits.Of("Body A", CardTextTests.BodyA.Curve!, CardTextTests.BodyA.Camera, print, LimitTone.MidGrey)!;
        CardText text = CardTextTests.BodyA with { Limits = worked.Reached, MeasuredTo = worked.MeasuredTo, JudgedOn = null, CleanRange = null, Print = print };
        // As it comes back from the paper.
        return PocketCard.Of(CardText.Parse(text.ToString()), Card.Wish);
    }

    // Derived: a print so small and so far that the criterion holds at all that was measured. The ladder ends there, clean throughout, and no limit is made of its end.
    [Fact]
    public void A_ladder_that_ends_inside_clean_has_no_limits_and_says_how_far_it_was_measured()
    {
        PocketCard card = WorkedOut(100, 3000);
        Assert.Null(card.Limits);
        Assert.Equal((6400, true), (card.MeasuredTo!.Speed, card.IsCleanThroughout));
        Assert.Equal(6400, card.Ladder[^1].Dial.Speed);
        Assert.All(card.Ladder, r => Assert.Equal(PlanVerdict.Clean, r.Answer.Verdict));
        // Nothing to give a print up for.
        Assert.DoesNotContain(card.GiveUp, r => r.Words.StartsWith("print", StringComparison.Ordinal));
        Assert.DoesNotMatch("(?m)^(limits|clean|stretch) ", card.Text.ToString());
        // For another print the levels are asked again, as everywhere.
        Assert.NotNull(card.Text.LimitsFor(new PrintCondition(2000, 600)));
    }

    // Derived: between the two prints lies one whose clean limit was reached and whose stretch limit was not.
    [Fact]
    public void A_ladder_that_ends_inside_stretch_has_the_clean_limit_alone()
    {
        PocketCard card = Enumerable.Range(1, 60).Select(step => WorkedOut(2000 / Math.Pow(2, step / 8.0), 600)).First(c => c.MeasuredTo is not null);
        Assert.False(card.IsCleanThroughout);
        Assert.NotNull(card.Limits!.Clean);
        Assert.Null(card.Limits.Stretch);
        Assert.Equal(6400, card.Ladder[^1].Dial.Speed);
        Assert.Equal([PlanVerdict.Clean, PlanVerdict.Stretch], card.Ladder.Select(r => r.Answer.Verdict).Distinct());
    }

    // Derived: where both limits were reached nothing is said of how far was measured.
    [Fact]
    public void A_ladder_that_reaches_both_limits_is_as_before()
    {
        PocketCard card = WorkedOut(2000, 600);
        Assert.Null(card.MeasuredTo);
        Assert.True(card.Limits!.Clean! < card.Limits.Stretch!);
    }
}
