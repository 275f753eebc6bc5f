using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Leafstop.Raw.Synthetic;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Tests;
using Leafstop.Storage.Tests.Cameras;

namespace Leafstop.Web.Tests.Features.Judgings;

/// <summary>A running host, Body A kept in it, and a folder of eight levels of 1200 × 800, two frames each.</summary>
public sealed class JudgingBench : IAsyncLifetime
{
    private readonly TemporaryFolder _folder = new();

    internal RunningHost Host { get; private set; } = null!;

    public HttpClient Client => Host.Client;

    public string Folder => Path.Combine(Host.Folder, "bench");

    public string Crops => Path.Combine(Host.Folder, "crops");

    public async ValueTask InitializeAsync()
    {
        Host = await RunningHost.Start(_folder);
        new CameraStore(Host.File).Keep("Body A", [Measurements.At(Measurements.Morning)]);
        Write(seed: 1);
    }

    /// <summary>Writes the raw files.</summary>
    public void Write(ulong seed) =>
        BenchSample.Write(new SampleOptions { Width = 1200, Height = 800, Isos = [100, 200, 400, 800, 1600, 3200, 5000, 8000], CapFramesPerLevel = 0, Seed = seed }, Folder);

    /// <summary>Another host on the same data, beside this one.</summary>
    internal Task<RunningHost> Another() => RunningHost.Start(_folder);

    /// <summary>Ends the host, whatever it is doing, and starts another one with the same data.</summary>
    public async Task Restart()
    {
        await Host.DisposeAsync();
        Host = await RunningHost.Start(_folder);
    }

    /// <summary>A judging of 12 cm, which has 100 pixels on a centimetre, on a screen of 50, ready to be judged.</summary>
    public async Task<string> Ready(long seed, string camera = "Body A")
    {
        (string at, JsonElement state) = await Made(new { folder = Folder, camera, printWidthMm = 120, viewingDistanceMm = 600, screenPixelsPerCentimetre = 50, seed });
        Assert.True(state.GetProperty("state").GetString() == "ready", state.GetRawText());
        return at;
    }

    /// <summary>Starts a judging and waits until it is ready or has failed.</summary>
    public async Task<(string At, JsonElement State)> Made(object wish)
    {
        HttpResponseMessage begun = await Client.PostAsJsonAsync("/api/judgings", wish, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Accepted, begun.StatusCode);
        string at = begun.Headers.Location!.OriginalString;
        begun.Dispose();
        return (at, await Settled(at));
    }

    /// <summary>The state once it is ready or has failed.</summary>
    public async Task<JsonElement> Settled(string at)
    {
        JsonElement state;
        while ((state = await Get(at)).GetProperty("state").GetString() is "waiting" or "measuring" or "cutting")
            await Task.Delay(50, TestContext.Current.CancellationToken);
        return state;
    }

    public async Task<JsonElement> Get(string address) => await Said(await Client.GetAsync(address, TestContext.Current.CancellationToken));

    public Task<HttpResponseMessage> Answer(string at, string token, string reply) =>
        Client.PostAsJsonAsync($"{at}/answers", new { token, reply }, TestContext.Current.CancellationToken);

    /// <summary>Ends a judging.</summary>
    public async Task End(string at)
    {
        using HttpResponseMessage response = await Client.DeleteAsync(at, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NoContent, response.StatusCode);
    }

    /// <summary>The sentence of a refusal.</summary>
    public static async Task<string> Refused(HttpResponseMessage response, HttpStatusCode status)
    {
        Assert.Equal(status, response.StatusCode);
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType!.MediaType);
        return (await Said(response)).GetProperty("detail").GetString()!;
    }

    public static async Task<JsonElement> Said(HttpResponseMessage response)
    {
        using (response)
        {
            using JsonDocument body = JsonDocument.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
            return body.RootElement.Clone();
        }
    }

    public async ValueTask DisposeAsync()
    {
        await Host.DisposeAsync();
        _folder.Dispose();
    }
}
