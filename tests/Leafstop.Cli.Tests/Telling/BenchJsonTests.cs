using System.Text.Json;
using Leafstop.Core.Sensor;

namespace Leafstop.Cli.Tests.Telling;

/// <summary>Derived: the shape is the contract of docs/json/measure.md.</summary>
public sealed class BenchJsonTests
{
    private static readonly (string Name, JsonValueKind Kind)[] LevelContract =
    [
        ("iso", JsonValueKind.Number), ("frames", JsonValueKind.Array), ("gainElectronsPerDn", JsonValueKind.Number), ("gainInterval95", JsonValueKind.Array),
        ("readNoiseElectrons", JsonValueKind.Number), ("readNoiseInterval95", JsonValueKind.Array), ("readNoiseDn", JsonValueKind.Number), ("saturationElectrons", JsonValueKind.Number),
        ("dynamicRangeStops", JsonValueKind.Number), ("lightErrorStops", JsonValueKind.Number), ("neighbourCorrelation", JsonValueKind.Number), ("usable", JsonValueKind.True),
        ("flags", JsonValueKind.Array), ("reason", JsonValueKind.Null), ("readNoiseSource", JsonValueKind.String), ("planes", JsonValueKind.Array), ("curve", JsonValueKind.Array),
        ("clipSeen", JsonValueKind.True), ("blackDn", JsonValueKind.Number), ("rowNoiseElectrons", JsonValueKind.Number), ("columnNoiseElectrons", JsonValueKind.Number),
    ];

    [Fact]
    public void The_document_has_the_properties_of_the_contract()
    {
        JsonElement root = Root(BodyABench.Metered());
        Assert.Equal("Leafstop", root.GetProperty("camera").GetProperty("make").GetString());
        Assert.Equal("Body A", root.GetProperty("camera").GetProperty("model").GetString());
        Assert.Equal("metered", root.GetProperty("ladder").GetString());
        Assert.Equal(500, Assert.Single(root.GetProperty("gainSteps").EnumerateArray()).GetDouble());
        Assert.Equal(9, root.GetProperty("levels").GetArrayLength());
        foreach ((string name, JsonValueKind kind) in LevelContract)
            Assert.Equal((name, kind), (name, root.GetProperty("levels")[0].GetProperty(name).ValueKind));
        JsonElement limit = root.GetProperty("predictedLimits")[1];
        Assert.Equal("minus3Ev", limit.GetProperty("tone").GetString());
        Assert.Equal("workedOut", limit.GetProperty("how").GetString());
        Assert.Equal("ruleOfThumb", limit.GetProperty("stretchHow").GetString());
        Assert.Equal(260, limit.GetProperty("clean").GetDouble());
        Assert.Equal(250, limit.GetProperty("cleanDial").GetDouble());
        Assert.Equal(600, limit.GetProperty("print").GetProperty("widthMm").GetDouble());
        Assert.Equal("none", limit.GetProperty("treatment").GetString());
        Assert.Equal("Body A, 14-bit raw", limit.GetProperty("body").GetString());
    }

    [Fact]
    public void Frames_are_file_names_without_the_folder_and_intervals_are_low_then_high()
    {
        JsonElement level = Root(BodyABench.Metered()).GetProperty("levels")[0];
        Assert.Equal(["BENCH_100_1.dng", "BENCH_100_2.dng"], level.GetProperty("frames").EnumerateArray().Select(f => f.GetString()!));
        JsonElement interval = level.GetProperty("readNoiseInterval95");
        Assert.True(interval[0].GetDouble() < 3.6 && interval[1].GetDouble() > 3.6);
        Assert.Equal("capFrames", level.GetProperty("planes")[0].GetProperty("blackSource").GetString());
    }

    [Fact]
    public void A_level_that_is_left_off_stays_with_its_flag_its_reason_and_its_numbers()
    {
        JsonElement root = Root(BodyABench.DriftingLampAndHelpfulCamera());
        JsonElement level = root.GetProperty("levels")[8];
        Assert.False(level.GetProperty("usable").GetBoolean());
        Assert.Equal("smoothed", level.GetProperty("flags")[0].GetString());
        Assert.Contains("smoothed", level.GetProperty("reason").GetString(), StringComparison.Ordinal);
        Assert.Equal(1.01, level.GetProperty("readNoiseElectrons").GetDouble());
        JsonElement finding = root.GetProperty("findings")[0];
        Assert.Equal("lightDrift", finding.GetProperty("code").GetString());
        Assert.True(finding.GetProperty("reshoot").GetBoolean());
        Assert.Equal("BENCH_1600_1.dng", finding.GetProperty("frames")[0].GetString());
        Assert.Equal(1600, root.GetProperty("verdict").GetProperty("reshootIso")[0].GetDouble());
    }

    [Fact]
    public void What_is_not_known_is_null_and_no_number_is_infinite()
    {
        JsonElement level = Root(BodyABench.NothingUsable()).GetProperty("levels")[0];
        foreach (string name in new[] { "gainElectronsPerDn", "gainInterval95", "readNoiseElectrons", "readNoiseInterval95", "readNoiseDn", "saturationElectrons", "dynamicRangeStops", "neighbourCorrelation" })
            Assert.Equal(JsonValueKind.Null, level.GetProperty(name).ValueKind);
        Assert.Equal(JsonValueKind.Null, Root(BodyABench.JpegOnly()).GetProperty("camera").ValueKind);

        Level odd = BodyABench.Level(100) with { ReadNoiseElectrons = new Estimate(0, double.NaN, double.PositiveInfinity), LightErrorStops = double.NaN };
        JsonElement written = Root(BodyABench.Metered() with { Levels = [odd] }).GetProperty("levels")[0];
        Assert.Equal(JsonValueKind.Null, written.GetProperty("readNoiseInterval95").ValueKind);
        Assert.Equal(JsonValueKind.Null, written.GetProperty("lightErrorStops").ValueKind);
        Assert.Equal(JsonValueKind.Null, written.GetProperty("dynamicRangeStops").ValueKind);
    }

    [Theory]
    [InlineData(LadderKind.None, "none")]
    [InlineData(LadderKind.Metered, "metered")]
    [InlineData(LadderKind.SameLight, "sameLight")]
    [InlineData(LadderKind.Mixed, "mixed")]
    public void Ladders_are_named_as_in_the_contract(LadderKind kind, string name) =>
        Assert.Equal(name, Root(BodyABench.Metered() with { Ladder = kind }).GetProperty("ladder").GetString());

    [Fact]
    public void Names_with_accents_line_breaks_and_quotes_come_back_as_they_are()
    {
        const string Name = "/bench/Häfen \"2\"\n<b>.dng";
        Level level = BodyABench.Level(100) with { Frames = [Name], CapFrames = [] };
        JsonElement frames = Root(BodyABench.Metered() with { Levels = [level], Findings = [] }).GetProperty("levels")[0].GetProperty("frames");
        Assert.Equal("Häfen \"2\"\n<b>.dng", frames[0].GetString());
    }

    [Fact]
    public void Frames_in_two_folders_keep_the_part_that_tells_them_apart()
    {
        Level level = BodyABench.Level(100) with { Frames = ["/bench/one/a.dng", "/bench/two/a.dng"], CapFrames = [] };
        JsonElement frames = Root(BodyABench.Metered() with { Levels = [level], Findings = [] }).GetProperty("levels")[0].GetProperty("frames");
        Assert.Equal(["one/a.dng", "two/a.dng"], frames.EnumerateArray().Select(f => f.GetString()!));
    }

    [Fact]
    public void The_example_of_the_documentation_has_the_same_properties_as_the_answer()
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !File.Exists(Path.Combine(folder, "Leafstop.slnx")))
            folder = Path.GetDirectoryName(folder);
        string page = File.ReadAllText(Path.Combine(folder!, "docs", "json", "measure.md"));
        int from = page.IndexOf("```json", StringComparison.Ordinal) + "```json".Length;
        using JsonDocument example = JsonDocument.Parse(page[from..page.IndexOf("```", from, StringComparison.Ordinal)]);
        Assert.Equal(Paths(Root(BodyABench.DriftingLampAndHelpfulCamera()), ""), Paths(example.RootElement, ""));
    }

    private static SortedSet<string> Paths(JsonElement element, string at) => element.ValueKind switch
    {
        JsonValueKind.Object => [.. element.EnumerateObject().SelectMany(p => Paths(p.Value, $"{at}/{p.Name}").Append($"{at}/{p.Name}"))],
        JsonValueKind.Array => [.. element.EnumerateArray().SelectMany(e => Paths(e, at + "[]"))],
        _ => [],
    };

    private static JsonElement Root(BenchAnswer answer)
    {
        using JsonDocument json = JsonDocument.Parse(BenchJson.Of(answer));
        return json.RootElement.Clone();
    }
}
