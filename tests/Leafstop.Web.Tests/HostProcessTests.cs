using System.Diagnostics;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Net.Sockets;
using System.Text.Json;
using Leafstop.Core.Judging;
using Leafstop.Raw.Synthetic;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Storage.Tests;
using Leafstop.Storage.Tests.Cameras;
using Leafstop.Web.Tests.Features.Judgings;

namespace Leafstop.Web.Tests;

/// <summary>The host as it is shipped: a process of its own that decodes in copies of itself, known by its addresses only.</summary>
public sealed class HostProcessTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    // Derived: an eye that goes by the grain of the mid tone alone, half-way between ISO 400 and 800 for the one question and between 1600 and 3200 for the other, is told limits in between.
    [Fact]
    public async Task A_folder_is_judged_to_a_kept_limit_by_an_eye_that_reads_pixels_though_the_host_is_killed_on_the_way()
    {
        string raws = Path.Combine(_folder.Path, "bench");
        new CameraStore(_folder.File).Keep("Body A", [Measurements.At(Measurements.Morning)]);
        BenchSample.Write(new SampleOptions { Width = 1200, Height = 800, Isos = [100, 200, 400, 800, 1600, 3200, 6400], CapFramesPerLevel = 0 }, raws, cancellation: TestContext.Current.CancellationToken);
        string at;
        double clean, stretch;
        await using (Shipped host = await Shipped.Start(_folder.File.Folder, _folder.Path))
        {
            using HttpResponseMessage begun = await host.Client.PostAsJsonAsync(
                "/api/judgings", new { folder = raws, camera = "body a", printWidthMm = 120, viewingDistanceMm = 600, screenPixelsPerCentimetre = 100, seed = 3 }, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.Accepted, begun.StatusCode);
            at = begun.Headers.Location!.OriginalString;
            await host.Ready(at);
            clean = await host.GrainBetween(at, 400, 800);
            stretch = await host.GrainBetween(at, 1600, 3200);
            for (int i = 0; i < 12; i++)
                await host.AnswerOnce(at, clean, stretch);
            host.Kill();
        }

        await using (Shipped host = await Shipped.Start(_folder.File.Folder, _folder.Path))
        {
            using (HttpResponseMessage resumed = await host.Client.PostAsync($"{at}/resume", null, TestContext.Current.CancellationToken))
                Assert.Equal(HttpStatusCode.Accepted, resumed.StatusCode);
            JsonElement state = await host.Ready(at);
            Assert.Equal(12, state.GetProperty("answers").GetInt32());
            while (state.GetProperty("state").GetString() == "ready")
                state = await host.AnswerOnce(at, clean, stretch);

            JsonElement result = state.GetProperty("result");
            TestContext.Current.SendDiagnosticMessage("{0}", result.GetRawText());
            Assert.True(state.GetProperty("isKept").GetBoolean());
            Assert.InRange(result.GetProperty("clean").GetProperty("iso").GetDouble(), 400, 800);
            Assert.InRange(result.GetProperty("stretch").GetProperty("iso").GetDouble(), 1600, 3200);
            Assert.True(result.GetProperty("areLimitsKept").GetBoolean());
            await host.Terminated();
        }

        KeptJudging kept = Assert.Single(new JudgementStore(_folder.File).List("Body A"));
        Assert.False(kept.IsUnfinished);
        Assert.NotNull(kept.ToLimits());
    }

    [Fact]
    public async Task What_it_cannot_be_started_with_is_said_in_one_sentence()
    {
        (int code, string told) = await Tried();
        Assert.Equal(2, code);
        Assert.StartsWith("Start this with the data folder and, if you like, a port from 0 to 65535", told, StringComparison.Ordinal);
        using TcpListener taken = new(IPAddress.Loopback, 0);
        taken.Start();
        int port = ((IPEndPoint)taken.LocalEndpoint).Port;
        (code, told) = await Tried(_folder.Path, port.ToString(System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(2, code);
        Assert.StartsWith($"Port {port} is in use", told, StringComparison.Ordinal);
    }

    private static async Task<(int Code, string Told)> Tried(params string[] arguments)
    {
        using Process process = Shipped.Process(arguments);
        string told = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (process.ExitCode, told);
    }

    private sealed class Shipped(Process process, HttpClient client) : IAsyncDisposable
    {
        public HttpClient Client => client;

        public static Process Process(params string[] arguments) => System.Diagnostics.Process.Start(
            new ProcessStartInfo(Path.Combine(AppContext.BaseDirectory, "Leafstop.Web"), arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;

        public static async Task<Shipped> Start(string dataFolder, string folder)
        {
            Process process = Process(dataFolder, "--folder", folder);
            string? line = await process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken);
            if (line is null)
                Assert.Fail(await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken));
            // "Leafstop answers at http://127.0.0.1:40123/?key=...; Ctrl-C ends it."
            Uri printed = new(line.Split(' ')[3].TrimEnd(';'));
            HttpClient client = new() { BaseAddress = new Uri(printed.GetLeftPart(UriPartial.Authority)) };
            client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", printed.Query["?key=".Length..]);
            return new Shipped(process, client);
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

        private async Task<JsonElement> Get(string address) => await JudgingBench.Said(await client.GetAsync(address, TestContext.Current.CancellationToken));

        private async Task<double> Grain(JsonElement address) =>
            ShownPixels.Grain(await client.GetByteArrayAsync(address.GetString(), TestContext.Current.CancellationToken));
    }
}
