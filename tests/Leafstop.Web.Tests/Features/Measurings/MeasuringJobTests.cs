using System.Net;
using System.Text.Json;
using Leafstop.Core.Sensor;
using Leafstop.Look.Bench;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Synthetic;
using Leafstop.Storage.Tests;

namespace Leafstop.Web.Tests.Features.Measurings;

/// <summary>Derived: a folder is measured as a job that can be followed by many, stopped, gone on with, and that outlives its host.</summary>
public sealed class MeasuringJobTests(MeasuringBench bench) : IClassFixture<MeasuringBench>
{
    [Fact]
    public async Task Two_readers_follow_it_to_an_answer_that_is_the_one_of_the_command_line()
    {
        string at = await bench.Begin();
        List<(string? Mark, JsonElement State)>[] readers = await Task.WhenAll(bench.Follow(at), bench.Follow(at));
        Assert.All(readers, told =>
        {
            Assert.Equal("done", told[^1].State.GetProperty("state").GetString());
            Assert.Equal(12, told[^1].State.GetProperty("total").GetInt32());
            int[] done = [.. told.Select(t => t.State.GetProperty("done").GetInt32())];
            Assert.Equal(done.Order(), done);
            Assert.Equal(told.Count, told.Select(t => t.Mark).Distinct().Count());
        });
        BenchAnswer expected = await FolderMeasurement.MeasureAsync(bench.Folder, bench.Host.Wishes.Worker, new PrintCondition(600, 600), cancel: MeasuringBench.Patience);
        JsonElement answer = await bench.Get($"{at}/answer");
        using JsonDocument own = JsonDocument.Parse(BenchJson.Of(expected));
        Assert.True(JsonElement.DeepEquals(own.RootElement, answer));
        Assert.Equal(answer.GetProperty("verdict").GetProperty("sentence").GetString(), (await bench.Get(at)).GetProperty("verdict").GetString());

        // A reader whose line broke after the last state is not told it again from the start, and one that comes late is told at once.
        Assert.Equal("done", Assert.Single(await bench.Follow(at)).State.GetProperty("state").GetString());
        using JsonDocument document = JsonDocument.Parse(await bench.Client.GetStringAsync(ApiDocument.Address, MeasuringBench.Patience));
        ApiForm api = new(document.RootElement);
        api.Gives("/api/measurings/{id}", "get", 200, "application/json", await bench.Get(at));
        api.Gives("/api/measurings", "get", 200, "application/json", await bench.Get("/api/measurings"));
        api.Gives("/api/measurings/{id}/answer", "get", 200, "application/json", answer);
    }

    [Fact]
    public async Task A_reader_that_comes_back_is_told_only_what_it_does_not_have()
    {
        await bench.Host.Turn.Turn.WaitAsync(MeasuringBench.Patience);
        string at;
        Task<List<(string? Mark, JsonElement State)>> back;
        try
        {
            at = await bench.Begin();
            (string? mark, JsonElement state) = Assert.Single(await MeasuringBench.Follow(bench.Client, at, null, _ => true));
            Assert.Equal("waiting", state.GetProperty("state").GetString());
            back = bench.Follow(at, mark);
            // A mark of a host that is gone counts as none.
            Assert.Equal("waiting", Assert.Single(await MeasuringBench.Follow(bench.Client, at, "another-7", _ => true)).State.GetProperty("state").GetString());
        }
        finally
        {
            bench.Host.Turn.Turn.Release();
        }

        List<(string? Mark, JsonElement State)> told = await back;
        Assert.DoesNotContain(told, t => t.State.GetProperty("state").GetString() == "waiting");
        Assert.Equal("done", told[^1].State.GetProperty("state").GetString());
    }

    [Fact]
    public async Task What_is_wrong_with_a_file_is_told_on_the_way()
    {
        string at = await bench.Begin(bench.Copy("with an empty file", "BENCH_9999.dng", []));
        JsonElement last = (await bench.Follow(at))[^1].State;
        JsonElement found = Assert.Single(last.GetProperty("findings").EnumerateArray());
        Assert.Equal("unreadable", found.GetProperty("code").GetString());
        Assert.Equal("BENCH_9999.dng", Assert.Single(found.GetProperty("frames").EnumerateArray()).GetString());
        Assert.Contains("0 bytes", found.GetProperty("text").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Stopped_it_keeps_its_place_in_the_list_and_goes_on_when_asked()
    {
        await bench.Host.Turn.Turn.WaitAsync(MeasuringBench.Patience);
        string at;
        try
        {
            at = await bench.Begin();
            JsonElement stopped = await bench.Post($"{at}/stop");
            Assert.Equal("stopped", stopped.GetProperty("state").GetString());
        }
        finally
        {
            bench.Host.Turn.Turn.Release();
        }

        Assert.Contains("nothing to stop", MeasuringBench.Why(await bench.Post($"{at}/stop", status: HttpStatusCode.Conflict)), StringComparison.Ordinal);
        Assert.Contains("stopped before its end", MeasuringBench.Why(await bench.Get($"{at}/answer", HttpStatusCode.Conflict)), StringComparison.Ordinal);
        await bench.Restart();
        Assert.Equal("stopped", (await bench.Get(at)).GetProperty("state").GetString());
        await bench.Post($"{at}/resume", status: HttpStatusCode.Accepted);
        Assert.Equal("done", (await bench.Follow(at))[^1].State.GetProperty("state").GetString());
        Assert.Contains("is done", MeasuringBench.Why(await bench.Post($"{at}/resume", status: HttpStatusCode.Conflict)), StringComparison.Ordinal);

        using HttpResponseMessage removed = await bench.Client.DeleteAsync(at, MeasuringBench.Patience);
        Assert.Equal(HttpStatusCode.NoContent, removed.StatusCode);
        await bench.Get(at, HttpStatusCode.NotFound);
        await bench.Get($"{at}/events", HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Stopped_while_it_decodes_it_ends_its_decoding_and_lets_the_next_one_begin()
    {
        string at = await bench.Begin();
        await MeasuringBench.Follow(bench.Client, at, null, s => s.GetProperty("done").GetInt32() > 0 || s.GetProperty("state").GetString() == "done");
        using HttpResponseMessage stopped = await bench.Client.PostAsync($"{at}/stop", null, MeasuringBench.Patience);
        // So few frames may be done before they can be stopped.
        Assert.Contains(stopped.StatusCode, new[] { HttpStatusCode.OK, HttpStatusCode.Conflict });
        await bench.Done();
    }

    [Fact]
    public async Task A_host_that_ends_over_a_job_is_followed_by_one_that_does_it()
    {
        await bench.Host.Turn.Turn.WaitAsync(MeasuringBench.Patience);
        string at = await bench.Begin();
        await bench.Restart(w => w with { Folders = [] });
        JsonElement held = await bench.Get(at);
        Assert.Equal("held", held.GetProperty("state").GetString());
        Assert.Contains($"leafstop serve \"{bench.Folder}\"", held.GetProperty("why").GetString(), StringComparison.Ordinal);
        await bench.Restart();
        Assert.Equal("done", (await bench.Follow(at))[^1].State.GetProperty("state").GetString());
        await bench.Restart();
        Assert.Equal("done", (await bench.Get(at)).GetProperty("state").GetString());
        Assert.True((await bench.Get($"{at}/answer")).GetProperty("verdict").GetProperty("hasAnswer").GetBoolean());
    }

    [Fact]
    public async Task Two_hosts_on_one_data_folder_do_not_do_the_same_job()
    {
        await bench.Host.Turn.Turn.WaitAsync(MeasuringBench.Patience);
        string at = await bench.Begin();
        await using (RunningHost other = await bench.Another())
        {
            using JsonDocument seen = JsonDocument.Parse(await other.Client.GetStringAsync(at, MeasuringBench.Patience));
            Assert.Equal("elsewhere", seen.RootElement.GetProperty("state").GetString());
        }

        bench.Host.Turn.Turn.Release();
        Assert.Equal("done", (await bench.Follow(at))[^1].State.GetProperty("state").GetString());
    }

    [Fact]
    public async Task Killed_in_the_middle_of_its_frames_nothing_is_lost()
    {
        using TemporaryFolder folder = new();
        string raws = Path.Combine(folder.Path, "bench");
        BenchSample.Write(new SampleOptions { Width = 1200, Height = 800, Isos = [100, 200, 400, 800, 1600, 3200], CapFramesPerLevel = 0 }, raws, cancellation: MeasuringBench.Patience);
        string at;
        await using (ShippedHost host = await ShippedHost.Start(folder.File.Folder, folder.Path))
        {
            using HttpResponseMessage begun = await host.Client.PostAsync("/api/measurings", System.Net.Http.Json.JsonContent.Create(new { folder = raws }), MeasuringBench.Patience);
            at = begun.Headers.Location!.OriginalString;
            JsonElement seen = (await MeasuringBench.Follow(host.Client, at, null, s => s.GetProperty("done").GetInt32() > 0))[^1].State;
            Assert.Equal("measuring", seen.GetProperty("state").GetString());
            host.Kill();
        }

        await using (ShippedHost host = await ShippedHost.Start(folder.File.Folder, folder.Path))
        {
            Assert.Equal("done", (await MeasuringBench.Follow(host.Client, at, null, _ => false))[^1].State.GetProperty("state").GetString());
            Assert.Equal(6, (await host.Get($"{at}/answer")).GetProperty("levels").GetArrayLength());
            await host.Terminated();
        }

        Assert.Empty(Directory.EnumerateFiles(folder.File.Folder, "*.claim"));
    }

    [Fact]
    public async Task What_cannot_be_measured_is_said_in_a_sentence()
    {
        Assert.Contains("choose one there, or start this again", await Refused(new { folder = "/etc" }), StringComparison.Ordinal);
        Assert.Contains("choose one there, or start this again", await Refused(new { folder = bench.Folder + "/../../" }), StringComparison.Ordinal);
        Assert.Contains("choose one there, or start this again", await Refused(new { }), StringComparison.Ordinal);
        Assert.StartsWith("printWidthMm: a print is 10 to 100000 mm wide", await Refused(new { folder = bench.Folder, printWidthMm = 5 }), StringComparison.Ordinal);
        Assert.StartsWith("viewingDistanceMm:", await Refused(new { folder = bench.Folder, viewingDistanceMm = 1e9 }), StringComparison.Ordinal);
        Assert.StartsWith("speed: there is no such member", await Refused(new { folder = bench.Folder, speed = 1 }), StringComparison.Ordinal);
        await bench.Get("/api/measurings/00ff", HttpStatusCode.NotFound);

        string empty = Directory.CreateDirectory(Path.Combine(bench.Folder, "..", "nothing in it")).FullName;
        string at = await bench.Done(empty);
        Assert.StartsWith("I cannot measure this camera: no raw frames were found", (await bench.Get(at)).GetProperty("verdict").GetString(), StringComparison.Ordinal);
        Assert.Contains("nothing to keep", MeasuringBench.Why(await bench.Post($"{at}/save", new { name = "Body A" }, HttpStatusCode.Conflict)), StringComparison.Ordinal);

        async Task<string> Refused(object wish) => MeasuringBench.Why(await bench.Post("/api/measurings", wish, HttpStatusCode.BadRequest));
    }

    [Fact]
    public async Task More_than_a_few_at_once_are_refused()
    {
        await bench.Host.Turn.Turn.WaitAsync(MeasuringBench.Patience);
        string[] begun;
        try
        {
            begun = [await bench.Begin(printWidthMm: 300), await bench.Begin(printWidthMm: 400), await bench.Begin(printWidthMm: 600), await bench.Begin(printWidthMm: 900)];
            Assert.Equal(4, begun.Distinct().Count());
            // The same again is the same: nothing more waits.
            Assert.Equal(begun[2], await bench.Begin());
            Assert.Contains("waiting to be measured already", MeasuringBench.Why(await bench.Post("/api/measurings", new { folder = bench.Folder, printWidthMm = 1200 }, HttpStatusCode.Conflict)), StringComparison.Ordinal);
            foreach (string at in begun)
                await bench.Post($"{at}/stop");
        }
        finally
        {
            bench.Host.Turn.Turn.Release();
        }

        foreach (string at in begun)
        {
            using HttpResponseMessage removed = await bench.Client.DeleteAsync(at, MeasuringBench.Patience);
            Assert.Equal(HttpStatusCode.NoContent, removed.StatusCode);
        }
    }
}
