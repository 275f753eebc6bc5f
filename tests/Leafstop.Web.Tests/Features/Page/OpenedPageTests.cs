using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Storage.Tests;
using Leafstop.Storage.Tests.Cameras;
using Leafstop.Web.Tests.Features.Judgings;

namespace Leafstop.Web.Tests.Features.Page;

/// <summary>The page as the host sends it, before its program runs.</summary>
public sealed class OpenedPageTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public OpenedPageTests()
    {
        Directory.CreateDirectory(Path.Combine(_folder.Path, "page"));
        File.WriteAllText(Path.Combine(_folder.Path, "page", "index.html"), "<!doctype html><div id=\"app\"><!--sent-->Not yet.<!--sent--></div>");
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task The_first_page_says_what_is_kept_and_sends_along_what_the_host_answers()
    {
        new CameraStore(_folder.File).Keep("Body </script> A", [Measurements.At(Measurements.Morning)]);
        new CameraStore(_folder.File).Keep("Body B", [Measurements.At(Measurements.Morning)]);
        Assert.True(new JudgementStore(_folder.File).Keep("Body B", Judged()));
        await using RunningHost host = await RunningHost.Start(_folder);
        string page = await Text(host, "/");
        Assert.StartsWith("<!doctype html><div id=\"app\"><div class=\"sent\">", page, StringComparison.Ordinal);
        Assert.Matches("<h1[^>]*>Body B: clean 800, stretch 3200\\.</h1>", page);
        Assert.Contains("<h2>Body &lt;/script&gt; A</h2>", page, StringComparison.Ordinal);
        Assert.Contains("href=\"judging?camera=Body%20B\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Not yet", page, StringComparison.Ordinal);
        string along = Assert.Single(Regex.Matches(page, "<script type=\"application/json\" id=\"sent-along\">(.*?)</script>", RegexOptions.Singleline)).Groups[1].Value;
        using HttpResponseMessage asked = await Ask(host, "/api/desk");
        JsonElement desk = await JudgingBench.Said(asked);
        Assert.True(JsonElement.DeepEquals(JsonDocument.Parse(along).RootElement, desk), along);
        Assert.Equal(["Body B", "Body </script> A"], desk.EnumerateArray().Select(c => c.GetProperty("name").GetString()));
    }

    [Fact]
    public async Task Without_a_camera_the_first_page_says_how_to_begin()
    {
        await using RunningHost host = await RunningHost.Start(_folder);
        Assert.Matches("<h1[^>]*>No camera is measured yet\\.</h1>", await Text(host, "/"));
    }

    // Another page is not drawn ahead: its links and its light are there at once, and it says that it is being opened.
    [Theory]
    [InlineData("/plan?aperture=11")]
    [InlineData("/judging/abc")]
    public async Task Any_other_page_shows_where_one_is(string address)
    {
        new CameraStore(_folder.File).Keep("Body A", [Measurements.At(Measurements.Morning)]);
        await using RunningHost host = await RunningHost.Start(_folder);
        string page = await Text(host, address);
        Assert.Contains($"<a href=\"{address.Split('/', '?')[1]}\" aria-current=\"page\">", page, StringComparison.Ordinal);
        Assert.Contains("The page is being opened.", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Body A", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_data_file_that_cannot_be_read_does_not_keep_the_page_shut()
    {
        Directory.CreateDirectory(_folder.File.Folder);
        await File.WriteAllTextAsync(Path.Combine(_folder.File.Folder, "leafstop.db"), "no database", TestContext.Current.CancellationToken);
        await using RunningHost host = await RunningHost.Start(_folder);
        using HttpResponseMessage desk = await Ask(host, "/api/desk");
        Assert.Equal(HttpStatusCode.InternalServerError, desk.StatusCode);
        Assert.Contains("The page is being opened.", await Text(host, "/"), StringComparison.Ordinal);
    }

    private static Task<HttpResponseMessage> Ask(RunningHost host, string address) => host.Client.GetAsync(new Uri(host.Address, address), TestContext.Current.CancellationToken);

    private static async Task<string> Text(RunningHost host, string address)
    {
        using HttpResponseMessage response = await Ask(host, address);
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Equal("text/html", response.Content.Headers.ContentType!.MediaType);
        return await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
    }

    /// <summary>An observer whose limits lie at ISO 800 and 3200 and who never errs.</summary>
    private static KeptJudging Judged()
    {
        JudgingLadder ladder = JudgingLadder.Of(new double[] { 100, 200, 400, 800, 1600, 3200, 6400, 12800 }.Select(s => new LadderIso(Iso.FromSpeed(s), true)));
        LimitTags tags = new("Invented Body A, 14-bit raw, 8256 pixels across", new PrintCondition(600, 600), ToneKind.Smooth, NoiseTreatment.None, Stops.Of(4));
        JudgingSession session = JudgingSession.Begin(new JudgingSetup(7, ladder, tags));
        while (session.Next() is { } trial)
        {
            double stops = session.Picture(trial.Token).Level.EquivalentStops;
            session.Answer(trial.Token, (trial.Question == JudgingQuestion.Disturbs ? stops > 3.1 : stops < 5.1) ? JudgingReply.Yes : JudgingReply.No);
        }
        return KeptJudging.Of(session, Measurements.Morning, Measurements.Morning);
    }
}
