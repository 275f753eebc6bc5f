using System.Net;
using System.Net.Http.Json;
using System.Net.ServerSentEvents;
using System.Text.Json;
using Leafstop.Raw.Synthetic;
using Leafstop.Storage.Tests;

namespace Leafstop.Web.Tests.Features.Measurings;

/// <summary>A folder of three levels of 480 × 320, two frames and two cap frames each, and a host that may open it.</summary>
public sealed class MeasuringBench : IAsyncLifetime
{
    private readonly TemporaryFolder _folder = new();

    internal RunningHost Host { get; private set; } = null!;

    public HttpClient Client => Host.Client;

    public string Folder => Path.Combine(_folder.Path, "bench");

    public static CancellationToken Patience => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        BenchSample.Write(new SampleOptions { Width = 480, Height = 320, Isos = [100, 400, 800] }, Folder);
        Host = await RunningHost.Start(_folder);
    }

    /// <summary>Ends the host, whatever it is doing, and starts another one with the same data.</summary>
    internal async Task Restart(Func<HostWishes, HostWishes>? change = null)
    {
        await Host.DisposeAsync();
        Host = await RunningHost.Start(_folder, change);
    }

    /// <summary>Another host on the same data, beside this one.</summary>
    internal Task<RunningHost> Another() => RunningHost.Start(_folder);

    /// <summary>A copy of the folder with one more file, so that no test meets the folder of another.</summary>
    public string Copy(string name, string file, byte[] content)
    {
        string copy = Directory.CreateDirectory(Path.Combine(_folder.Path, name)).FullName;
        foreach (string frame in Directory.EnumerateFiles(Folder, "*.dng"))
            File.Copy(frame, Path.Combine(copy, Path.GetFileName(frame)));
        File.WriteAllBytes(Path.Combine(copy, file), content);
        return copy;
    }

    /// <summary>Starts to measure; the address of the job.</summary>
    public async Task<string> Begin(string? folder = null, double? printWidthMm = null)
    {
        using HttpResponseMessage begun = await Client.PostAsJsonAsync("/api/measurings", new { folder = folder ?? Folder, printWidthMm }, Patience);
        Assert.Equal(HttpStatusCode.Accepted, begun.StatusCode);
        return begun.Headers.Location!.OriginalString;
    }

    /// <summary>Starts to measure and waits for the end.</summary>
    public async Task<string> Done(string? folder = null)
    {
        string at = await Begin(folder);
        (_, JsonElement last) = (await Follow(at)).Last();
        Assert.True(last.GetProperty("state").GetString() == "done", last.GetRawText());
        return at;
    }

    /// <summary>Every state that one reader is told, with its mark.</summary>
    public Task<List<(string? Mark, JsonElement State)>> Follow(string at, string? after = null) => Follow(Client, at, after, _ => false);

    /// <summary>States until one is enough.</summary>
    public static async Task<List<(string? Mark, JsonElement State)>> Follow(HttpClient client, string at, string? after, Func<JsonElement, bool> isEnough)
    {
        using HttpRequestMessage asked = new(HttpMethod.Get, $"{at}/events");
        if (after is not null)
            asked.Headers.Add("Last-Event-ID", after);
        using HttpResponseMessage response = await client.SendAsync(asked, HttpCompletionOption.ResponseHeadersRead, Patience);
        Assert.Equal("text/event-stream", response.Content.Headers.ContentType!.MediaType);
        List<(string?, JsonElement)> told = [];
        await using Stream stream = await response.Content.ReadAsStreamAsync(Patience);
        await foreach (SseItem<string> item in SseParser.Create(stream).EnumerateAsync(Patience))
        {
            Assert.Equal("state", item.EventType);
            using JsonDocument state = JsonDocument.Parse(item.Data);
            told.Add((item.EventId, state.RootElement.Clone()));
            if (isEnough(state.RootElement))
                break;
        }

        return told;
    }

    public async Task<JsonElement> Get(string address, HttpStatusCode status = HttpStatusCode.OK) => await Said(await Client.GetAsync(address, Patience), status);

    public async Task<JsonElement> Post(string address, object? body = null, HttpStatusCode status = HttpStatusCode.OK) =>
        await Said(await Client.PostAsync(address, body is null ? null : JsonContent.Create(body), Patience), status);

    /// <summary>The sentence of a refusal.</summary>
    public static string Why(JsonElement problem) => problem.GetProperty("detail").GetString()!;

    public async ValueTask DisposeAsync()
    {
        await Host.DisposeAsync();
        _folder.Dispose();
    }

    private static async Task<JsonElement> Said(HttpResponseMessage response, HttpStatusCode status)
    {
        using (response)
        {
            string text = await response.Content.ReadAsStringAsync(Patience);
            Assert.True(status == response.StatusCode, $"{(int)response.StatusCode}: {text}");
            using JsonDocument body = JsonDocument.Parse(text);
            return body.RootElement.Clone();
        }
    }
}
