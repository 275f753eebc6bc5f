using System.Diagnostics;
using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using Leafstop.Core.Judging;
using Leafstop.Storage.Judgements;
using Leafstop.Testing.Judging;
using Leafstop.Web.Features.Judgings;

namespace Leafstop.Web.Tests.Features.Judgings;

/// <summary>Judging on the screen, by requests to the real host, with raw files decoded by real workers.</summary>
public sealed class RunningJudgingTests(JudgingBench bench) : IClassFixture<JudgingBench>
{
    private static readonly byte[] PngMark = [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A];

    // Derived: an observer whose limits lie 3 and 5 stops above ISO 100 (800 and 3200); a third of a stop is what a judging promises, or it says that it is less sure.
    [Fact]
    public async Task An_observer_who_judges_to_the_end_is_told_the_own_limits_and_every_answer_is_kept()
    {
        string at = await bench.Ready(7);
        SimulatedObserver eye = new(7) { CleanStops = 3, StretchStops = 5, SpreadStops = 0.3 };
        JudgingTable table = bench.Host.Judgings.Find(at.Split('/')[^1])!.Table!;
        JsonElement state = default;
        int answers = 0;
        do
        {
            JsonElement trial = await bench.Get($"{at}/trial");
            string token = trial.GetProperty("token").GetString()!;
            JudgingQuestion question = Enum.GetValues<JudgingQuestion>().Single(q => q.Ask() == trial.GetProperty("question").GetString());
            state = await Answered(at, token, eye.Reply(question, table.LevelBehind(token)!.EquivalentStops));
            answers++;
            Assert.Equal(state.GetProperty("state").GetString() == "over", state.GetProperty("visibleNoise").ValueKind == JsonValueKind.Array);
            if (answers is 1 or 10)
                Assert.Equal(answers, Assert.Single(Kept()).Answers.Length);
        }
        while (state.GetProperty("state").GetString() == "ready");

        Assert.Equal("over", state.GetProperty("state").GetString());
        Assert.Equal(answers, state.GetProperty("answers").GetInt32());
        Assert.True(state.GetProperty("isKept").GetBoolean());
        Assert.Equal(JsonValueKind.Null, state.GetProperty("next").ValueKind);
        JsonElement result = state.GetProperty("result");
        IsNear(result.GetProperty("clean"), 3);
        // Derived: measured and predicted are of the same print and tone; 10 % is what the design asks of the two, beside the error of a crop of 100 pixels.
        JsonElement[] noise = [.. state.GetProperty("visibleNoise").EnumerateArray().Where(n => n.GetProperty("region").GetString() == "mid")];
        Assert.Equal(state.GetProperty("isos").GetArrayLength(), noise.Length);
        Assert.All(noise, n => Assert.Equal(
            1, n.GetProperty("measured").GetProperty("lightness").GetDouble() / n.GetProperty("predicted").GetProperty("lightness").GetDouble(), 0.1 + 2 * n.GetProperty("measuredRelativeError").GetDouble()));
        IsNear(result.GetProperty("stretch"), 5);
        TestContext.Current.SendDiagnosticMessage("{0} answers: {1}", answers, result.GetRawText());
        Assert.StartsWith("clean ", result.GetProperty("words")[0].GetString(), StringComparison.Ordinal);

        KeptJudging kept = Assert.Single(Kept());
        Assert.Equal(answers, kept.Answers.Length);
        Assert.False(kept.IsUnfinished);
        Assert.Equal(HttpStatusCode.Conflict, (await bench.Client.GetAsync($"{at}/trial", TestContext.Current.CancellationToken)).StatusCode);
        await End(at);

        KeptJudging[] Kept() => [.. new JudgementStore(bench.Host.File).List("Body A").Where(j => j.Seed == 7)];
    }

    // Derived: crops are an eighth of 800 pixels; a print 12 cm wide of 1200 pixels has 100 on a centimetre and the screen 50: 100 pixels become 50.
    [Fact]
    public async Task Pictures_have_the_scale_of_the_print_and_neither_bytes_nor_headers_tell_the_level()
    {
        string at = await bench.Ready(11);
        HashSet<string> headers = [], chunks = [];
        HashSet<long> lengths = [];
        HashSet<double> levels = [];
        JudgingTable table = bench.Host.Judgings.Find(at.Split('/')[^1])!.Table!;
        for (int i = 0; i < 14; i++)
        {
            JsonElement trial = await bench.Get($"{at}/trial");
            string token = trial.GetProperty("token").GetString()!;
            Assert.Equal(32, token.Length);
            levels.Add(table.LevelBehind(token)!.EquivalentStops);
            Assert.DoesNotContain("iso", trial.GetRawText(), StringComparison.OrdinalIgnoreCase);
            foreach (JsonElement picture in trial.GetProperty("pictures").EnumerateArray())
            {
                using HttpResponseMessage response = await bench.Client.GetAsync(picture.GetProperty("address").GetString(), TestContext.Current.CancellationToken);
                byte[] png = await response.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken);
                Assert.Equal("image/png", response.Content.Headers.ContentType!.MediaType);
                Assert.True(response.Headers.CacheControl!.NoStore);
                lengths.Add(response.Content.Headers.ContentLength!.Value);
                Assert.Equal(png.Length, response.Content.Headers.ContentLength);
                // The date is the clock's.
                headers.Add(string.Join(';', response.Headers.Concat(response.Content.Headers).Where(h => h.Key != "Date").Select(h => $"{h.Key}={string.Join(',', h.Value)}")));
                Assert.Equal(PngMark, png[..8]);
                chunks.Add(Others(png, out int width, out int height));
                Assert.Equal((50, 50), (width, height));
            }
            // Objects, so that the levels go down, and later not, so that they go up.
            await Answered(at, token, i < 5 ? JudgingReply.Yes : JudgingReply.No);
        }

        // Pictures of levels that differ by three stops and more have one length, so it tells nothing.
        Assert.True(levels.Max() - levels.Min() > 3, string.Join(", ", levels));
        Assert.Single(lengths);
        Assert.Single(headers);
        Assert.DoesNotContain("ETag", headers.Single(), StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("Last-Modified", headers.Single(), StringComparison.OrdinalIgnoreCase);
        Assert.Single(chunks);
        Assert.DoesNotContain("ISO", chunks.Single(), StringComparison.OrdinalIgnoreCase);
        await End(at);
    }

    [Fact]
    public async Task An_old_token_is_refused_and_an_answer_taken_back_is_asked_again_under_new_addresses()
    {
        string at = await bench.Ready(13);
        JsonElement first = await bench.Get($"{at}/trial");
        string token = first.GetProperty("token").GetString()!, address = first.GetProperty("pictures")[0].GetProperty("address").GetString()!;
        Assert.Equal(token, (await bench.Get($"{at}/trial")).GetProperty("token").GetString());
        byte[] shown = await bench.Client.GetByteArrayAsync(address, TestContext.Current.CancellationToken);
        JsonElement answered = await Answered(at, token, JudgingReply.Unsure);
        // What comes next comes along, and asking for it shows nothing else.
        Assert.Equal(answered.GetProperty("next").GetRawText(), (await bench.Get($"{at}/trial")).GetRawText());

        await Refused(await bench.Answer(at, token, "yes"), HttpStatusCode.Conflict);
        await Refused(await bench.Client.GetAsync(address, TestContext.Current.CancellationToken), HttpStatusCode.NotFound);
        JsonElement back = await JudgingBench.Said(await bench.Client.PostAsync($"{at}/undo", null, TestContext.Current.CancellationToken));
        Assert.Equal(0, back.GetProperty("answers").GetInt32());
        JsonElement again = await bench.Get($"{at}/trial");
        Assert.Equal(again.GetRawText(), back.GetProperty("next").GetRawText());
        Assert.Equal(first.GetProperty("number").GetInt32(), again.GetProperty("number").GetInt32());
        Assert.NotEqual(token, again.GetProperty("token").GetString());
        Assert.NotEqual(address, again.GetProperty("pictures")[0].GetProperty("address").GetString());
        Assert.Equal(shown, await bench.Client.GetByteArrayAsync(again.GetProperty("pictures")[0].GetProperty("address").GetString(), TestContext.Current.CancellationToken));
        await Refused(await bench.Answer(at, token, "yes"), HttpStatusCode.Conflict);
        await Refused(await bench.Answer(at, again.GetProperty("token").GetString()!, "perhaps"), HttpStatusCode.BadRequest);
        await Refused(await bench.Client.PostAsync($"{at}/undo", null, TestContext.Current.CancellationToken), HttpStatusCode.Conflict);
        await End(at);
        Assert.Contains("go on with it", await Refused(await bench.Client.GetAsync(at, TestContext.Current.CancellationToken), HttpStatusCode.Conflict), StringComparison.Ordinal);
        await Refused(await bench.Client.GetAsync("/api/judgings/0123456789abcdef", TestContext.Current.CancellationToken), HttpStatusCode.NotFound);
    }

    // Derived: the next pictures are asked for within 100 ms once crops are cached; a second judging of the same folder cuts nothing anew.
    [Fact]
    public async Task The_next_pictures_are_made_ahead_for_either_answer_and_crops_are_cut_once()
    {
        string at = await bench.Ready(17);
        Assert.NotEmpty(Directory.GetFiles(bench.Crops, "*.crop"));
        JudgingTable table = bench.Host.Judgings.Find(at.Split('/')[^1])!.Table!;
        List<double> waits = [];
        for (int i = 0; i < 6; i++)
        {
            JsonElement trial = await bench.Get($"{at}/trial");
            await table.Ahead();
            await Answered(at, trial.GetProperty("token").GetString()!, i % 2 == 0 ? JudgingReply.No : JudgingReply.Yes);
            long begun = Stopwatch.GetTimestamp();
            foreach (JsonElement picture in (await bench.Get($"{at}/trial")).GetProperty("pictures").EnumerateArray())
                await bench.Client.GetByteArrayAsync(picture.GetProperty("address").GetString(), TestContext.Current.CancellationToken);
            waits.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
        }
        TestContext.Current.SendDiagnosticMessage("pictures of the next trial after {0:0.0} ms (middle)", waits.Order().ElementAt(3));
        // The middle one: this machine may pause a process for a moment.
        Assert.InRange(waits.Order().ElementAt(3), 0, 100);
        await End(at);

        string[] before = [.. Directory.GetFiles(bench.Crops).Order()];
        await End(await bench.Ready(18));
        Assert.Equal(before, Directory.GetFiles(bench.Crops).Order());
    }

    [Fact]
    public async Task Without_a_kept_camera_answers_are_taken_and_the_state_says_that_they_are_not_kept()
    {
        string at = await bench.Ready(19, "Another body");
        // Told before the first trial, not after the last.
        JsonElement state = await bench.Get(at);
        Assert.False(state.GetProperty("isCameraKept").GetBoolean());
        Assert.Contains("No camera is kept as \"Another body\": your answers will not be stored.", state.GetProperty("notes")[0].GetString(), StringComparison.Ordinal);
        JsonElement trial = await bench.Get($"{at}/trial");
        Assert.False((await Answered(at, trial.GetProperty("token").GetString()!, JudgingReply.Yes)).GetProperty("isKept").GetBoolean());
        await End(at);
    }

    // Two hosts on one data folder went on with one judging: the second to answer is refused, and nothing that was kept is lost.
    [Fact]
    public async Task A_judging_that_another_host_went_on_with_is_not_overwritten()
    {
        string at = await bench.Ready(23);
        await Answered(at, (await bench.Get($"{at}/trial")).GetProperty("token").GetString()!, JudgingReply.Yes);
        await using RunningHost other = await bench.Another();
        using HttpResponseMessage resumed = await other.Client.PostAsync($"{at}/resume", null, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Accepted, resumed.StatusCode);
        while ((await There(at)).GetProperty("state").GetString() is "waiting" or "measuring" or "cutting")
            await Task.Delay(50, TestContext.Current.CancellationToken);
        using HttpResponseMessage answered = await other.Client.PostAsJsonAsync($"{at}/answers", new { token = (await There($"{at}/trial")).GetProperty("token").GetString(), reply = "no" }, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, answered.StatusCode);

        JsonElement here = await bench.Get($"{at}/trial");
        string why = await Refused(await bench.Answer(at, here.GetProperty("token").GetString()!, "yes"), HttpStatusCode.Conflict);
        Assert.Contains("in another window", why, StringComparison.Ordinal);
        Assert.Equal(1, (await bench.Get(at)).GetProperty("answers").GetInt32());
        KeptJudging kept = new JudgementStore(bench.Host.File).List("Body A").Single(j => j.Seed == 23);
        Assert.Equal(2, kept.Answers.Length);
        Assert.Equal(JudgingReply.No, kept.Answers[^1].Reply);
        await End(at);

        async Task<JsonElement> There(string address) => await JudgingBench.Said(await other.Client.GetAsync(address, TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task The_lift_of_the_dark_is_chosen_told_and_kept()
    {
        (string at, JsonElement state) = await bench.Made(new { folder = bench.Folder, camera = "Body A", printWidthMm = 120, viewingDistanceMm = 600, screenPixelsPerCentimetre = 50, seed = 29, darkLiftStops = 1.5 });
        Assert.Equal(1.5, state.GetProperty("crops").GetProperty("darkLiftStops").GetDouble());
        await Answered(at, (await bench.Get($"{at}/trial")).GetProperty("token").GetString()!, JudgingReply.Yes);
        Assert.Equal(1.5, new JudgementStore(bench.Host.File).List("Body A").Single(j => j.Seed == 29).Result.Tags.Lift!.Value.Value);
        await End(at);
        Assert.StartsWith("darkLiftStops", await Refused(await bench.Client.PostAsJsonAsync(
            "/api/judgings", new { folder = bench.Folder, camera = "Body A", printWidthMm = 120, viewingDistanceMm = 600, screenPixelsPerCentimetre = 50, darkLiftStops = 11 }, TestContext.Current.CancellationToken), HttpStatusCode.BadRequest), StringComparison.Ordinal);
        at = await bench.Ready(31);
        // Looked for without a wish, in thirds.
        double lift = (await bench.Get(at)).GetProperty("crops").GetProperty("darkLiftStops").GetDouble();
        Assert.Equal(Math.Round(3 * lift), 3 * lift, 1e-9);
        Assert.True(lift > 1.5);
        await End(at);
    }

    [Theory]
    [InlineData("there/is/none", 600.0, "folder")]
    [InlineData(null, 1.0, "printWidthMm")]
    [InlineData(null, null, "printWidthMm")]
    public async Task A_wish_that_cannot_be_met_is_refused_with_the_member_that_is_wrong(string? folder, double? printWidthMm, string member) =>
        Assert.StartsWith(member, await Refused(await bench.Client.PostAsJsonAsync(
            "/api/judgings", new { folder = folder ?? bench.Folder, camera = "Body A", printWidthMm, viewingDistanceMm = 600, screenPixelsPerCentimetre = 50 }, TestContext.Current.CancellationToken), HttpStatusCode.BadRequest), StringComparison.Ordinal);

    [Fact]
    public async Task A_folder_that_cannot_be_judged_fails_with_one_sentence()
    {
        string empty = Directory.CreateDirectory(Path.Combine(bench.Host.Folder, "empty")).FullName;
        (string at, JsonElement state) = await bench.Made(new { folder = empty, camera = "Body A", printWidthMm = 120, viewingDistanceMm = 600, screenPixelsPerCentimetre = 50 });
        Assert.Equal("failed", state.GetProperty("state").GetString());
        Assert.Contains("holds no ladder", state.GetProperty("why").GetString(), StringComparison.Ordinal);
        await Refused(await bench.Client.GetAsync($"{at}/trial", TestContext.Current.CancellationToken), HttpStatusCode.Conflict);
        await End(at);
    }

    [Fact]
    public async Task Another_site_starts_nothing_and_what_is_not_JSON_is_refused()
    {
        using HttpRequestMessage foreign = new(HttpMethod.Post, "/api/judgings") { Content = JsonContent.Create(new { folder = bench.Folder }) };
        foreign.Headers.Add("Origin", "http://elsewhere.example");
        await Refused(await bench.Client.SendAsync(foreign, TestContext.Current.CancellationToken), HttpStatusCode.Forbidden);
        using StringContent plain = new("{}"), broken = new("{", Encoding.UTF8, "application/json");
        await Refused(await bench.Client.PostAsync("/api/judgings", plain, TestContext.Current.CancellationToken), HttpStatusCode.UnsupportedMediaType);
        await Refused(await bench.Client.PostAsync("/api/judgings", broken, TestContext.Current.CancellationToken), HttpStatusCode.BadRequest);
        using StringContent misspelt = new("""{"fodler":"/"}""", Encoding.UTF8, "application/json"), text = new("""{"places":[{"left":"10"}]}""", Encoding.UTF8, "application/json");
        Assert.StartsWith("fodler: there is no such member", await Refused(await bench.Client.PostAsync("/api/judgings", misspelt, TestContext.Current.CancellationToken), HttpStatusCode.BadRequest), StringComparison.Ordinal);
        Assert.StartsWith("places[0].left: ", await Refused(await bench.Client.PostAsync("/api/judgings", text, TestContext.Current.CancellationToken), HttpStatusCode.BadRequest), StringComparison.Ordinal);
        using StringContent bogus = new("{}");
        bogus.Headers.Remove("Content-Type");
        bogus.Headers.TryAddWithoutValidation("Content-Type", "application/json; charset=bogus");
        Assert.Contains("UTF-8", await Refused(await bench.Client.PostAsync("/api/judgings", bogus, TestContext.Current.CancellationToken), HttpStatusCode.UnsupportedMediaType), StringComparison.Ordinal);
        using StringContent large = new($"{{\"folder\":\"{new string('x', 70_000)}\"}}", Encoding.UTF8, "application/json");
        Assert.Contains("too large", await Refused(await bench.Client.PostAsync("/api/judgings", large, TestContext.Current.CancellationToken), HttpStatusCode.RequestEntityTooLarge), StringComparison.Ordinal);
        await Refused(await bench.Client.PutAsync("/api/judgings", null, TestContext.Current.CancellationToken), HttpStatusCode.MethodNotAllowed);
    }

    private async Task<JsonElement> Answered(string at, string token, JudgingReply reply)
    {
        HttpResponseMessage response = await bench.Answer(at, token, reply switch { JudgingReply.Yes => "yes", JudgingReply.No => "no", _ => "unsure" });
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        return await JudgingBench.Said(response);
    }

    private Task End(string at) => bench.End(at);

    private static Task<string> Refused(HttpResponseMessage response, HttpStatusCode status) => JudgingBench.Refused(response, status);

    private static void IsNear(JsonElement limit, double stops)
    {
        // 95 % interval: with this seed it holds the truth, wide or not.
        Assert.InRange(stops, Math.Log2(limit.GetProperty("lowIso").GetDouble() / 100) - 1e-6, Math.Log2(limit.GetProperty("highIso").GetDouble() / 100) + 1e-6);
        if (limit.GetProperty("outcome").GetString() == "wide")
            return;
        Assert.Equal("reached", limit.GetProperty("outcome").GetString());
        Assert.InRange(Math.Log2(limit.GetProperty("iso").GetDouble() / 100), stops - 0.34, stops + 0.34);
    }

    /// <summary>Everything in a PNG file but the picture itself: names and contents of the other chunks, after the PNG specification.</summary>
    private static string Others(byte[] png, out int width, out int height)
    {
        (width, height) = (Number(16), Number(20));
        StringBuilder told = new();
        for (int at = 8; at < png.Length; at += 12 + Number(at))
        {
            string name = Encoding.ASCII.GetString(png, at + 4, 4);
            if (name != "IDAT")
                told.Append(name).Append(Convert.ToHexString(png, at + 8, Number(at))).Append(' ').Append(Encoding.Latin1.GetString(png, at + 8, Number(at))).Append('\n');
        }
        return told.ToString();

        int Number(int at) => (png[at] << 24) | (png[at + 1] << 16) | (png[at + 2] << 8) | png[at + 3];
    }
}
