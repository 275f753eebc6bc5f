using System.Net.Http.Json;
using System.Text.Json;
using Leafstop.Raw.Synthetic;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Tests.Cameras;

namespace Leafstop.Web.Tests.Features.Judgings;

/// <summary>A running host, Body A kept in it, and a folder of eight levels of 1200 × 800, two frames each.</summary>
public sealed class JudgingBench : IAsyncLifetime
{
    internal RunningHost Host { get; private set; } = null!;

    public HttpClient Client => Host.Client;

    public string Folder => Path.Combine(Host.Folder, "bench");

    public string Crops => Path.Combine(Host.Folder, "crops");

    public async ValueTask InitializeAsync()
    {
        Host = await RunningHost.Start();
        new CameraStore(Host.File).Keep("Body A", [Measurements.At(Measurements.Morning)]);
        BenchSample.Write(new SampleOptions { Width = 1200, Height = 800, Isos = [100, 200, 400, 800, 1600, 3200, 5000, 8000], CapFramesPerLevel = 0 }, Folder);
    }

    /// <summary>A judging of 12 cm, which has 100 pixels on a centimetre, on a screen of 50, ready to be judged.</summary>
    public async Task<string> Ready(long seed, string camera = "Body A")
    {
        JsonElement state = await Said(await Client.PostAsJsonAsync(
            "/api/judgings", new { folder = Folder, camera, printWidthMm = 120, viewingDistanceMm = 600, screenPixelsPerCentimetre = 50, seed }, TestContext.Current.CancellationToken));
        string at = $"/api/judgings/{state.GetProperty("id").GetString()}";
        while (state.GetProperty("state").GetString() is "measuring" or "cutting")
        {
            await Task.Delay(50, TestContext.Current.CancellationToken);
            state = await Get(at);
        }
        Assert.True(state.GetProperty("state").GetString() == "ready", state.GetRawText());
        return at;
    }

    public async Task<JsonElement> Get(string address) => await Said(await Client.GetAsync(address, TestContext.Current.CancellationToken));

    public Task<HttpResponseMessage> Answer(string at, string token, string reply) =>
        Client.PostAsJsonAsync($"{at}/answers", new { token, reply }, TestContext.Current.CancellationToken);

    public static async Task<JsonElement> Said(HttpResponseMessage response)
    {
        using (response)
        {
            using JsonDocument body = JsonDocument.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
            return body.RootElement.Clone();
        }
    }

    public ValueTask DisposeAsync() => Host.DisposeAsync();
}
