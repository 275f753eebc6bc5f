using System.Diagnostics;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Leafstop.Core.Judging;
using Leafstop.Web.Tests.Features.Judgings;

namespace Leafstop.Web.Tests;

/// <summary>The host as a process of its own, known by its address only.</summary>
internal sealed class ShippedHost(Process process, HttpClient client) : IAsyncDisposable
{
    public HttpClient Client => client;

    public static Process Process(params string[] arguments) => System.Diagnostics.Process.Start(
        new ProcessStartInfo(Path.Combine(AppContext.BaseDirectory, "Leafstop.Web"), arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;

    public static async Task<ShippedHost> Start(string dataFolder, string folder)
    {
        Process process = Process(dataFolder, "--folder", folder);
        string? line = await process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken);
        if (line is null)
            Assert.Fail(await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken));
        // "Leafstop answers at http://127.0.0.1:40123/?key=...; Ctrl-C ends it."
        Uri printed = new(line.Split(' ')[3].TrimEnd(';'));
        HttpClient client = new() { BaseAddress = new Uri(printed.GetLeftPart(UriPartial.Authority)) };
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", printed.Query["?key=".Length..]);
        return new ShippedHost(process, client);
    }

    public async Task<JsonElement> Ready(string at)
    {
        JsonElement state;
        while ((state = await Get(at)).GetProperty("state").GetString() is "waiting" or "measuring" or "cutting")
            await Task.Delay(50, TestContext.Current.CancellationToken);
        Assert.True(state.GetProperty("state").GetString() == "ready", state.GetRawText());
        return state;
    }

    /// <summary>The grain half-way between two levels, in the mid tone, looked up by a side-by-side check.</summary>
    public async Task<double> GrainBetween(string at, double cleanerIso, double noisierIso)
    {
        using (HttpResponseMessage begun = await client.PostAsJsonAsync($"{at}/side-by-side", new { cleanerIso, noisierIso }, TestContext.Current.CancellationToken))
            Assert.Equal(HttpStatusCode.Created, begun.StatusCode);
        JsonElement pair = await Get($"{at}/side-by-side/trial");
        while (pair.GetProperty("region").GetString() != "mid")
        {
            using HttpResponseMessage passed = await client.PostAsJsonAsync(
                $"{at}/side-by-side/answers", new { token = pair.GetProperty("token").GetString(), reply = "unsure" }, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.OK, passed.StatusCode);
            pair = await Get($"{at}/side-by-side/trial");
        }
        double grain = Math.Sqrt(await Grain(pair.GetProperty("left")) * await Grain(pair.GetProperty("right")));
        using HttpResponseMessage ended = await client.DeleteAsync($"{at}/side-by-side", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NoContent, ended.StatusCode);
        return grain;
    }

    public async Task<JsonElement> AnswerOnce(string at, double clean, double stretch)
    {
        JsonElement trial = await Get($"{at}/trial");
        double grain = await Grain(trial.GetProperty("pictures").EnumerateArray().Single(p => p.GetProperty("region").GetString() == "mid").GetProperty("address"));
        bool isYes = trial.GetProperty("question").GetString() == JudgingQuestion.Disturbs.Ask() ? grain > clean : grain < stretch;
        return await JudgingBench.Said(await client.PostAsJsonAsync(
            $"{at}/answers", new { token = trial.GetProperty("token").GetString(), reply = isYes ? "yes" : "no" }, TestContext.Current.CancellationToken));
    }

    /// <summary>Ends it as a power cut would.</summary>
    public void Kill() => process.Kill();

    /// <summary>Asks it to end, as Ctrl-C and a closing session do, and waits until it has.</summary>
    public async Task Terminated()
    {
        using Process asked = System.Diagnostics.Process.Start("kill", ["-TERM", process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(0, process.ExitCode);
    }

    public async ValueTask DisposeAsync()
    {
        client.Dispose();
        if (!process.HasExited)
            process.Kill();
        await process.WaitForExitAsync(CancellationToken.None);
        process.Dispose();
    }

    public async Task<JsonElement> Get(string address) => await JudgingBench.Said(await client.GetAsync(address, TestContext.Current.CancellationToken));

    private async Task<double> Grain(JsonElement address) =>
        ShownPixels.Grain(await client.GetByteArrayAsync(address.GetString(), TestContext.Current.CancellationToken));
}
