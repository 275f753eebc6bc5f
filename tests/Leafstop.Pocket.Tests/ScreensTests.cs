namespace Leafstop.Pocket.Tests;

/// <summary>Derived: what the job says of water, depth, leaves, light and zoom, screen by screen.</summary>
public sealed class ScreensTests
{
    /// <summary>E7: 35 mm, 6 m, 1/4 s; 70 mm from the same spot wants 1/8 and a stop more.</summary>
    [Fact]
    public void A_streak_is_converted_to_the_other_lenses()
    {
        OpenPage page = OpenPage.At("water", """{"shutter":0.25,"focal":35,"waterDistance":6000,"waterSpeed":1}""");
        Assert.Equal("A streak of 4.1 % of the width at 1/4 s.", page.Verdict);
        Assert.Contains("70 mm 1/8 s, gap 1 more", page.Text, StringComparison.Ordinal);
        Assert.Contains("Feet first", page.Text, StringComparison.Ordinal);
    }

    /// <summary>Below base nothing is to spare but the clean limit's: what to do is said, and only that.</summary>
    [Theory]
    [InlineData(-1, "Too bright at base by 1/3.")]
    [InlineData(-6, "Too bright at base by 2.")]
    public void Below_base_one_thing_is_said(int thirds, string verdict)
    {
        OpenPage page = OpenPage.At("gap", """{"aperture":11.313708498984761,"shutter":0.25,"polariser":true}""");
        page.Press(FormattableString.Invariant($"set:under:{thirds}:gap"));
        Assert.Equal(verdict, page.Verdict.Replace("  ", " ", StringComparison.Ordinal).Replace(" .", ".", StringComparison.Ordinal));
        Assert.Contains("At ISO 100 use", page.Text, StringComparison.Ordinal);
        Assert.Equal(2, page.Html.Split("class=\"care\"").Length);
        Assert.DoesNotContain("foam", page.Text, StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>A limit carries its body: with several in the page the one that answers is named, inside and past clean.</summary>
    [Fact]
    public void Of_several_cameras_the_one_that_answers_is_named()
    {
        string two = OpenPage.Given.Replace("{\"name\":\"\"", "{\"name\":\"Body A\"", StringComparison.Ordinal).Replace("\"cameras\":[", "\"cameras\":[{\"name\":\"Body <B>\",\"baseIso\":200,\"format\":null,\"limits\":[]},", StringComparison.Ordinal);
        OpenPage page = OpenPage.At("gap", """{"camera":"Body A","aperture":11.313708498984761,"shutter":0.25}""", two);
        Assert.Contains("Body A", page.Text, StringComparison.Ordinal);
        page.Press("set:under:12:gap");
        Assert.Contains("Past clean", page.Verdict, StringComparison.Ordinal);
        Assert.Contains("Body A", page.Text, StringComparison.Ordinal);
        page.Press("camera:0");
        page.Press("go:gap");
        Assert.Contains("Body &lt;B&gt;", page.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("Body", OpenPage.At("gap", "{}").Text, StringComparison.Ordinal);
    }

    /// <summary>A mean that was tried and then kept by a new setting: the first screen goes on saying so and ends it, after the page was closed too.</summary>
    [Fact]
    public void A_mean_that_still_counts_is_named_and_can_be_ended()
    {
        OpenPage page = OpenPage.At("gap", """{"aperture":11.313708498984761,"shutter":0.25}""");
        page.Press("set:under:13:gap");
        int mean = page.Page.Plan!.GiveUp.Select((row, at) => (row, at)).First(r => r.row.What == Leafstop.Core.Planning.GiveUpKind.Average).at;
        page.Press(FormattableString.Invariant($"try:{mean}"));
        page.Press("step:under:-1");
        OpenPage later = page.Reopened();
        Assert.Contains("mean of", later.Text, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("data-act=\"frames\"", later.Html, StringComparison.Ordinal);
        Assert.Contains("frames is counted", later.Answer.Split('\n')[0], StringComparison.Ordinal);
        later.Press("frames");
        Assert.StartsWith("Past clean by 1", later.Verdict, StringComparison.Ordinal);
        Assert.DoesNotContain("mean of 4", later.Text, StringComparison.Ordinal);
    }

    /// <summary>Ten places come in parts of a screen each; every one of them is met, and the one that is meant comes first in sight.</summary>
    [Fact]
    public void Many_places_come_in_parts()
    {
        string data = OpenPage.Given.Replace("\"places\":[]", $"\"places\":[{string.Join(',', Enumerable.Range(1, 10).Select(n => $$"""{"name":"Place {{n}}","notes":[]}"""))}]", StringComparison.Ordinal);
        OpenPage page = OpenPage.At("place", "{}", data);
        Assert.DoesNotContain("rows long", page.Html, StringComparison.Ordinal);
        SortedSet<string> met = [];
        for (int part = 0; part < 3; part++)
        {
            page.Press(FormattableString.Invariant($"go:place:{part}"));
            met.UnionWith(Enumerable.Range(1, 10).Select(n => $"<b>Place {n}</b>").Where(p => page.Html.Contains(p, StringComparison.Ordinal)));
            Assert.InRange(page.Html.Split("class=\"row ").Length - 1, 1, 6);
        }
        Assert.Equal(10, met.Count);
        page.Press("place:9");
        Assert.Contains("<b>Place 10</b>", page.Html, StringComparison.Ordinal);
    }

    /// <summary>30 s at f/1 in near dark, then 1/8000: what is refused is refused in our own words, in whichever form the runtime appends its own.</summary>
    [Fact]
    public void A_refusal_is_our_own_sentence_alone()
    {
        OpenPage page = OpenPage.At("gap", """{"aperture":1,"shutter":32}""");
        page.Press("set:under:38:gap");
        page.Press(FormattableString.Invariant($"set:shutter:{Math.Pow(2, -13)}:gap"));
        Assert.Null(page.Page.Plan);
        Assert.NotEmpty(page.Page.Refusal);
        Assert.DoesNotMatch("Param|Actual|Arg_", page.Text);
        Assert.Equal("Too dark.", PocketPage.OwnWords(new ArgumentOutOfRangeException("light", 3, "Too dark.")));
    }

    /// <summary>E3 at 390 × 844: lull, polariser, f/5.6 and the smaller print are there without another tap.</summary>
    [Fact]
    public void Four_ways_out_of_the_wood_stand_on_the_first_screen()
    {
        OpenPage page = OpenPage.At("gap", """{"aperture":8,"shutter":0.0078125,"light":9,"polariser":true,"leaves":"trial","smear":0.33,"smearShutter":0.015625}""");
        foreach (string row in (string[])["Lull, 1/60", "Polariser off", "f/5.6", "Print 42 cm"])
            Assert.Contains(row, page.Text, StringComparison.Ordinal);
    }

    /// <summary>A window of 664 px has room for six rows of values: the sheet comes in two parts, and the one with what is set is shown.</summary>
    [Fact]
    public void A_sheet_in_a_short_window_comes_in_parts()
    {
        OpenPage page = OpenPage.At("gap", """{"shutter":0.25}""");
        page.Page.Height = 664;
        page.Press("go:pick:shutter:0:gap");
        Assert.Equal(12, page.Html.Split("data-act=\"set:shutter:").Length - 1);
        Assert.Contains("aria-pressed=\"true\"", page.Html, StringComparison.Ordinal);
        page.Press("go:pick:shutter:0:gap:0");
        Assert.Contains("1/500", page.Text, StringComparison.Ordinal);
    }

    /// <summary>A whole reading: each sheet leads on to the next, from the one where that is asked, and the last goes home.</summary>
    [Fact]
    public void Sheets_lead_on_to_one_another_where_that_is_asked()
    {
        OpenPage page = OpenPage.At("gap", """{"aperture":8,"shutter":0.25}""");
        page.Press("go:pick:aperture:0:gap");
        page.Press("go:pick:aperture:0:reading");
        Assert.Contains("go:pick:aperture:0:gap", page.Html, StringComparison.Ordinal);
        page.Press("set:aperture:16:reading");
        Assert.Contains("data-act=\"set:shutter:", page.Html, StringComparison.Ordinal);
        page.Press("set:shutter:0.5:reading");
        Assert.Contains("data-act=\"go:gap\"", page.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("then ", page.Text, StringComparison.Ordinal);
        page.Press("set:under:6:reading");
        Assert.Equal("gap", page.Page.State.Screen);
        page.Press("go:pick:aperture:0:depth");
        Assert.DoesNotContain("then shutter", page.Text, StringComparison.Ordinal);
    }

    /// <summary>Of a full bag the lenses next to the one on the camera.</summary>
    [Fact]
    public void The_nearest_lenses_are_compared()
    {
        string bag = string.Join(',', new[] { 14, 20, 24, 35, 50, 70, 200 }.Select(mm => $"{{\"focalLengthMm\":{mm}}}"));
        string data = OpenPage.Given.Replace("""{"focalLengthMm":24},{"focalLengthMm":35},{"focalLengthMm":70}""", bag, StringComparison.Ordinal);
        string told = OpenPage.At("water", """{"shutter":0.25,"focal":50,"waterDistance":6000,"waterSpeed":1}""", data).Text;
        Assert.Contains("35 mm", told, StringComparison.Ordinal);
        Assert.Contains("70 mm", told, StringComparison.Ordinal);
        Assert.DoesNotContain("14 mm", told, StringComparison.Ordinal);
    }

    /// <summary>E7: 5 of 25, then 0 of 10.</summary>
    [Fact]
    public void Keep_or_no_tells_the_odds_as_they_stand()
    {
        OpenPage page = OpenPage.At("keep", $$"""{"trial":"{{new string('k', 5)}}{{new string('n', 19)}}"}""");
        page.Press("trial:n");
        Assert.Equal("5 of 25 kept.", page.Verdict);
        Assert.Contains("About 14 more for a 95 % chance of one (could be 6 to 43).", page.Text, StringComparison.Ordinal);
        page.Press("trial:new");
        for (int i = 0; i < 10; i++)
            page.Press("trial:n");
        Assert.Contains("anything up to 26 %", page.Text, StringComparison.Ordinal);
        page.Press("trial:back");
        Assert.Equal("0 of 9 kept.", page.Verdict);
    }

    /// <summary>The fern at 1.8 m: 0.34 mm at f/8, 0.24 at f/11 when the focus serves near and far alike.</summary>
    [Fact]
    public void Depth_is_told_in_print_terms()
    {
        OpenPage page = OpenPage.At("depth", """{"aperture":11.313708498984761,"focal":24,"near":1800,"far":"inf","light":6.666666666666667}""");
        Assert.Equal("f/11 holds 1.8 m to infinity.", page.Verdict);
        Assert.Contains("0.34", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_zoom_that_is_the_print() => Assert.Equal("4.7 times is your print.", OpenPage.At("zoom", "{}").Verdict);

    /// <summary>A11: 1/4 against 1/125 at f/11 is five stops: the leaves' frame is far past stretch, and the shortest that stays within stretch is 1/25.</summary>
    [Fact]
    public void Two_frames_are_told_with_what_to_do_instead()
    {
        OpenPage page = OpenPage.At("pair", """{"aperture":11.313708498984761,"shutter":0.25,"secondShutter":0.0078125,"light":6.666666666666667}""");
        Assert.Contains("5 apart, and one is past stretch.", page.Verdict, StringComparison.Ordinal);
        Assert.Contains("16 000", page.Text, StringComparison.Ordinal);
        Assert.Matches("Leaves in a lull\\s+1/25.s", page.Text);
    }

    [Fact]
    public void Five_ticks_before_leaving()
    {
        OpenPage page = OpenPage.At("leaving", "{}");
        foreach (string tick in (string[])["water", "leaves", "foam", "near"])
            page.Press("tick:" + tick);
        Assert.Equal("1 still to take.", page.Verdict);
        page.Press("tick:far");
        Assert.Equal("All five. You may go.", page.Reopened().Verdict);
    }

    /// <summary>A stop lost in ten minutes: two thirds to spare are gone in less than seven.</summary>
    [Fact]
    public void Two_readings_tell_how_long_until_the_limit()
    {
        OpenPage page = OpenPage.At("light", """{"aperture":11.313708498984761,"shutter":0.25,"light":7.666666666666667}""");
        page.Press("note");
        page.Now = Later(10);
        for (int i = 0; i < 3; i++)
            page.Press("step:under:+1");
        page.Press("note");
        Assert.Equal("Loses a stop in 10 min.", page.Verdict);
        Assert.Contains("Past clean in about 7 min (5 to 10).", page.Text, StringComparison.Ordinal);
        Assert.Contains("Two frames to be blended: within 2 min.", page.Text, StringComparison.Ordinal);
        page.Now = Later(14);
        Assert.Contains("Past clean in about 3 min", page.Text, StringComparison.Ordinal);
        page.Now = Later(45);
        Assert.Contains("These readings are old", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_clock_that_was_set_back_drops_what_lies_ahead_of_it()
    {
        OpenPage page = OpenPage.At("light", "{}");
        page.Press("note");
        page.Now = Later(10);
        page.Press("note");
        page.Now = Later(-30);
        Assert.NotEmpty(page.Verdict);
        page.Press("note");
        Assert.Contains("The clock was set back", page.Text, StringComparison.Ordinal);
        Assert.Single(page.Page.State.Readings);
        Assert.Equal("How fast does it change?", page.Verdict);
    }

    private static Moment Later(double minutes) => OpenPage.Evening with { Milliseconds = OpenPage.Evening.Milliseconds + minutes * 60_000 };
}
