using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Planning;

public sealed class TwoFrameRecipeTests
{
    private static TwoFrameRecipe Recipe(string water, string leaves, string aperture = "f/11") =>
        TwoFrameRecipe.Of(Scenes.DimbleSpout with { Aperture = FNumber.Parse(aperture) }, ShutterTime.Parse(water), ShutterTime.Parse(leaves));

    // Published: job A11: water 1/4 f/11 ISO 500; leaves 1/125 f/11 ISO 16 000, far beyond stretch; 5 stops apart.
    [Fact]
    public void Five_stops_apart_is_beyond_stretch()
    {
        TwoFrameRecipe recipe = Recipe("1/4", "1/125");
        Assert.Equal("1/4 s f/11 ISO 500", recipe.Water.ToDisplay());
        Assert.Equal("1/125 s f/11 ISO 16000", recipe.Leaves.ToDisplay());
        Assert.Equal(5, recipe.Apart.Value, 1e-9);
        Assert.Equal(5, recipe.NoiseMismatch.Value, 1e-9);
        Assert.True(recipe.NeedsTwo);
        Assert.False(recipe.IsFeasible);
    }

    // Published: job A11: leaves in a lull at 1/15 are ISO 2000; both frames at f/8, leaves 1/30, are ISO 2000.
    [Theory]
    [InlineData("1/15", "f/11")]
    [InlineData("1/30", "f/8")]
    public void A_longer_shutter_for_the_leaves_is_feasible(string leaves, string aperture)
    {
        TwoFrameRecipe recipe = Recipe("1/4", leaves, aperture);
        Assert.Equal(2000, recipe.Leaves.Iso.Dial.Speed);
        Assert.True(recipe.IsFeasible);
        Assert.Empty(recipe.Instead);
    }

    // Published: job A11: dead calm, land frame 1.3 s at ISO 100.
    [Fact]
    public void In_dead_calm_the_land_is_taken_at_base()
    {
        RecipeFrame land = Recipe("1/4", "1/125").Instead[^1];
        Assert.Equal("1.3 s", land.Shutter.NearestMark().ToDisplay());
        Assert.Equal(100, land.Answer.Iso.Speed, 1e-9);
    }

    // Derived: what it proposes instead stays within stretch, and a third shorter does not; the wider aperture buys a stop of shutter.
    [Fact]
    public void What_it_proposes_instead_is_the_shortest_within_stretch()
    {
        TwoFrameRecipe recipe = Recipe("1/4", "1/125");
        RecipeFrame lull = recipe.Instead[0];
        Assert.Equal(PlanVerdict.Stretch, lull.Answer.Verdict);
        Assert.Equal(PlanVerdict.Beyond, GapAnswer.Of(Scenes.DimbleSpout with { Shutter = ShutterTime.FromSeconds(lull.Shutter.Seconds * Math.Pow(2, -1 / 3.0)) }).Verdict);
        Assert.Equal(1, Math.Log2(lull.Shutter.Seconds / recipe.Instead[1].Shutter.Seconds), 1e-9);
    }

    // Derived: the aperture is the same in both frames, and so the light differs by the shutters alone.
    [Fact]
    public void Both_frames_keep_the_aperture()
    {
        TwoFrameRecipe recipe = Recipe("1/2", "1/30");
        Assert.Equal(recipe.Water.Aperture, recipe.Leaves.Aperture);
        Assert.Equal(recipe.Apart.Value, recipe.NoiseMismatch.Value, 1e-9);
    }

    // Published: job, answer 5: two frames from three stops apart on.
    [Theory]
    [InlineData("1/15", "1/125", true)]
    [InlineData("1/15", "1/60", false)]
    public void Two_frames_are_needed_from_three_stops_apart(string water, string leaves, bool needsTwo) =>
        Assert.Equal(needsTwo, Recipe(water, leaves).NeedsTwo);

    // Derived: the planner makes the recipe when water and leaves are both asked; in a breeze that a lull at the water's shutter holds, one frame does both.
    [Fact]
    public void The_planner_says_whether_one_frame_can_do_it()
    {
        WaterWish water = WaterWish.For(Scenes.Water, Scenes.WaterSpeed, Core.Motion.Streak.FromPercent(4));
        ExposurePlan windy = Planner.Plan(Scenes.DimbleSpout with { Water = water, Leaves = Scenes.Leaves });
        Assert.True(windy.TwoFrames!.NeedsTwo);
        Assert.Contains(windy.Cautions, c => c.Code == CautionCode.OneFrameOrTwo && c.Text.Contains("No single frame does both", StringComparison.Ordinal));
        Assert.Equal(0, windy.Row(GiveUpKind.TwoFrames)!.Gained.Value, 1e-9);
        ExposurePlan calm = Planner.Plan(Scenes.DimbleSpout with { Water = water, Leaves = Scenes.LeavesAt(0.015) });
        Assert.Contains(calm.Cautions, c => c.Code == CautionCode.OneFrameOrTwo && c.Text.Contains("In a lull one frame does both", StringComparison.Ordinal));
    }
}
