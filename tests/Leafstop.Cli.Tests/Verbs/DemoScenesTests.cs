using System.Text.Json;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Verbs;

namespace Leafstop.Cli.Tests.Verbs;

public sealed class DemoScenesTests
{
    // Published: job, acceptance scenarios E2 and E3.
    [Fact]
    public void The_two_scenes_are_answered_as_the_job_answers_them()
    {
        string text = DemoScenes.Text();
        Assert.Contains("Dimble Spout: ISO 500, inside clean, 2/3 stop to spare.\n  f/11 at 1/4 s; the meter sees EV 6 2/3 through the polariser: 2 1/3 stops under at ISO 100.", text, StringComparison.Ordinal);
        Assert.Contains("Brackenhush Wood: ISO 800, at the clean limit, 0 to spare.\n  f/8 at 1/60 s; the meter sees EV 9 through the polariser: 3 stops under at ISO 100.", text, StringComparison.Ordinal);
        Assert.Contains("invented demo data", text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_answers_are_there_as_JSON()
    {
        using JsonDocument json = JsonDocument.Parse(JsonText.Of(writer =>
        {
            writer.WriteStartObject();
            DemoScenes.Write(writer);
            writer.WriteEndObject();
        }));
        JsonElement[] scenes = [.. json.RootElement.GetProperty("scenes").EnumerateArray()];
        Assert.Equal([500, 800], scenes.Select(s => s.GetProperty("exposure").GetProperty("isoDial").GetDouble()));
        Assert.All(scenes, s => Assert.Equal("clean", s.GetProperty("verdict").GetString()));
        Assert.Equal(2 / 3.0, scenes[0].GetProperty("spare").GetProperty("cleanStops").GetDouble(), 1e-9);
    }
}
