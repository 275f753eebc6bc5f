using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Synthetic;

namespace Leafstop.Web.Tests.Features.Judgings;

/// <summary>What a judging tells of the frames it shows, and which frames it does not show.</summary>
public sealed class JudgingHonestyTests(JudgingBench bench) : IClassFixture<JudgingBench>
{
    // Derived: with 0.4 stop more light the frames of ISO 1600 have the noise of ISO 1213: an answer to them would count at a false ISO.
    [Fact]
    public async Task A_level_that_had_another_light_is_not_shown_and_corrections_are_told()
    {
        string folder = Sample("drifted", new SampleOptions { Faults = SampleFaults.None with { LampDriftIso = 1600, LampDriftStops = 0.4 } });
        File.WriteAllText(Path.Combine(folder, "broken.dng"), "no picture");
        (string at, JsonElement state) = await bench.Made(Wish(folder));
        Assert.Equal("ready", state.GetProperty("state").GetString());
        Assert.Equal([100.0, 400, 800, 3200, 6400], state.GetProperty("isos").EnumerateArray().Select(i => i.GetDouble()));
        string[] notes = [.. state.GetProperty("notes").EnumerateArray().Select(n => n.GetString()!.Replace('\u00a0', ' '))];
        Assert.Contains(notes, n => n.StartsWith("ISO 1600 is not shown: it had 0.4 stop more light than the others", StringComparison.Ordinal));
        Assert.Contains(notes, n => n.Contains("broken.dng", StringComparison.Ordinal));
        JsonElement[] corrections = [.. state.GetProperty("corrections").EnumerateArray()];
        Assert.Equal([100.0, 400, 800, 3200, 6400], corrections.Select(c => c.GetProperty("iso").GetDouble()));
        Assert.All(corrections, c => Assert.InRange(c.GetProperty("stops").GetDouble(), -0.1, 0.1));
        // Numbers of the noise come after the answers.
        Assert.Equal(JsonValueKind.Null, state.GetProperty("visibleNoise").ValueKind);
        await bench.End(at);
    }

    [Fact]
    public async Task A_ladder_in_the_same_light_and_pictures_without_samples_are_refused_with_the_reason()
    {
        (string at, JsonElement state) = await bench.Made(Wish(Sample("same", new SampleOptions { Ladder = LadderKind.SameLight })));
        Assert.Equal("failed", state.GetProperty("state").GetString());
        Assert.StartsWith("This ladder was shot in the same light", state.GetProperty("why").GetString(), StringComparison.Ordinal);
        await bench.End(at);

        string jpegs = Directory.CreateDirectory(Path.Combine(bench.Host.Folder, "jpegs")).FullName;
        File.WriteAllBytes(Path.Combine(jpegs, "one.jpg"), [0xFF, 0xD8, 0xFF, 0xD9]);
        (at, state) = await bench.Made(Wish(jpegs));
        Assert.Contains("JPEG", state.GetProperty("why").GetString(), StringComparison.Ordinal);
        await bench.End(at);
    }

    [Fact]
    public async Task One_that_failed_takes_no_room()
    {
        string empty = Directory.CreateDirectory(Path.Combine(bench.Host.Folder, "nothing")).FullName;
        for (int i = 0; i < 6; i++)
            Assert.Equal("failed", (await bench.Made(Wish(empty))).State.GetProperty("state").GetString());
        using HttpResponseMessage begun = await bench.Client.PostAsJsonAsync("/api/judgings", Wish(bench.Folder), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Accepted, begun.StatusCode);
        JsonElement[] open = [.. (await bench.Get("/api/judgings")).EnumerateArray()];
        Assert.InRange(open.Length, 2, 5);
        foreach (JsonElement one in open)
            await bench.End($"/api/judgings/{one.GetProperty("id").GetString()}");
    }

    private string Sample(string name, SampleOptions options)
    {
        string folder = Path.Combine(bench.Host.Folder, name);
        BenchSample.Write(options with { Width = 1200, Height = 800, Isos = [100, 400, 800, 1600, 3200, 6400], CapFramesPerLevel = 0 }, folder, cancellation: TestContext.Current.CancellationToken);
        return folder;
    }

    private static object Wish(string folder) => new { folder, camera = "Body A", printWidthMm = 120, viewingDistanceMm = 600, screenPixelsPerCentimetre = 50, seed = 90 };
}
