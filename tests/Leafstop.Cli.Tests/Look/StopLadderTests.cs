namespace Leafstop.Cli.Tests.Look;

/// <summary>Derived: what the visual language of the project says that a ladder of stops shows.</summary>
public sealed class StopLadderTests
{
    private static readonly LadderLimit Clean = new(800, 640, 1000, true), Stretch = new(3200, 2500, 4000, true);

    [Theory]
    [InlineData(500, LeafState.Whole)]
    [InlineData(800, LeafState.Whole)]
    [InlineData(1600, LeafState.Half)]
    [InlineData(3200, LeafState.Half)]
    [InlineData(5000, LeafState.Bare)]
    public void The_leaf_is_whole_up_to_clean_half_up_to_stretch_and_bare_past_it(double iso, LeafState state) =>
        Assert.Equal(state, new StopLadder { Clean = Clean, Stretch = Stretch, LeafIso = iso }.Leaf);

    [Fact]
    public void Limits_that_nobody_judged_are_drawn_broken_bring_no_grain_and_leave_the_leaf_unknown()
    {
        StopLadder ladder = new() { Clean = Clean with { IsJudged = false }, Stretch = Stretch with { IsJudged = false }, LeafIso = 500 };
        string drawn = ladder.Draw(new Markup()).ToString();
        Assert.Equal(LeafState.Broken, ladder.Leaf);
        Assert.DoesNotContain("url(#g", drawn, StringComparison.Ordinal);
        Assert.Contains("clean maybe", drawn, StringComparison.Ordinal);
        Assert.Contains("800?", drawn, StringComparison.Ordinal);
    }

    // 1600 is one stop past clean 800 and four above base 100; a gap of 2 1/3 leaves 2/3 of the three stops up to clean.
    [Fact]
    public void Gap_and_what_is_over_are_told_in_stops_and_grain_lies_past_the_limits()
    {
        string drawn = new StopLadder { Clean = Clean, Stretch = Stretch, LeafIso = 1600 }.Draw(new Markup()).ToString();
        Assert.Contains(">gap <tspan class=\"b\">4</tspan>", drawn, StringComparison.Ordinal);
        Assert.Contains(">1 over<", drawn, StringComparison.Ordinal);
        Assert.Contains("url(#g1)", drawn, StringComparison.Ordinal);
        Assert.Contains("url(#g2)", drawn, StringComparison.Ordinal);
        string spare = new StopLadder { Clean = Clean, Stretch = Stretch, LeafIso = 100 * Math.Pow(2, 7 / 3.0) }.Draw(new Markup()).ToString();
        Assert.Contains("<tspan class=\"fr\">2/3</tspan> spare", spare, StringComparison.Ordinal);
        // Between thirds it is told as the sentences tell it: the nearest third, a half where it is one, and what is less than any third as little.
        string between = new StopLadder { Clean = Clean, Stretch = Stretch, LeafIso = 100 * Math.Pow(2, 4.21) }.Draw(new Markup()).ToString();
        Assert.Contains(">gap <tspan class=\"b\">4 <tspan class=\"fr\">1/3</tspan></tspan>", between, StringComparison.Ordinal);
        Assert.Contains(">1 <tspan class=\"fr\">1/3</tspan> over<", between, StringComparison.Ordinal);
        string half = new StopLadder { Clean = Clean, Stretch = Stretch, LeafIso = 100 * Math.Pow(2, 2.5) }.Draw(new Markup()).ToString();
        Assert.Contains(">gap <tspan class=\"b\">2 <tspan class=\"fr\">1/2</tspan></tspan>", half, StringComparison.Ordinal);
        string little = new StopLadder { Clean = Clean, Stretch = Stretch, LeafIso = 800 * Math.Pow(2, 0.1) }.Draw(new Markup()).ToString();
        Assert.Contains(">a little over<", little, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2 1/3 stops", "2 <span class=\"fr\">1/3</span> stops")]
    [InlineData("1/3", "<span class=\"fr\">1/3</span>")]
    [InlineData("1/125 s, 1/30", "1/125 s, 1/30")]
    [InlineData("21/3", "21/3")]
    public void Thirds_stand_as_fractions_and_shutter_times_on_the_line(string text, string markup) => Assert.Equal(markup, new Markup().Fractions(text).ToString());
}
