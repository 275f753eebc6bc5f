using System.Text.RegularExpressions;
using Leafstop.Core.Planning;
using Leafstop.Pocket.Screens;

namespace Leafstop.Pocket.Tests;

/// <summary>Derived: job.md G and A7, what to mind stands once and in one line where it matters, on either side of the clean limit; what was measured or asked for before what is guessed.</summary>
public sealed partial class CautionsTests
{
    // The spout with a fern that a trial frame showed to move.
    private const string Spout = "\"aperture\":11.313708498984761,\"shutter\":0.25,\"light\":6.666666666666667", MovingFern = ",\"leaves\":\"trial\",\"smear\":0.33,\"smearShutter\":0.015625", Water = ",\"waterOn\":true,\"focal\":35",
        Wood = "\"aperture\":8,\"shutter\":0.0078125,\"light\":9", FineLeaves = ",\"leaves\":\"trial\",\"smear\":0.33,\"smearShutter\":0.015625", WildLeaves = ",\"leaves\":\"trial\",\"smear\":0.7,\"smearShutter\":0.015625";

    [Fact]
    public void What_was_measured_goes_before_foam_that_nobody_metered()
    {
        string[] cares = Cares(OpenPage.With($"{{{Spout}{Water}{MovingFern}}}"));
        Assert.StartsWith("Leaves smear 5.28 mm", cares[0], StringComparison.Ordinal);
        Assert.DoesNotContain(cares.SkipLast(1), c => c.Contains("foam", StringComparison.OrdinalIgnoreCase));
        // Alone, the guess is told.
        Assert.StartsWith("Shaded foam has about", Assert.Single(Cares(OpenPage.With($"{{{Spout}}}"))), StringComparison.Ordinal);
    }

    [Fact]
    public void Foam_that_was_metered_goes_first() =>
        Assert.StartsWith("Foam is clipped by", Cares(OpenPage.With($"{{{Spout}{Water}{MovingFern},\"foam\":4.7}}"))[0], StringComparison.Ordinal);

    /// <summary>Where all of it is on, the answer keeps its room: two cares at most, and that the polariser is counted stays said.</summary>
    [Theory]
    [InlineData(844)]
    [InlineData(740)]
    [InlineData(664)]
    public void The_polariser_stays_counted_however_much_is_to_mind(int height)
    {
        OpenPage page = OpenPage.With($"{{{Spout}{Water}{MovingFern},\"polariser\":true,\"depthOn\":true,\"near\":500,\"far\":\"inf\"}}");
        page.Page.Height = height;
        Assert.InRange(Cares(page).Length, 1, 2);
        Assert.StartsWith("Near and far blur", Cares(page)[0], StringComparison.Ordinal);
        Assert.Contains("Polariser counted.", page.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Wood + WildLeaves, "Leaves smear 0.35 mm; you see 0.17.")]
    [InlineData(Wood + FineLeaves + ",\"depthOn\":true,\"near\":500,\"far\":\"inf\"", "Near and far blur")]
    [InlineData("\"aperture\":11.313708498984761,\"shutter\":0.0625,\"light\":6.666666666666667", "Shaded foam has 1/4 stop left: check it.")]
    [InlineData("\"aperture\":11.313708498984761,\"shutter\":0.0625,\"light\":6.666666666666667,\"foam\":4.7", "Foam clipped by 1 2/3: bracket −2.")]
    [InlineData(Wood + ",\"printWidth\":900,\"printDistance\":600", "Stripes do not scale: check those.")]
    [InlineData("\"aperture\":45.254833995939045,\"shutter\":16,\"light\":1", "Past 10 s limits differ: test them.")]
    public void Past_clean_the_most_pressing_care_stands_in_one_line(string state, string care)
    {
        OpenPage page = OpenPage.With($"{{{state}}}");
        Assert.StartsWith("Past", page.Verdict, StringComparison.Ordinal);
        string told = Assert.Single(Cares(page));
        Assert.StartsWith(care, told, StringComparison.Ordinal);
        // A line of 17 px across 328 px, the narrowest telephone.
        Assert.InRange(told.Length, 10, 42);
    }

    /// <summary>Without a care, and with one: a limit without its print is meaningless.</summary>
    [Theory]
    [InlineData(Wood + FineLeaves)]
    [InlineData(Wood + WildLeaves)]
    public void Past_clean_the_print_and_how_the_limits_are_known_stand_beside_the_iso(string state)
    {
        OpenPage page = OpenPage.With($"{{{state}}}");
        Assert.Contains("60 cm at 60 cm, as you gave it.", Squeezed(page.Text), StringComparison.Ordinal);
        OpenPage judged = OpenPage.With($"{{{state}}}", OpenPage.Given.Replace("\"how\":\"given\"", "\"how\":\"judged\"", StringComparison.Ordinal).Replace("\"tone\":\"notStated\"", "\"tone\":\"smooth\"", StringComparison.Ordinal));
        Assert.Contains("60 cm at 60 cm, smooth. measured", Squeezed(judged.Text), StringComparison.Ordinal);
        Assert.Contains("60 cm at 60 cm, as you gave it.", Squeezed(Leaving(state).Text), StringComparison.Ordinal);
    }

    /// <summary>Beside the clock an ISO of five figures leaves it no room: then it has the line of the care, where that is free.</summary>
    [Fact]
    public void Beside_a_long_iso_and_a_clock_the_print_has_a_line_of_its_own()
    {
        OpenPage page = Leaving("\"aperture\":8,\"shutter\":0.001,\"light\":9");
        Assert.Contains("Leave by 18:45: 45 min", page.Text, StringComparison.Ordinal);
        Assert.Equal("60 cm at 60 cm, as you gave it.", Assert.Single(Cares(page)));
    }

    /// <summary>Six rows and more: minus and plus of the meter stay, four rows are in sight, the others a tap away.</summary>
    [Theory]
    [InlineData(844, 4)]
    [InlineData(740, 3)]
    [InlineData(664, 2)]
    [InlineData(640, 2)]
    public void Minus_and_plus_stay_however_many_ways_out_there_are(int height, int rows)
    {
        OpenPage page = OpenPage.With($"{{{Wood}{FineLeaves},\"polariser\":true}}");
        page.Page.Height = height;
        int all = page.Page.Plan!.GiveUp.Count(r => r.What is not (GiveUpKind.KeepFrame or GiveUpKind.LiftLess));
        Assert.True(all > 4);
        HashSet<string> met = [];
        for (int part = 0; part < all; part++)
        {
            Assert.Contains("data-act=\"step:under:-1\"", page.Html, StringComparison.Ordinal);
            Assert.Contains("data-act=\"step:under:+1\"", page.Html, StringComparison.Ordinal);
            string[] shown = [.. Rows().Matches(page.Html).Select(m => m.Groups[1].Value)];
            Assert.InRange(shown.Length, 1, rows);
            met.UnionWith(shown);
            page.Press(Way().Match(page.Html).Groups[1].Value);
        }
        Assert.Equal(all, met.Count);
    }

    [Fact]
    public void What_was_tried_is_taken_back_past_clean_too()
    {
        OpenPage page = OpenPage.With($"{{{Wood.Replace(":9", ":7", StringComparison.Ordinal)}{FineLeaves},\"polariser\":true}}");
        page.Press("try:0");
        Assert.StartsWith("Past", page.Verdict, StringComparison.Ordinal);
        Assert.Contains("Take back Lull, 1/60 s", Squeezed(page.Text), StringComparison.Ordinal);
        Assert.Contains("step:under:+1", page.Html, StringComparison.Ordinal);
        page.Press("back");
        Assert.DoesNotContain("Take back", page.Text, StringComparison.Ordinal);
    }

    /// <summary>A ladder that ends inside clean: above it nothing is known, and that is what is said.</summary>
    [Fact]
    public void Limits_that_were_not_reached_are_not_told_as_found()
    {
        string open = OpenPage.Given.Replace("\"cleanIso\":800,\"stretchIso\":3200,\"how\":\"given\"", "\"cleanIso\":6400,\"stretchIso\":6400,\"measuredToIso\":6400,\"how\":\"workedOut\"", StringComparison.Ordinal);
        OpenPage page = OpenPage.With($"{{{Spout}}}", open);
        Assert.Contains("Clean at least to 6400, for 60 cm at 60 cm", page.Text, StringComparison.Ordinal);
        page.Press("set:under:21:gap");
        Assert.Equal("Past all that was measured by 1.", page.Verdict);
        Assert.DoesNotContain("past stretch", page.Text, StringComparison.Ordinal);
        string half = open.Replace("\"cleanIso\":6400", "\"cleanIso\":1600", StringComparison.Ordinal);
        page = OpenPage.With($"{{{Spout}}}", half);
        Assert.Contains("Clean 1600, for", page.Text, StringComparison.Ordinal);
        page.Press("set:under:21:gap");
        Assert.Equal("Past clean by 3, and past all that was measured.", page.Verdict);
        page.Press("set:under:27:gap");
        Assert.Contains("past all measured", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("past stretch", page.Text, StringComparison.Ordinal);
    }

    private static OpenPage Leaving(string state) => OpenPage.With($"{{{state},\"leaveAt\":{(OpenPage.Evening.Milliseconds + 45 * 60_000).ToString("0", System.Globalization.CultureInfo.InvariantCulture)}}}");

    private static string[] Cares(OpenPage page) => [.. CareElement().Matches(page.Html).Select(m => Squeezed(GapWords.Plain(m.Groups[1].Value)))];

    private static string Squeezed(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).Replace(" .", ".", StringComparison.Ordinal);

    [GeneratedRegex("<p class=\"care(?: print)?\">(.*?)</p>")]
    private static partial Regex CareElement();

    [GeneratedRegex("data-act=\"(try:\\d+)\"")]
    private static partial Regex Rows();

    [GeneratedRegex("class=\"press more\" data-act=\"(go:gap(?::\\d+)?)\"")]
    private static partial Regex Way();
}
