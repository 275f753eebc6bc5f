using System.Globalization;
using System.Text.Json;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Verbs;

public sealed class PlanVerbTests : IDisposable
{
    private static readonly string[] Limits = ["--clean", "800", "--stretch", "3200", "--limit-print", "60cm", "--limit-distance", "60cm"];

    private readonly RunningProgram _program = new();

    public void Dispose() => _program.Dispose();

    private JsonElement Json(params string[] args)
    {
        Ended ended = _program.Run(["plan", .. args, "--json"]);
        Assert.Equal((0, ""), (ended.Code, ended.Error));
        return JsonDocument.Parse(ended.Out).RootElement;
    }

    private static JsonElement Row(JsonElement plan, string what) =>
        Assert.Single(plan.GetProperty("giveUp").EnumerateArray(), r => r.GetProperty("what").GetString() == what);

    // Published: job E2: ISO 500, inside clean, 2/3 spare, without the polariser ISO 180 (dial 200), foam caution.
    [Fact]
    public void Dimble_Spout_in_words_has_the_verdict_first()
    {
        Ended plan = _program.Run(["plan", "--aperture", "11", "--shutter", "1/4", "--under", "2 1/3", "--filter", "polariser 1.5", "--foam", "2.7", .. Limits]);
        Assert.Equal((0, ""), (plan.Code, plan.Error));
        string[] lines = plan.Out.Split('\n');
        Assert.Equal("ISO 500: inside clean, 2/3 stop to spare, for a print 60 cm wide seen from 60 cm.", lines[0]);
        Assert.StartsWith("The gap is 2 1/3 stops at f/11 and 1/4 s", lines[1], StringComparison.Ordinal);
        Assert.Contains("counted already, not twice", plan.Out, StringComparison.Ordinal);
        Assert.Contains("Without the polariser: ISO 178 (dial 200).", plan.Out, StringComparison.Ordinal);
        Assert.Contains("Foam has 0.27 stop left", plan.Out, StringComparison.Ordinal);
        Assert.Equal(1, Count(plan.Out, "Wet rock"));
        Assert.All(lines, line => Assert.True(line.Length <= 100, line));
    }

    // Derived: the ends of a range that a refusal tells are read, though the dial's 1 stands for a speed a little below 1 (2^(−20/3) of 100).
    [Theory]
    [InlineData(0, "--clean", "1", "--stretch", "10000000", "--base", "1")]
    [InlineData(0, "--clean", "100000", "--base", "100000")]
    [InlineData(2, "--clean", "0.9")]
    [InlineData(2, "--clean", "800", "--stretch", "20000000")]
    [InlineData(2, "--clean", "800", "--base", "0.9")]
    [InlineData(2, "--clean", "800", "--base", "125000")]
    public void The_ends_of_the_range_of_a_limit_and_of_base_are_read(int code, params string[] values)
    {
        Ended plan = _program.Run(["plan", "--aperture", "11", "--shutter", "1/4", "--under", "2", "--limit-print", "60cm", "--limit-distance", "60cm", .. values]);
        Assert.Equal(code, plan.Code);
        if (code != 0)
            Assert.Contains("ISO lies between 1 and ", plan.Error, StringComparison.Ordinal);
    }

    // Published: job E2; the shape is the contract of the design.
    [Fact]
    public void Dimble_Spout_as_JSON_has_the_agreed_shape()
    {
        JsonElement plan = Json(["--aperture", "11", "--shutter", "1/4", "--under", "2 1/3", "--filter", "polariser 1.5", .. Limits]);
        JsonElement exposure = plan.GetProperty("exposure");
        Assert.Equal(500, exposure.GetProperty("isoDial").GetDouble());
        Assert.Equal(100 * Math.Pow(2, 7 / 3.0), exposure.GetProperty("isoExact").GetDouble(), 1e-9);
        Assert.Equal(Math.Pow(2, 3.5), exposure.GetProperty("aperture").GetDouble(), 1e-12);
        Assert.Equal(0.25, exposure.GetProperty("shutterSeconds").GetDouble());
        Assert.Equal(7 / 3.0, plan.GetProperty("gapStops").GetDouble(), 1e-12);
        Assert.Equal(2 / 3.0, plan.GetProperty("spare").GetProperty("cleanStops").GetDouble(), 1e-9);
        Assert.Equal(8 / 3.0, plan.GetProperty("spare").GetProperty("stretchStops").GetDouble(), 1e-9);
        Assert.Equal("clean", plan.GetProperty("verdict").GetString());
        Assert.Equal(200, Row(plan, "polariser").GetProperty("isoDial").GetDouble());
        Assert.Equal(1.5, Row(plan, "polariser").GetProperty("stops").GetDouble());
        Assert.NotEmpty(Row(plan, "polariser").GetProperty("cost").GetString()!);
        Assert.Contains(plan.GetProperty("cautions").EnumerateArray(), c => c.GetProperty("code").GetString() == "foam");
    }

    // Published: job E3, the order of the options and where each leads.
    [Fact]
    public void Brackenhush_Wood_orders_what_to_give_up()
    {
        JsonElement plan = Json(["--aperture", "8", "--shutter", "1/125", "--ev", "9", "--filter", "polariser 1.5", "--leaves", "still", "--leaf-distance", "10m", "--leaf-speed", "25cm/s", "--focal", "50mm", .. Limits]);
        Assert.Equal("stretch", plan.GetProperty("verdict").GetString());
        Assert.Equal(["waitForLull", "polariser", "aperture", "smallerPrint", "average"], plan.GetProperty("giveUp").EnumerateArray().Select(r => r.GetProperty("what").GetString()));
        Assert.All(plan.GetProperty("giveUp").EnumerateArray(), r => Assert.Equal("clean", r.GetProperty("reaches").GetString()));
        Assert.Equal(424.264, Row(plan, "smallerPrint").GetProperty("print").GetProperty("widthMm").GetDouble(), 0.001);
    }

    // Published: job E7: 5 of 25 kept: 14 more (6 to 43) for 95 %; 0 of 10: cannot say, the chance may be anything up to 26 %.
    [Fact]
    public void A_trial_tells_how_many_frames_a_lull_still_takes()
    {
        string[] scene = ["--aperture", "8", "--shutter", "1/125", "--ev", "9", "--leaves", "still", "--leaf-distance", "10m", "--leaf-speed", "25cm/s", "--focal", "50mm", .. Limits];
        JsonElement plan = Json([.. scene, "--kept", "5 of 25"]);
        JsonElement trial = plan.GetProperty("leaves").GetProperty("trial");
        Assert.Equal((14, 6, 43), (trial.GetProperty("moreFrames").GetInt32(), trial.GetProperty("moreFramesFewest").GetInt32(), trial.GetProperty("moreFramesMost").GetInt32()));
        Assert.Contains("about 14 more for a 95 % chance of one (could be 6 to 43)", Row(plan, "waitForLull").GetProperty("cost").GetString(), StringComparison.Ordinal);
        JsonElement none = Json([.. scene, "--kept", "0 of 10"]).GetProperty("leaves").GetProperty("trial");
        Assert.Equal(JsonValueKind.Null, none.GetProperty("moreFramesMost").ValueKind);
        Assert.Equal(0.26, none.GetProperty("chanceAtMost").GetDouble(), 0.005);
        Assert.Equal(2, _program.Run(["plan", .. scene, "--kept", "11 of 10"]).Code);
    }

    // Derived: the same light told in three ways is the same plan; f/8 1/30 at ISO 400 is EV 9.
    [Fact]
    public void The_meter_may_be_told_in_three_ways()
    {
        string Plan(params string[] light) => Json(["--aperture", "8", "--shutter", "1/60", .. light, .. Limits]).GetProperty("gapStops").GetDouble().ToString("F9", CultureInfo.InvariantCulture);
        Assert.Equal("3.000000000", Plan("--under", "3"));
        Assert.Equal(Plan("--under", "3"), Plan("--meter", "f/8 1/30 ISO 400"));
        Assert.Equal(Plan("--under", "3"), Plan("--ev", "9"));
    }

    // Derived: design, negative stops in every writing, and below base the numbers stay arithmetic.
    [Theory]
    [InlineData("--under", "-2 1/3")]
    [InlineData("--under=-2 1/3", null)]
    [InlineData("--under", "\u22122 1/3")]
    public void Stops_over_are_written_with_a_minus(string option, string? value)
    {
        string[] light = value is null ? [option] : [option, value];
        JsonElement plan = Json(["--aperture", "11", "--shutter", "1/4", .. light, .. Limits]);
        Assert.Equal(-7 / 3.0, plan.GetProperty("gapStops").GetDouble(), 1e-12);
        Assert.Equal(100 * Math.Pow(2, -7 / 3.0), plan.GetProperty("exposure").GetProperty("isoExact").GetDouble(), 1e-9);
        Assert.Contains(plan.GetProperty("cautions").EnumerateArray(), c => c.GetProperty("code").GetString() == "belowBase");
    }

    // Derived: 11 as a mark is 2^(7/2), as a literal number 11; from EV 6 2/3 at 1/4 s.
    [Fact]
    public void Literal_numbers_are_taken_as_they_stand()
    {
        JsonElement plan = Json(["--aperture", "11", "--shutter", "1/4", "--ev", "6 2/3", "--literal", .. Limits]);
        Assert.Equal(Math.Log2(121 * 4) - 20 / 3.0, plan.GetProperty("gapStops").GetDouble(), 1e-9);
    }

    // Published: job E4: 90 cm from 60 cm, clean 356, dial 320, with its reason and the caveat on banding.
    [Fact]
    public void Limits_are_converted_with_their_reason()
    {
        JsonElement plan = Json(["--aperture", "11", "--shutter", "1/4", "--under", "2 1/3", "--print", "90cm", "--distance", "60cm", .. Limits]);
        JsonElement limits = plan.GetProperty("limits");
        Assert.Equal(356, limits.GetProperty("cleanIso").GetDouble(), 0.5);
        Assert.Equal(320, limits.GetProperty("cleanDial").GetDouble());
        Assert.Contains(plan.GetProperty("cautions").EnumerateArray(), c => c.GetProperty("text").GetString()!.Contains("Banding", StringComparison.Ordinal));
        Assert.Equal("stretch", plan.GetProperty("verdict").GetString());
    }

    // Derived: the criterion asks for 40 at 30.5 pixels a degree (EXP-30, EXP-33); a print seen from near reaches limits inside the ladder, and two stops lie between 40 and 20
    // where light alone makes the noise, here with 0.2 stop for read noise.
    [Fact]
    public void A_kept_camera_gives_limits_that_are_said_to_be_worked_out()
    {
        _program.Run("cameras", "import", BodyA());
        string[] near = ["--aperture", "11", "--shutter", "1/4", "--under", "2 1/3", "--print", "120cm", "--distance", "40cm"];
        JsonElement limits = Json(near).GetProperty("limits");
        Assert.Equal(("workedOut", "midGrey", "none"), (limits.GetProperty("how").GetString(), limits.GetProperty("tone").GetString(), limits.GetProperty("treatment").GetString()));
        double clean = limits.GetProperty("cleanIso").GetDouble(), stretch = limits.GetProperty("stretchIso").GetDouble();
        Assert.InRange(clean, 100, 6400);
        Assert.Equal(2, Math.Log2(stretch / clean), 0.2);
        string words = _program.Run(["plan", .. near]).Out;
        Assert.Contains("not judged by you", Flat(words), StringComparison.Ordinal);
        Assert.Contains("Shadows show it first", Flat(words), StringComparison.Ordinal);
        Assert.DoesNotContain("your clean", words, StringComparison.Ordinal);
    }

    // Published: job, answer 21: on a format 1.5 times smaller clean 800 becomes about 356; f/7.5 there has the depth of f/11, which gives back 1.17 stops.
    [Fact]
    public void Limits_of_another_format_are_converted()
    {
        string[] small = ["--shutter", "1/4", "--ev", "6 2/3", "--format", "24x16mm", "--limit-format", "36x24mm", .. Limits];
        JsonElement same = Json(["--aperture", "11", .. small]), equal = Json(["--aperture", FormattableString.Invariant($"{Math.Pow(2, 3.5) / 1.5:R}"), .. small]);
        Assert.Equal(356, same.GetProperty("limits").GetProperty("cleanIso").GetDouble(), 0.5);
        Assert.Contains(equal.GetProperty("assumed").EnumerateArray(), s => s.GetString()!.StartsWith("f/7.54 on 24 × 16 mm has the depth of f/11", StringComparison.Ordinal));
        // A draw: at equal depth and shutter the spare is what the larger format has.
        Assert.Equal(2 / 3.0, equal.GetProperty("spare").GetProperty("cleanStops").GetDouble(), 1e-9);
    }

    // Derived: smooth to textured is one stop, a rule of thumb; from shadows no rule leads anywhere.
    [Fact]
    public void Another_tone_is_converted_or_refused_with_the_reason()
    {
        string[] scene = ["--aperture", "11", "--shutter", "1/4", "--under", "2 1/3", .. Limits];
        JsonElement rock = Json([.. scene, "--limit-tone", "smooth", "--tone", "textured"]).GetProperty("limits");
        Assert.Equal((1600, "textured", "tone"), (rock.GetProperty("cleanIso").GetDouble(), rock.GetProperty("tone").GetString(), rock.GetProperty("shifts")[0].GetProperty("what").GetString()));
        JsonElement dark = Json([.. scene, "--limit-tone", "shadows", "--tone", "textured"]);
        Assert.Equal((JsonValueKind.Null, "unknown"), (dark.GetProperty("limits").ValueKind, dark.GetProperty("verdict").GetString()));
        Assert.Contains("hold for shadows", dark.GetProperty("limitRefusal").GetString(), StringComparison.Ordinal);
        // Limits whose tone nobody said lead nowhere either.
        Assert.Contains("a tone that was not stated", Flat(_program.Run(["plan", .. scene, "--tone", "smooth"]).Out), StringComparison.Ordinal);
        Assert.Contains("write smooth, textured, mid-grey or shadows", _program.Run(["plan", .. scene, "--tone", "shiny"]).Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_ladder_that_ends_before_the_limit_says_so()
    {
        _program.Run("cameras", "import", BodyA());
        string[] usual = ["--aperture", "11", "--shutter", "1/4", "--under", "2 1/3", "--print", "60cm", "--distance", "60cm"];
        Assert.Equal(6400, Json(usual).GetProperty("limits").GetProperty("cleanIso").GetDouble());
        Assert.Contains("the highest measured on Body A, is clean for this print; nothing is known above it", Flat(_program.Run(["plan", .. usual]).Out), StringComparison.Ordinal);
        // Above the highest level that limit is unknown: nobody measured stretch, so nothing lies over it.
        string[] above = ["--aperture", "11", "--shutter", "1/4", "--under", "6 1/3", "--print", "60cm", "--distance", "60cm"];
        JsonElement beyond = Json(above);
        Assert.Equal((JsonValueKind.Null, "unknown"), (beyond.GetProperty("limits").ValueKind, beyond.GetProperty("verdict").GetString()));
        string told = Flat(_program.Run(["plan", .. above]).Out);
        Assert.Contains("nothing is known above it", told, StringComparison.Ordinal);
        Assert.DoesNotContain("over stretch", told, StringComparison.Ordinal);
        // Without a print the camera says nothing of limits.
        Assert.Equal("unknown", Json("--aperture", "11", "--shutter", "1/4", "--under", "2 1/3").GetProperty("verdict").GetString());
    }

    [Fact]
    public void Without_any_limit_it_says_what_it_could_say()
    {
        Ended plan = _program.Run("plan", "--aperture", "11", "--shutter", "1/4", "--under", "2 1/3");
        Assert.Equal((0, ""), (plan.Code, plan.Error));
        Assert.StartsWith("ISO 500 closes the gap; whether it is clean for a print you have not named I cannot say.", plan.Out, StringComparison.Ordinal);
        Assert.Contains("With limits, worked out for a measured camera or your own", Flat(plan.Out), StringComparison.Ordinal);
        Assert.False(Directory.Exists(_program.Data));
    }

    // Published: job E7: 5 of 25 kept, about 14 more for 95 %, 6 to 43.
    [Fact]
    public void A_trial_is_told_even_when_the_exposure_fits()
    {
        string[] still = ["--aperture", "8", "--shutter", "1/60", "--under", "3", "--leaves", "still", "--leaf-distance", "10m", "--wind-at-leaf", "1m/s", "--focal", "50mm"];
        string told = Flat(_program.Run(["plan", .. still, "--kept", "5 of 25", .. Limits]).Out);
        Assert.Contains("14 more", told, StringComparison.Ordinal);
        Assert.Contains("6 to 43", told, StringComparison.Ordinal);
    }

    // Derived: at base ISO a longer exposure gains nothing, so waiting for a lull stops there.
    [Fact]
    public void Waiting_for_a_lull_never_goes_below_base()
    {
        JsonElement plan = Json(["--aperture", "8", "--shutter", "1/125", "--under", "4", "--leaves", "still", "--leaf-distance", "10m", "--wind", "3m/s", "--site", "stand", "--focal", "50mm", .. Limits]);
        JsonElement lull = Assert.Single(plan.GetProperty("giveUp").EnumerateArray(), r => r.GetProperty("what").GetString()!.Contains("lull", StringComparison.OrdinalIgnoreCase));
        Assert.Equal(4, lull.GetProperty("stops").GetDouble(), 1e-9);
        Assert.Equal(100, lull.GetProperty("isoDial").GetDouble());
    }

    [Fact]
    public void Limits_that_were_moved_to_another_print_are_not_said_to_be_given()
    {
        string told = Flat(_program.Run(["plan", "--aperture", "11", "--shutter", "1/4", "--under", "3", "--print", "90cm", "--distance", "60cm", .. Limits]).Out);
        Assert.Contains("Clean 356, stretch 1422, worked out from those you gave for another print", told, StringComparison.Ordinal);
    }

    [Fact]
    public void A_filter_named_twice_is_refused()
    {
        Ended plan = _program.Run(["plan", "--aperture", "11", "--shutter", "1/4", "--under", "2", "--filter", "polariser 1.5", "--filter", "polariser 1.5", .. Limits]);
        Assert.Equal((2, ""), (plan.Code, plan.Out));
        Assert.Contains("named twice", plan.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Quiet_leaves_the_remarks_out()
    {
        string[] call = ["plan", "--aperture", "11", "--shutter", "1/4", "--under", "2 1/3", .. Limits];
        Assert.Contains("\nMind\n", _program.Run(call).Out, StringComparison.Ordinal);
        string quiet = _program.Run([.. call, "--quiet"]).Out;
        Assert.DoesNotContain("Mind", quiet, StringComparison.Ordinal);
        Assert.StartsWith("ISO 500: inside clean", quiet, StringComparison.Ordinal);
    }

    // Derived: 2^(-7/3) times base 100 is 19.8, whose nearest third is 20.
    [Fact]
    public void Far_below_base_the_arithmetic_and_its_dial_stay() =>
        Assert.Equal(20, Json(["--aperture", "11", "--shutter", "1/4", "--under=-2 1/3", .. Limits]).GetProperty("exposure").GetProperty("isoDial").GetDouble());

    // Derived: the light that was worked out is subtracted its filter once; a filter fitted afterwards as often as it is named.
    [Fact]
    public void A_worked_out_light_takes_each_filter_off_once()
    {
        string[] there = ["--aperture", "11", "--shutter", "1/4", "--light", "09:40", "--lat", "50.1", "--lon", "-3.2", "--zone", "Europe/London", "--date", "2026-10-17", .. Limits];
        double bare = Json(there).GetProperty("gapStops").GetDouble();
        JsonElement with = Json([.. there, "--filter", "polariser 1.5"]);
        Assert.Equal(bare + 1.5, with.GetProperty("gapStops").GetDouble(), 1e-9);
        Assert.Equal(bare + 4.5, Json([.. there, "--filter", "polariser 1.5", "--filter-after", "nd8"]).GetProperty("gapStops").GetDouble(), 1e-9);
        Assert.Contains(with.GetProperty("cautions").EnumerateArray(), c => c.GetProperty("code").GetString() == "sunSafety");
    }

    // Derived: 24 mm, 0.25 mm on the print, from 1.8 m to infinity: the aperture is the first mark at or above the widest that geometry allows; job A8: a streak of 4 % at 35 mm, 6 m, 1 m/s is 1/4.
    [Fact]
    public void An_exposure_that_is_left_out_is_found_from_the_wishes()
    {
        JsonElement plan = Json(["--ev", "6 2/3", "--near", "1.8m", "--far", "inf", "--focal", "35mm", "--water", "streak 4%", "--water-speed", "1m/s", "--water-distance", "6m", .. Limits]);
        Assert.Equal("1/4 s", plan.GetProperty("exposure").GetProperty("shutterMark").GetString());
        JsonElement depth = plan.GetProperty("depth");
        Assert.True(depth.GetProperty("holds").GetBoolean());
        double aperture = plan.GetProperty("exposure").GetProperty("aperture").GetDouble(), widest = depth.GetProperty("widestAperture").GetDouble();
        Assert.InRange(aperture / widest, 1 - 1e-9, Math.Pow(2, 1 / 6.0));
        Assert.Equal(2, plan.GetProperty("assumed").EnumerateArray().Count(s => s.GetString()!.Contains("was chosen", StringComparison.Ordinal)));
    }

    // Published: job, answer 20: 4 frames averaged are 2 stops.
    [Fact]
    public void Averaged_frames_add_to_the_spare()
    {
        string[] scene = ["--aperture", "11", "--shutter", "1/4", "--under", "4", .. Limits];
        double one = Json(scene).GetProperty("spare").GetProperty("cleanStops").GetDouble();
        Assert.Equal(one + 2, Json([.. scene, "--average", "4"]).GetProperty("spare").GetProperty("cleanStops").GetDouble(), 1e-9);
    }

    [Fact]
    public void Why_shows_formulas_and_inputs()
    {
        string words = _program.Run(["plan", "--aperture", "11", "--shutter", "1/4", "--under", "2 1/3", "--why", .. Limits]).Out;
        Assert.Contains("f/11 is 11.314", words, StringComparison.Ordinal);
        Assert.Contains("base \u00B7 2^gap = 504", words, StringComparison.Ordinal);
        Assert.DoesNotContain("\nWhy\n", _program.Run(["plan", "--aperture", "11", "--shutter", "1/4", "--under", "2 1/3", .. Limits]).Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("no lens opens wider", "--aperture", "0.1", "--shutter", "1/4", "--under", "1")]
    [InlineData("to a day", "--aperture", "11", "--shutter", "1e9", "--under", "1")]
    [InlineData("not above zero", "--aperture", "11", "--shutter", "0", "--under", "1")]
    [InlineData("cannot be read", "--aperture", "NaN", "--shutter", "1/4", "--under", "1")]
    [InlineData("cannot be read", "--aperture", "11", "--shutter", "1/4", "--under", "NaN")]
    [InlineData("both tell the light and lie 5.0 stops apart", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--ev", "3")]
    [InlineData("The light is missing", "--aperture", "11", "--shutter", "1/4")]
    [InlineData("--aperture is missing", "--shutter", "1/4", "--under", "1")]
    [InlineData("--aperture is missing", "--shutter", "1/4", "--ev", "9")]
    [InlineData("--shutter is missing", "--aperture", "8", "--ev", "9")]
    [InlineData("no number of frames", "--aperture", "8", "--shutter", "1", "--ev", "9", "--average", "0")]
    [InlineData("between EV", "--aperture", "11", "--shutter", "1/4", "--ev", "99")]
    [InlineData("A limit holds for one print", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--clean", "800")]
    [InlineData("lies below --clean", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--clean", "800", "--stretch", "400", "--limit-print", "60cm", "--limit-distance", "60cm")]
    [InlineData("--print needs --distance", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--print", "60cm")]
    [InlineData("a lift is 0 to 10 stops", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--lift", "-1")]
    [InlineData("--crop", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--crop", "1.5")]
    [InlineData("inside the focal length", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--near", "20mm", "--far", "inf", "--focal", "24mm")]
    [InlineData("not nearer than", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--near", "5m", "--far", "2m", "--focal", "24mm")]
    [InlineData("needs --focal", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--near", "2m", "--far", "inf")]
    [InlineData("no look that is known", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--water", "lace", "--water-speed", "1m/s", "--water-distance", "6m", "--focal", "24mm")]
    [InlineData("how they move", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--leaves", "still", "--leaf-distance", "6m", "--focal", "24mm")]
    [InlineData("two ways", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--filter", "nd 0.9")]
    [InlineData("belongs to --light", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--lat", "50")]
    [InlineData("--zone", "--aperture", "11", "--shutter", "1/4", "--light", "07:40", "--lat", "50", "--lon", "0", "--zone", "Nowhere/At_All")]
    public void A_call_that_is_wrong_ends_with_2_and_one_sentence(string told, params string[] args)
    {
        Ended refused = _program.Run(["plan", .. args]);
        Assert.Equal((2, ""), (refused.Code, refused.Out));
        Assert.Contains(told, refused.Error, StringComparison.Ordinal);
        Assert.Equal(1, refused.Error.Count(c => c == '\n'));
    }

    [Fact]
    public void What_cannot_be_answered_ends_with_3()
    {
        Ended camera = _program.Run("plan", "--aperture", "11", "--shutter", "1/4", "--under", "1", "--camera", "Nope");
        Assert.Equal((3, ""), (camera.Code, camera.Out));
        Assert.Contains("no camera is kept yet", camera.Error, StringComparison.Ordinal);
        Ended gap = _program.Run("plan", "--aperture", "64", "--shutter", "1/8000", "--ev", "-10");
        Assert.Equal((3, ""), (gap.Code, gap.Out));
        Assert.Contains("stops apart", gap.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Help_has_examples() => Assert.Contains("leafstop plan --aperture 11 --shutter 1/4 --under", _program.Run("plan", "--help").Out, StringComparison.Ordinal);

    private static string Flat(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static int Count(string text, string part) => text.Split(part).Length - 1;

    /// <summary>The job's invented Body A as a camera file: its read noise and clip, whole stops and the two sides of the step.</summary>
    private string BodyA()
    {
        (int Iso, double ReadNoise)[] levels = [(100, 3.6), (200, 3.3), (400, 3.1), (500, 1.6), (640, 1.55), (800, 1.5), (1600, 1.4), (3200, 1.3), (6400, 1.25)];
        IEnumerable<string> entries = levels.Select(l =>
        {
            double electrons = 50000.0 * 100 / l.Iso, gain = electrons / 15600;
            return string.Create(CultureInfo.InvariantCulture, $$"""
                { "iso": {{l.Iso}}, "ladder": "metered", "gainElectronsPerDn": {{gain}}, "gainInterval95": [{{gain * 0.99}}, {{gain * 1.01}}], "readNoiseElectrons": {{l.ReadNoise}},
                  "readNoiseInterval95": [{{l.ReadNoise * 0.99}}, {{l.ReadNoise * 1.01}}], "readNoiseSource": "capFrames", "saturationElectrons": {{electrons}}, "clipSeen": true, "usable": true, "flags": [], "reason": null }
                """);
        });
        string file = Path.Combine(_program.Folder, "body-a.json");
        File.WriteAllText(file, $$"""
            { "format": "leafstop-camera", "formatVersion": 1, "name": "Body A", "measurements": [ { "measuredAt": "2026-03-01T06:50:12Z",
              "camera": { "make": "Invented", "model": "Body A", "bodyFingerprint": null, "widthPx": 8256, "heightPx": 5504, "mosaic": "2x2", "bits": 14 },
              "ladder": "metered", "levels": [ {{string.Join(",", entries)}} ], "gainSteps": [ { "belowIso": 400, "aboveIso": 500, "readNoiseRatio": 1.94 } ] } ] }
            """);
        return file;
    }
}
