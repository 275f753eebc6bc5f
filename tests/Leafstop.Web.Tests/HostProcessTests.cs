using System.Diagnostics;
using System.Net;
using System.Net.Http.Json;
using System.Net.Sockets;
using System.Text.Json;
using Leafstop.Raw.Synthetic;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Storage.Tests;
using Leafstop.Storage.Tests.Cameras;

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
        await using (ShippedHost host = await ShippedHost.Start(_folder.File.Folder, _folder.Path))
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

        await using (ShippedHost host = await ShippedHost.Start(_folder.File.Folder, _folder.Path))
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
        using Process process = ShippedHost.Process(arguments);
        string told = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (process.ExitCode, told);
    }
}
