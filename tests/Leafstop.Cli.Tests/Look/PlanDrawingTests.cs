using System.Globalization;
using System.Xml.Linq;
using Leafstop.Core.Light;
using Leafstop.Core.Motion;
using Leafstop.Core.Optics;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Look.Plan;
using NodaTime;

namespace Leafstop.Cli.Tests.Look;

/// <summary>What pages draw of a plan.</summary>
public sealed class PlanDrawingTests
{
    private static readonly Scene Wood = new()
    {
        Aperture = FNumber.Parse("f/8"),
        Shutter = ShutterTime.Parse("1/60"),
        Metered = ExposureValue.Of(9),
        BaseIso = Iso.FromSpeed(100),
        Limits = NoiseLimits.Of(Iso.FromSpeed(800), Iso.FromSpeed(3200), new LimitTags("Body A", new PrintCondition(600, 600), ToneKind.NotStated, NoiseTreatment.NotStated), LimitOrigin.Given),
    };

    // Derived: the minutes of a light curve lead to the moments that the curve's own search finds, to the second.
    [Fact]
    public void Crossings_of_an_evening_are_those_that_the_light_curve_finds()
    {
        Instant from = Instant.FromUtc(2026, 10, 17, 15, 40);
        LightCurve curve = new(from, from + Duration.FromHours(4), Place.FromDegrees(50.1, -3.2), SkyConditions.OpenAndClear, []);
        LightEstimate[] rows = [.. curve.Table(Duration.FromMinutes(1))];
        ExposureValue asked = rows[60].Light;
        ExposurePlan plan = Planner.Plan(Wood with { Metered = asked });
        Evening evening = new(plan, from.ToDateTimeOffset(), [.. rows.Select(r => r.Light.Value)], [.. rows.Select(r => r.Uncertainty.Value)], asked.Value);
        foreach (Stops spare in (Stops[])[plan.Answer.SpareToClean!.Value, plan.Answer.SpareToStretch!.Value])
        {
            var expected = curve.Passes(asked - spare);
            var actual = evening.Passes(spare);
            Assert.Single(expected);
            Assert.Equal(expected.Length, actual.Count);
            Assert.InRange(Math.Abs((expected[0].Time.ToDateTimeOffset() - actual[0].At).TotalSeconds), 0, 1);
            Assert.Equal(!expected[0].IsBrightening, actual[0].IsDarkening);
        }
        Assert.Contains("leave clean at", evening.Title, StringComparison.Ordinal);
        Assert.Contains("pass stretch at", evening.Title, StringComparison.Ordinal);
        // Where the night asks for more than the drawing holds, the curve ends at its border and does not run along it.
        string curveDrawn = XElement.Parse(evening.Draw(new Markup()).ToString()).Descendants("path").First(p => (string?)p.Attribute("class") == "ln").Attribute("d")!.Value;
        double[][] points = [.. curveDrawn.Split('M', 'L').Skip(1).Select(point => point.Split(',').Select(n => double.Parse(n, CultureInfo.InvariantCulture)).ToArray())];
        Assert.All(points, point => Assert.InRange(point[1], 0, 100));
        Assert.Equal(0, points[^1][1]);
        Assert.Single(points, point => point[1] == 0);
        Assert.InRange(points[^1][0], 50, 99);
    }

    // Derived: the numbers of the notes are those of the rows that they speak for.
    [Fact]
    public void Every_row_frame_and_crossing_has_its_why_with_the_same_numbers()
    {
        Lens lens = Lens.Of(Length.FromMillimetres(50));
        ExposurePlan plan = Planner.Plan(Wood with
        {
            Metered = ExposureValue.Of(7),
            Depth = new DepthWish(DepthDemand.Of(lens, SubjectDistance.FromMetres(3), SubjectDistance.FromMetres(12)), FrameFormat.FullFrame),
            Water = WaterWish.For(WaterView.Of(lens, SubjectDistance.FromMetres(6), FrameFormat.FullFrame), Speed.FromMetresPerSecond(1), WaterLook.Textured),
            Leaves = new LeavesWish(MovingSubject.Of(lens, SubjectDistance.FromMetres(10)), new SpeedBand(Speed.FromMetresPerSecond(0.25), Speed.FromMetresPerSecond(0.25), Speed.FromMetresPerSecond(0.25)), FrameFormat.FullFrame, HowKnown.Measured),
        });
        IReadOnlyList<Statement> rows = PartsWhy.GiveUps(plan);
        Assert.Equal(plan.GiveUp.Length, rows.Count);
        Assert.All(plan.GiveUp.Zip(rows), pair =>
        {
            Assert.StartsWith(pair.First.Words, pair.Second.Text, StringComparison.Ordinal);
            Assert.Contains($"= {Number(pair.First.Gained.Value)} stops", pair.Second.Text, StringComparison.Ordinal);
            Assert.Contains($"2^gap = {Number(pair.First.Answer.Iso.Speed)}", pair.Second.Text, StringComparison.Ordinal);
        });
        TwoFrameRecipe two = plan.TwoFrames!;
        Assert.Equal(2 + two.Instead.Length + 2, PartsWhy.TwoFrames(two).Count);
        Assert.Contains($"= {Number(two.NoiseMismatch.Value)} stops", PartsWhy.TwoFrames(two)[^1].Text, StringComparison.Ordinal);
        Assert.Equal(4, PartsWhy.Depth(plan).Count);
        Assert.Contains($"= {Number(8.5 - plan.Answer.SpareToClean!.Value.Value)}", PartsWhy.Evening(plan, 8.5)[1].Text, StringComparison.Ordinal);
        Assert.Empty(PartsWhy.Depth(Planner.Plan(Wood)));

        static string Number(double value) => Math.Round(value, Math.Abs(value) >= 100 ? 1 : 3).ToString("0.###", System.Globalization.CultureInfo.InvariantCulture).Replace('-', '\u2212');
    }

    // Derived: what an aperture holds ends where the blur is just seen; the drawing says both ends and is sound markup.
    [Theory]
    [InlineData(7.5, 12)]
    [InlineData(1.8, double.PositiveInfinity)]
    public void Depth_is_drawn_to_scale(double near, double far)
    {
        DepthWish depth = new(DepthDemand.Of(Lens.Of(Length.FromMillimetres(50)), SubjectDistance.FromMetres(near), SubjectDistance.FromMetres(far)), FrameFormat.FullFrame);
        ExposurePlan plan = Planner.Plan(Wood with { Depth = depth });
        DepthDrawing drawing = DepthDrawing.Of(plan)!;
        DepthOfField held = depth.Held(plan.Scene.Aperture, plan.Print!, 1);
        Assert.Contains(held.Near.ToDisplay(), drawing.Title, StringComparison.Ordinal);
        Assert.Equal(depth.Holds(plan.Scene.Aperture, plan.Print!, 1), held.Near <= depth.Demand.Near && held.Far >= depth.Demand.Far);
        _ = XElement.Parse(drawing.Draw(new Markup()).ToString());
        Assert.Null(DepthDrawing.Of(Planner.Plan(Wood)));
    }

    // Derived: crop, lift and averaging move the limits on the ladder, so that the leaf stays at the ISO that is dialled and its state is the verdict.
    [Theory]
    [InlineData(0, 1, 1)]
    [InlineData(1, 1, 1)]
    [InlineData(0, 0.5, 1)]
    [InlineData(2, 0.5, 4)]
    public void The_leaf_on_the_ladder_says_what_the_verdict_says(double lift, double kept, int frames)
    {
        ExposurePlan plan = Planner.Plan(Wood with { Lift = Stops.Of(lift), WidthKept = kept, FramesAveraged = frames });
        StopLadder ladder = PlanLadder.Of(plan);
        Assert.Equal(PlanLadder.Of(plan.Answer.Verdict, plan.Limits), ladder.Leaf);
        Assert.NotEqual(LeafState.Broken, ladder.Leaf);
        Assert.Equal(plan.Answer.SpareToClean!.Value.Value, Math.Log2(ladder.Clean!.Iso / ladder.LeafIso!.Value), 1e-9);
        foreach (GiveUpRow row in plan.GiveUp)
            _ = XElement.Parse(new Markup().DrawStep(plan, row).ToString());
    }

    // Derived: limits that nobody judged break the leaf of the ladder and of each row alike.
    [Fact]
    public void Limits_that_are_worked_out_break_every_leaf()
    {
        ExposurePlan plan = Planner.Plan(Wood with { Limits = NoiseLimits.Of(Wood.Limits!.Clean, Wood.Limits.Stretch, Wood.Limits.Tags, LimitOrigin.WorkedOut) });
        Assert.Equal((LeafState.Broken, LeafState.Broken), (PlanLadder.Of(plan).Leaf, PlanLadder.Of(plan.Answer.Verdict, plan.Limits)));
        // The stalk is a leaf's in every state.
        Assert.All(plan.GiveUp, row => Assert.Equal(["leaf", "leaf-q"], XElement.Parse(new Markup().DrawStep(plan, row).ToString()).Descendants().Attributes("class").Select(c => c.Value).Where(c => c.StartsWith("leaf", StringComparison.Ordinal))));
    }

    // Derived: the brief answer is the plan's own, without what belongs to it.
    [Fact]
    public void The_brief_answer_is_that_of_the_plan()
    {
        (ExposurePlan brief, ExposurePlan plan) = (Planner.Brief(Wood), Planner.Plan(Wood));
        Assert.Equal((plan.Answer, plan.Iso, plan.Limits, plan.Print), (brief.Answer, brief.Iso, brief.Limits, brief.Print));
        Assert.Equal(PlanSentences.Of(plan).Verdict, PlanSentences.Of(brief).Verdict);
        Assert.Empty(brief.GiveUp);
    }

    [Theory]
    [InlineData("ISO 500: 2/3 stop. (worked out) More.", "ISO 500: <span class=\"fr\">2/3</span> stop. <span class=\"k k-w\">worked out</span> More.")]
    [InlineData("(rule of thumb) 1/125 s (measured)", "<span class=\"k k-t\">rule of thumb</span> 1/125 s <span class=\"k k-m\">measured</span>")]
    [InlineData("A (stretch) & more", "A (stretch) &amp; more")]
    [InlineData("x (worked out; stretch: rule of thumb)", "x <span class=\"k k-w\">worked out</span>, stretch <span class=\"k k-t\">rule of thumb</span>")]
    public void How_a_number_is_known_stands_on_its_rule(string text, string markup) => Assert.Equal(markup, new Markup().Said(text).ToString());
}
