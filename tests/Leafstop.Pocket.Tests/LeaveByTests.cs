namespace Leafstop.Pocket.Tests;

/// <summary>Derived: job.md G, the clock to the exit time on the field screen. No tide is worked out.</summary>
public sealed class LeaveByTests
{
    private const double Minute = 60_000;

    private static OpenPage In(double minutes, string more = "") =>
        OpenPage.With($$"""{"aperture":11.313708498984761,"shutter":0.25,"light":6.666666666666667,"place":"Dimble Spout","leaveAt":{{OpenPage.Evening.Milliseconds + minutes * Minute}}{{more}}}""");

    [Theory]
    [InlineData(45, "Leave by 18:45: 45 min")]
    // Less than a whole minute is not counted.
    [InlineData(9.9, "Leave by 18:09: 9 min")]
    [InlineData(0.5, "Leave by 18:00: 0 min")]
    [InlineData(230, "Leave by 21:50: 3 h 50 min")]
    [InlineData(-0.1, "Leave now: 17:59 is past")]
    [InlineData(-60, "Leave now: 17:00 is past")]
    public void The_first_screen_shows_the_clock_in_place_of_the_place(double minutes, string clock)
    {
        OpenPage page = In(minutes);
        Assert.Contains(clock, page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Dimble Spout", page.Text, StringComparison.Ordinal);
        Assert.Contains("\"runs\":true", page.Answer, StringComparison.Ordinal);
        Assert.Equal(minutes < 0, page.Answer.Contains("\"say\":\"Leave now. ISO 500.", StringComparison.Ordinal));
    }

    [Fact]
    public void Past_clean_it_stands_beside_the_iso() => Assert.Contains("ISO 8000 Leave by 18:45: 45 min", Squeezed(In(45, ",\"aperture\":11.31,\"shutter\":0.015625").Text), StringComparison.Ordinal);

    [Fact]
    public void A_time_of_another_tide_is_forgotten()
    {
        OpenPage page = In(-121);
        Assert.Contains("Dimble Spout", page.Text, StringComparison.Ordinal);
        Assert.Null(page.Page.State.LeaveAt);
        Assert.Contains("\"runs\":false", page.Answer, StringComparison.Ordinal);
    }

    [Fact]
    public void It_is_set_in_steps_of_five_minutes_or_picked_from_quarters_and_comes_back()
    {
        OpenPage page = OpenPage.At("leave", "{}");
        page.Now = new Moment(OpenPage.Evening.Milliseconds + 2 * Minute, 60);
        Assert.Equal("When must you be off?", page.Verdict);
        page.Press("step:leave:+1");
        Assert.Equal("Leave by 19:05: 63 min.", page.Verdict);
        page.Press("step:leave:-1");
        Assert.Equal("Leave by 19:00: 58 min.", page.Verdict);
        Assert.Contains("vouches for no figure", page.Text, StringComparison.Ordinal);
        page.Press("go:pick:leave:0:leave");
        Assert.StartsWith("18:15 18:30 18:45", Squeezed(page.Text[page.Text.IndexOf("18:15", StringComparison.Ordinal)..]), StringComparison.Ordinal);
        page.Press($"set:leave:{OpenPage.Evening.Milliseconds + 15 * Minute:R}:gap");
        Assert.Contains("Leave by 18:15: 13 min", page.Reopened().Text, StringComparison.Ordinal);
        // The clock of the phone is set an hour back on the way: the time that was meant stays the same time.
        page.Now = page.Now with { ZoneMinutes = 0 };
        Assert.Contains("Leave by 17:15: 13 min", page.Text, StringComparison.Ordinal);
        page.Press("leave:none");
        Assert.DoesNotContain("Leave by", page.Text, StringComparison.Ordinal);
    }

    private static string Squeezed(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
