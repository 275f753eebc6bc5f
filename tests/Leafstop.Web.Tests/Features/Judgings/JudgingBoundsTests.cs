using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Leafstop.Raw.Synthetic;

namespace Leafstop.Web.Tests.Features.Judgings;

/// <summary>Where crops lie, and how much may be asked for at once.</summary>
public sealed class JudgingBoundsTests(JudgingBench bench) : IClassFixture<JudgingBench>
{
    // Derived: 64 sensor pixels at 100 on a centimetre of the print are 32 at 50 on a centimetre of the screen.
    [Fact]
    public async Task Crops_that_were_moved_lie_where_they_were_moved_to_and_the_others_are_found()
    {
        (string first, JsonElement found) = await bench.Made(Wish(cropSidePixels: 64));
        JsonElement crops = found.GetProperty("crops");
        Assert.Equal((64, 1200, 800), (crops.GetProperty("sidePixels").GetInt32(), crops.GetProperty("frameWidthPixels").GetInt32(), crops.GetProperty("frameHeightPixels").GetInt32()));
        Assert.Equal([100.0, 200, 400, 800, 1600, 3200, 5000, 8000], found.GetProperty("isos").EnumerateArray().Select(i => i.GetDouble()));
        var mid = Place(crops, "mid");
        (int Left, int Top) moved = (mid.Left > 600 ? mid.Left - 5 : mid.Left + 5, mid.Top > 400 ? mid.Top - 7 : mid.Top + 7);

        (string second, JsonElement state) = await bench.Made(Wish(cropSidePixels: 64, places: [new { region = "mid", left = moved.Left, top = moved.Top }]));
        Assert.Equal("ready", state.GetProperty("state").GetString());
        Assert.Equal(moved, Place(state.GetProperty("crops"), "mid"));
        Assert.Equal(Place(crops, "dark"), Place(state.GetProperty("crops"), "dark"));
        byte[] before = await Mid(first), after = await Mid(second);
        Assert.Equal(32, after[19]);
        Assert.Equal(before.Length, after.Length);
        Assert.NotEqual(before, after);
        await bench.End(first);
        await bench.End(second);

        // The same seed asks for the same level first, so that only the place differs.
        async Task<byte[]> Mid(string at) => await bench.Client.GetByteArrayAsync(
            (await bench.Get($"{at}/trial")).GetProperty("pictures").EnumerateArray().Single(p => p.GetProperty("region").GetString() == "mid").GetProperty("address").GetString(),
            TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Crops_that_cannot_be_are_refused_in_a_sentence()
    {
        Assert.StartsWith("cropSidePixels", await Wrong(Wish(cropSidePixels: 47)), StringComparison.Ordinal);
        Assert.StartsWith("cropSidePixels", await Wrong(Wish(cropSidePixels: 1025)), StringComparison.Ordinal);
        Assert.StartsWith("places: each has", await Wrong(Wish(places: [new { region = "sky", left = 10, top = 10 }])), StringComparison.Ordinal);
        Assert.StartsWith("places: each has", await Wrong(Wish(places: [new { region = "dark", left = -1, top = 10 }])), StringComparison.Ordinal);
        Assert.StartsWith("places: each has", await Wrong(Wish(places: [new { region = "dark", left = 10 }])), StringComparison.Ordinal);
        Assert.StartsWith("places: each has", await Wrong(Wish(places: [null])), StringComparison.Ordinal);
        Assert.StartsWith("places: each region", await Wrong(Wish(places: [new { region = "dark", left = 10, top = 10 }, new { region = "dark", left = 20, top = 10 }])), StringComparison.Ordinal);

        (string at, JsonElement state) = await bench.Made(Wish(places: [new { region = "dark", left = 1150, top = 10 }]));
        Assert.Equal("failed", state.GetProperty("state").GetString());
        Assert.Contains("does not lie inside the frame", state.GetProperty("why").GetString(), StringComparison.Ordinal);
        await bench.End(at);

        async Task<string> Wrong(object wish) =>
            await JudgingBench.Refused(await bench.Client.PostAsJsonAsync("/api/judgings", wish, TestContext.Current.CancellationToken), HttpStatusCode.BadRequest);
    }

    // Derived: a print of 2560 mm from 2560 pixels has 10 on a centimetre; a screen of 80 draws each 8 wide: 320 sensor pixels become 2560, more than 2048.
    [Fact]
    public async Task Pictures_larger_than_any_screen_are_refused()
    {
        string folder = Path.Combine(bench.Host.Folder, "large");
        BenchSample.Write(new SampleOptions { Width = 2560, Height = 2560, Isos = [100, 200, 400], FramesPerLevel = 1, CapFramesPerLevel = 0, Lossless = false }, folder, cancellation: TestContext.Current.CancellationToken);
        (string at, JsonElement state) = await bench.Made(new { folder, camera = "Body A", printWidthMm = 2560, viewingDistanceMm = 600, screenPixelsPerCentimetre = 80 });
        Assert.Equal("failed", state.GetProperty("state").GetString());
        Assert.Equal("A crop of 320 sensor pixels would be 2560 pixels wide on this screen, and 2048 is the most: choose smaller crops or a narrower print.", state.GetProperty("why").GetString());
        await bench.End(at);
    }

    [Fact]
    public async Task Four_are_open_at_most_and_one_of_them_decodes_at_a_time()
    {
        List<string> open = [];
        for (int i = 0; i < 4; i++)
        {
            using HttpResponseMessage begun = await bench.Client.PostAsJsonAsync("/api/judgings", Wish(), TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.Accepted, begun.StatusCode);
            open.Add(begun.Headers.Location!.OriginalString);
        }
        Assert.StartsWith("4 judgings are open", await JudgingBench.Refused(
            await bench.Client.PostAsJsonAsync("/api/judgings", Wish(), TestContext.Current.CancellationToken), HttpStatusCode.Conflict), StringComparison.Ordinal);

        string[] states;
        bool someWaited = false;
        int crowded = 0;
        do
        {
            JsonElement list = await bench.Get("/api/judgings");
            Assert.Equal(open.Order(), list.EnumerateArray().Select(j => $"/api/judgings/{j.GetProperty("id").GetString()}").Order());
            states = [.. list.EnumerateArray().Select(j => j.GetProperty("state").GetString()!)];
            someWaited |= states.Contains("waiting");
            // Two are read one after the other, and between them the turn may pass on; but not twice running.
            crowded = states.Count(s => s is "measuring" or "cutting") > 1 ? crowded + 1 : 0;
            Assert.InRange(crowded, 0, 1);
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }
        while (states.Count(s => s == "ready") < 2);
        Assert.True(someWaited);

        // Those that wait or decode are ended too, and the room is free again.
        foreach (string at in open)
            await bench.End(at);
        Assert.Empty((await bench.Get("/api/judgings")).EnumerateArray());
        await bench.End(await bench.Ready(61));
    }

    private object Wish(int? cropSidePixels = null, object?[]? places = null) =>
        new { folder = bench.Folder, camera = "Body A", printWidthMm = 120, viewingDistanceMm = 600, screenPixelsPerCentimetre = 50, seed = 60, cropSidePixels, places };

    private static (int Left, int Top) Place(JsonElement crops, string region)
    {
        JsonElement place = crops.GetProperty("places").EnumerateArray().Single(p => p.GetProperty("region").GetString() == region);
        return (place.GetProperty("left").GetInt32(), place.GetProperty("top").GetInt32());
    }
}
