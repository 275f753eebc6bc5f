using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Tests.Cameras;

namespace Leafstop.Web.Tests.Features.Cameras;

/// <summary>Cameras go out and come in over the wire as by leafstop cameras.</summary>
public sealed class CameraKeepingTests
{
    [Theory]
    [InlineData("Body A", "body-a.json")]
    [InlineData("Körper A/B %2F \"½\"", "k-rper-a-b--2f.json")]
    [InlineData("../../etc", "etc.json")]
    public async Task A_camera_of_any_name_is_exported_forgotten_and_brought_back_whole(string name, string file)
    {
        await using RunningHost host = await RunningHost.Start();
        CameraStore store = new(host.File);
        store.Keep(name, [Measurements.At(Measurements.Morning), Measurements.At(Measurements.Morning.AddDays(3))]);
        Uri at = new(host.Address, $"/api/cameras/{Uri.EscapeDataString(name)}");
        JsonElement told = await Json(await host.Client.GetAsync(at, TestContext.Current.CancellationToken));
        Assert.Equal((name, 2), (told.GetProperty("name").GetString(), told.GetProperty("measurings").GetArrayLength()));
        Assert.Equal((2, 100.0, 3.6), (Measuring("usableLevels").GetInt32(), Measuring("lowestIso").GetDouble(), Measuring("readNoiseElectrons").GetDouble()));

        using HttpResponseMessage exported = await host.Client.GetAsync(new Uri(at + "/file"), TestContext.Current.CancellationToken);
        Assert.Equal(("application/json", file), (exported.Content.Headers.ContentType!.MediaType, exported.Content.Headers.ContentDisposition!.FileName));
        string text = await exported.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Equal(CameraFile.Write(store.Find(name)!), text);

        Assert.Equal(HttpStatusCode.NoContent, (await host.Client.DeleteAsync(at, TestContext.Current.CancellationToken)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await host.Client.DeleteAsync(at, TestContext.Current.CancellationToken)).StatusCode);
        Assert.Null(store.Find(name));
        JsonElement kept = await Json(await Sent(host, new { text }));
        Assert.Equal((name, 2, 0, 2), (kept.GetProperty("name").GetString(), kept.GetProperty("added").GetInt32(), kept.GetProperty("alreadyThere").GetInt32(), kept.GetProperty("history").GetInt32()));
        Assert.Equal(2, store.Find(name)!.Measurements.Length);
        Assert.Contains("nothing was changed", (await Json(await Sent(host, new { text }))).GetProperty("words").GetString(), StringComparison.Ordinal);

        JsonElement Measuring(string member) => told.GetProperty("measurings")[0].GetProperty(member);
    }

    [Theory]
    [InlineData("", 400, "nothing in it")]
    [InlineData("hello", 400, "no JSON")]
    [InlineData("{}", 400, "")]
    [InlineData("{\"format\":\"leafstop-camera\",\"formatVersion\":99,\"name\":\"B\",\"measurements\":[]}", 400, "")]
    public async Task What_is_no_camera_file_is_refused_in_a_sentence(string text, int status, string word)
    {
        await using RunningHost host = await RunningHost.Start();
        using HttpResponseMessage response = await Sent(host, new { text });
        Assert.Equal((HttpStatusCode)status, response.StatusCode);
        string detail = JsonDocument.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).RootElement.GetProperty("detail").GetString()!;
        Assert.Contains(word, detail, StringComparison.Ordinal);
        Assert.EndsWith(".", detail, StringComparison.Ordinal);
        Assert.Empty(new CameraStore(host.File).List());
    }

    // Another body under the same name is told apart, and nothing is kept.
    [Fact]
    public async Task Another_body_under_a_name_that_is_taken_is_refused()
    {
        await using RunningHost host = await RunningHost.Start();
        CameraStore store = new(host.File);
        store.Keep("Body A", [Measurements.At(Measurements.Morning)]);
        string other = CameraFile.Write(new KeptCamera("Body A", [Measurements.At(Measurements.Morning, model: "Body B")]));
        using HttpResponseMessage response = await Sent(host, new { text = other });
        Assert.Equal(HttpStatusCode.Conflict, response.StatusCode);
        Assert.Single(store.Find("Body A")!.Measurements);
        Assert.Equal(HttpStatusCode.OK, (await Sent(host, new { text = other, name = "Body B" })).StatusCode);
        Assert.Equal(2, store.List().Length);
    }

    [Fact]
    public async Task More_than_four_megabytes_are_not_taken_and_a_file_of_one_is()
    {
        await using RunningHost host = await RunningHost.Start();
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, (await Sent(host, new { text = new string(' ', 5 << 20) })).StatusCode);
        string text = CameraFile.Write(new KeptCamera("Body A", [Measurements.At(Measurements.Morning)]));
        Assert.Equal(HttpStatusCode.OK, (await Sent(host, new { text = text + new string(' ', 1 << 20) })).StatusCode);
    }

    private static Task<HttpResponseMessage> Sent(RunningHost host, object body) => host.Client.PostAsJsonAsync(new Uri(host.Address, "/api/cameras"), body, TestContext.Current.CancellationToken);

    private static async Task<JsonElement> Json(HttpResponseMessage response)
    {
        string text = await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(response.IsSuccessStatusCode, text);
        using JsonDocument document = JsonDocument.Parse(text);
        return document.RootElement.Clone();
    }
}
