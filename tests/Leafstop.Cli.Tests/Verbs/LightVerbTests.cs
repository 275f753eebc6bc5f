using System.Globalization;
using System.Text.Json;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Verbs;

public sealed class LightVerbTests : IDisposable
{
    private static readonly string[] Spout = ["light", "--lat", "50.1", "--lon", "-3.2", "--date", "2026-10-17", "--zone", "Europe/London"];

    private readonly RunningProgram _program = new();

    public void Dispose() => _program.Dispose();

    private JsonElement Json(params string[] args)
    {
        Ended ended = _program.Run([.. args, "--json"]);
        Assert.Equal((0, ""), (ended.Code, ended.Error));
        return JsonDocument.Parse(ended.Out).RootElement;
    }

    private static DateTimeOffset Time(JsonElement of) => DateTimeOffset.Parse(of.GetProperty("time").GetString()!, CultureInfo.InvariantCulture);

    private static JsonElement Event(JsonElement answer, string name) => Assert.Single(answer.GetProperty("events").EnumerateArray(), e => e.GetProperty("event").GetString() == name);

    // Derived: names, order and times of an ordinary day; sunrise by the S-11 convention is civil dawn plus the climb between (checked in the core), here only that they are in order.
    [Fact]
    public void The_events_of_a_day_come_in_order_with_the_offset_of_the_clock()
    {
        JsonElement answer = Json(Spout);
        string[] names = [.. answer.GetProperty("events").EnumerateArray().Select(e => e.GetProperty("event").GetString()!)];
        Assert.Equal(["astronomicalDawn", "nauticalDawn", "civilDawn", "sunrise", "transit", "sunset", "civilDusk", "nauticalDusk", "astronomicalDusk"], names);
        DateTimeOffset[] times = [.. answer.GetProperty("events").EnumerateArray().Select(Time)];
        Assert.Equal(times.Order(), times);
        Assert.All(times, t => Assert.Equal((TimeSpan.FromHours(1), new DateTime(2026, 10, 17)), (t.Offset, t.Date)));
        Assert.Equal(96, answer.GetProperty("samples").GetArrayLength());
    }

    // Common practice, no source: British clocks go forward at 01:00 on 29 March and back at 02:00 on 25 October 2026 (the zone rules that the program carries).
    [Theory]
    [InlineData("2026-03-29", "does not exist")]
    [InlineData("2026-10-25", "comes twice")]
    public void A_time_that_the_clock_leaves_out_or_shows_twice_is_named(string date, string why)
    {
        string[] call = ["light", "--lat", "50.1", "--lon", "-3.2", "--date", date, "--at", "01:30"];
        Ended ended = _program.Run([.. call, "--zone", "Europe/London"]);
        Assert.Equal((2, ""), (ended.Code, ended.Out));
        Assert.Contains(why, ended.Error, StringComparison.Ordinal);
        Assert.Equal(0, _program.Run([.. call, "--zone", "UTC+01:00"]).Code);
    }

    // Published: S-04, library A: the local evening of 17 October 2003 at UTC-7, 2 s.
    [Fact]
    public void Sunset_is_that_of_the_local_evening()
    {
        JsonElement answer = Json("light", "--lat", "39.742476", "--lon=-105.1786", "--elevation", "1830m", "--date", "2003-10-17", "--zone", "UTC-07:00");
        Assert.InRange((Time(Event(answer, "sunset")) - new DateTimeOffset(2003, 10, 17, 17, 18, 51, TimeSpan.FromHours(-7))).TotalSeconds, -2, 2);
        Assert.Equal("2003-10-17T17:18:51-07:00"[^6..], Event(answer, "sunset").GetProperty("time").GetString()![^6..]);
    }

    // Published: S-23, states of the CSV.
    [Theory]
    [InlineData("2025-06-15", "aboveAllDay")]
    [InlineData("2025-12-15", "belowAllDay")]
    public void A_day_without_sunrise_says_which_way(string date, string state)
    {
        JsonElement answer = Json("light", "--lat", "78.22", "--lon", "15.65", "--date", date, "--zone", "UTC+01:00");
        foreach (string name in (string[])["sunrise", "sunset"])
        {
            JsonElement none = Event(answer, name);
            Assert.Equal((state, JsonValueKind.Null), (none.GetProperty("state").GetString(), none.GetProperty("time").ValueKind));
        }
    }

    // Derived: L-29 through the verb: EV100 = log2(E · 100 / 250), and cloud and canopy are the published shares of the open light.
    [Fact]
    public void Samples_hold_the_chain_of_the_check_table()
    {
        JsonElement open = Json([.. Spout, "--at", "12:00"]).GetProperty("samples")[0];
        JsonElement under = Json([.. Spout, "--at", "12:00", "--okta", "8", "--canopy", "aspen-summer"]).GetProperty("samples")[0];
        Assert.Equal(0.25 * 0.059, under.GetProperty("illuminanceLux").GetDouble() / open.GetProperty("illuminanceLux").GetDouble(), 1e-9);
        Assert.Equal(Math.Log2(under.GetProperty("illuminanceLux").GetDouble() / 2.5), under.GetProperty("ev100").GetDouble(), 1e-9);
        Assert.Equal((1, 1.5), (open.GetProperty("uncertaintyStops").GetDouble(), under.GetProperty("uncertaintyStops").GetDouble()));
        Assert.Equal("ruleOfThumb", open.GetProperty("how").GetString());
    }

    [Fact]
    public void A_ridge_adds_its_events_and_hides_the_sun()
    {
        JsonElement answer = Json([.. Spout, "--ridge", "15", "--from", "07:00", "--to", "11:00", "--step", "5min"]);
        DateTimeOffset over = Time(Event(answer, "sunOverRidge"));
        Assert.Equal(49, answer.GetProperty("samples").GetArrayLength());
        Assert.All(answer.GetProperty("samples").EnumerateArray().Where(s => Time(s) < over), s => Assert.Equal(0, s.GetProperty("sunDiscShare").GetDouble()));
        Assert.Contains(answer.GetProperty("cautions").EnumerateArray(), c => c.GetProperty("code").GetString() == "sunInFrame");
    }

    // Derived: f/11 at 1/4 s and ISO 800 want EV 9 − 3, and 1.5 more for the polariser.
    [Fact]
    public void The_time_at_which_your_iso_is_enough_is_told()
    {
        string[] asked = [.. Spout, "--aperture", "11", "--shutter", "1/4", "--iso", "800", "--filter", "polariser 1.5"];
        JsonElement answer = Json(asked);
        Assert.Equal(7.5, answer.GetProperty("wantedEv100").GetDouble(), 1e-9);
        Assert.Equal([true, false], answer.GetProperty("crossings").EnumerateArray().Select(c => c.GetProperty("brightening").GetBoolean()));
        Assert.StartsWith("There is enough light (EV100 7.50) from ", _program.Run(asked).Out, StringComparison.Ordinal);
    }

    [Fact]
    public void The_text_says_verdict_number_and_how_sure_and_why_on_request()
    {
        string[] lines = _program.Run([.. Spout, "--at", "08:40", "--why"]).Out.Split('\n');
        Assert.StartsWith("EV ", lines[0], StringComparison.Ordinal);
        Assert.Contains("brightens by a stop in", lines[1], StringComparison.Ordinal);
        Assert.Contains(lines, l => l.StartsWith("Light ± 1 stop", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.Contains("log2(E · 100 / 250)", StringComparison.Ordinal));
        Assert.All(lines, l => Assert.True(l.Length <= 100, l));
        Assert.Single(lines, l => l.Contains("through a long lens", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("latitude", "--lat", "91", "--lon", "0", "--date", "2026-10-17", "--zone", "UTC")]
    [InlineData("no number", "--lat", "NaN", "--lon", "0", "--date", "2026-10-17", "--zone", "UTC")]
    [InlineData("longitude", "--lat", "50", "--lon", "200", "--date", "2026-10-17", "--zone", "UTC")]
    [InlineData("no time zone", "--lat", "50", "--lon", "0", "--date", "2026-10-17", "--zone", "Europe/Nowhere")]
    [InlineData("--zone", "--lat", "50", "--lon", "0", "--date", "2026-10-17")]
    [InlineData("1800 to 2100", "--lat", "50", "--lon", "0", "--date", "2150-10-17", "--zone", "UTC")]
    [InlineData("no date", "--lat", "50", "--lon", "0", "--date", "2026-02-30", "--zone", "UTC")]
    [InlineData("eighths", "--lat", "50", "--lon", "0", "--date", "2026-10-17", "--zone", "UTC", "--okta", "9")]
    [InlineData("ridge", "--lat", "50", "--lon", "0", "--date", "2026-10-17", "--zone", "UTC", "--ridge", "95")]
    [InlineData("aspen-summer", "--lat", "50", "--lon", "0", "--date", "2026-10-17", "--zone", "UTC", "--canopy", "jungle")]
    [InlineData("step of time", "--lat", "50", "--lon", "0", "--date", "2026-10-17", "--zone", "UTC", "--step", "5")]
    [InlineData("--lat and --lon", "--date", "2026-10-17", "--zone", "UTC")]
    [InlineData("go together", "--lat", "50", "--lon", "0", "--date", "2026-10-17", "--zone", "UTC", "--aperture", "8")]
    [InlineData("not after", "--lat", "50", "--lon", "0", "--date", "2026-10-17", "--zone", "UTC", "--from", "09:00", "--to", "08:00")]
    public void A_wrong_call_ends_with_2_and_one_sentence(string told, params string[] args)
    {
        Ended refused = _program.Run(["light", .. args]);
        Assert.Equal((2, ""), (refused.Code, refused.Out));
        Assert.Contains(told, refused.Error, StringComparison.Ordinal);
        Assert.Single(refused.Error.TrimEnd('\n').Split('\n'));
    }

    // Derived: Samoa went over 30 December 2011 (IANA zone).
    [Fact]
    public void A_date_that_never_was_ends_with_3() =>
        Assert.Equal(3, _program.Run("light", "--lat", "-13.8", "--lon", "-171.8", "--date", "2011-12-30", "--zone", "Pacific/Apia").Code);
}
