using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Leafstop.Core.Judging;
using Leafstop.Storage.Judgements;
using Leafstop.Web.Features.Judgings;

namespace Leafstop.Web.Tests.Features.Judgings;

/// <summary>"Which is noisier?" by requests to the real host.</summary>
public sealed class SideBySideTests(JudgingBench bench) : IClassFixture<JudgingBench>
{
    // Derived: three stops of light apart; the grain of the noisier one is 2.8 times stronger, and whoever measures it is never wrong.
    [Fact]
    public async Task Who_reads_the_grain_off_the_pixels_sees_a_difference_and_gets_no_limit()
    {
        string at = await bench.Ready(21);
        string before = (await bench.Get($"{at}/trial")).GetProperty("token").GetString()!;
        JsonElement state = await Begun(at, new { cleanerIso = 400, noisierIso = 3200, seed = 3 });
        HashSet<string> headers = [];
        HashSet<int> lengths = [];
        int toTheLeft = 0;
        while (state.GetProperty("result").ValueKind == JsonValueKind.Null)
        {
            JsonElement trial = await bench.Get($"{at}/side-by-side/trial");
            Assert.Equal("Which is noisier?", trial.GetProperty("question").GetString());
            Assert.DoesNotContain("iso", trial.GetRawText(), StringComparison.OrdinalIgnoreCase);
            double left = await Grain(trial, "left"), right = await Grain(trial, "right");
            toTheLeft += left > right ? 1 : 0;
            state = await Answered(at, trial, left > right ? "left" : "right");
        }

        JsonElement result = state.GetProperty("result");
        Assert.Equal("seen", result.GetProperty("outcome").GetString());
        Assert.Equal((20, 20), (result.GetProperty("right").GetInt32(), result.GetProperty("answers").GetInt32()));
        Assert.InRange(toTheLeft, 3, 17);
        Assert.Contains("A difference between ISO 400 and 3200 is seen", result.GetProperty("words").GetString(), StringComparison.Ordinal);
        Assert.Contains("no limit", result.GetProperty("words").GetString(), StringComparison.Ordinal);
        Assert.Equal(["outcome", "right", "ties", "answers", "chanceOfGuessing", "words"], result.EnumerateObject().Select(m => m.Name));
        Assert.Single(headers);

        // The judging beside it stands where it stood, and nothing was stored.
        Assert.Equal(before, (await bench.Get($"{at}/trial")).GetProperty("token").GetString());
        Assert.Equal(0, (await bench.Get(at)).GetProperty("answers").GetInt32());
        Assert.DoesNotContain(new JudgementStore(bench.Host.File).List("Body A"), j => j.Seed == 21);
        await Refused(await bench.Client.PostAsync($"{at}/side-by-side/undo", null, TestContext.Current.CancellationToken), HttpStatusCode.Conflict);
        await Refused(await bench.Client.GetAsync($"{at}/side-by-side/trial", TestContext.Current.CancellationToken), HttpStatusCode.Conflict);
        await bench.End(at);

        async Task<double> Grain(JsonElement trial, string side)
        {
            using HttpResponseMessage response = await bench.Client.GetAsync(trial.GetProperty(side).GetString(), TestContext.Current.CancellationToken);
            headers.Add(string.Join(';', response.Headers.Concat(response.Content.Headers).Where(h => h.Key != "Date").Select(h => $"{h.Key}={string.Join(',', h.Value)}")));
            return ShownPixels.Grain(await response.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken));
        }
    }

    // Derived: ten of ten ties count as five right; P(X ≥ 5 of 10) by guessing = 638/1024.
    [Fact]
    public async Task Who_is_always_unsure_is_told_that_no_difference_was_shown()
    {
        string at = await bench.Ready(22);
        JsonElement state = await Begun(at, new { cleanerIso = 100, noisierIso = 200, trials = 10 });
        Assert.Equal(10, state.GetProperty("trials").GetInt32());
        for (int i = 0; i < 10; i++)
            state = await Answered(at, await bench.Get($"{at}/side-by-side/trial"), "unsure");
        JsonElement result = state.GetProperty("result");
        Assert.Equal("notShown", result.GetProperty("outcome").GetString());
        Assert.Equal((5, 10), (result.GetProperty("right").GetInt32(), result.GetProperty("ties").GetInt32()));
        Assert.Equal(638.0 / 1024, result.GetProperty("chanceOfGuessing").GetDouble(), 1e-9);
        // The next one takes the place of one that is over.
        await Begun(at, new { cleanerIso = 100, noisierIso = 400 });
        await bench.End(at);
    }

    [Fact]
    public async Task An_answer_is_taken_once_and_one_taken_back_is_asked_again_under_new_addresses()
    {
        string at = await bench.Ready(23);
        await Begun(at, new { cleanerIso = 200, noisierIso = 800, seed = 5 });
        SideBySideTable table = bench.Host.Judgings.Find(at.Split('/')[^1])!.SideBySide!;
        JsonElement first = await bench.Get($"{at}/side-by-side/trial");
        SideBySidePictures sides = table.SidesBehind(first.GetProperty("token").GetString()!)!;
        Assert.Equal(first.GetRawText(), (await bench.Get($"{at}/side-by-side/trial")).GetRawText());
        byte[] left = await bench.Client.GetByteArrayAsync(first.GetProperty("left").GetString(), TestContext.Current.CancellationToken);
        Assert.Equal(1, (await Answered(at, first, "left")).GetProperty("answers").GetInt32());
        await Refused(await Answer(at, first, "right"), HttpStatusCode.Conflict);
        await Refused(await bench.Client.GetAsync(first.GetProperty("left").GetString(), TestContext.Current.CancellationToken), HttpStatusCode.NotFound);

        JsonElement back = await JudgingBench.Said(await bench.Client.PostAsync($"{at}/side-by-side/undo", null, TestContext.Current.CancellationToken));
        Assert.Equal(0, back.GetProperty("answers").GetInt32());
        JsonElement again = await bench.Get($"{at}/side-by-side/trial");
        Assert.NotEqual(first.GetProperty("token").GetString(), again.GetProperty("token").GetString());
        Assert.NotEqual(first.GetProperty("left").GetString(), again.GetProperty("left").GetString());
        Assert.Equal(sides, table.SidesBehind(again.GetProperty("token").GetString()!));
        Assert.Equal(left, await bench.Client.GetByteArrayAsync(again.GetProperty("left").GetString(), TestContext.Current.CancellationToken));
        await Refused(await bench.Client.PostAsync($"{at}/side-by-side/undo", null, TestContext.Current.CancellationToken), HttpStatusCode.Conflict);
        await Refused(await Answer(at, again, "yes"), HttpStatusCode.BadRequest);

        await Refused(await bench.Client.PostAsJsonAsync($"{at}/side-by-side", new { cleanerIso = 200, noisierIso = 400 }, TestContext.Current.CancellationToken), HttpStatusCode.Conflict);
        using (HttpResponseMessage ended = await bench.Client.DeleteAsync($"{at}/side-by-side", TestContext.Current.CancellationToken))
            Assert.Equal(HttpStatusCode.NoContent, ended.StatusCode);
        await Refused(await bench.Client.GetAsync($"{at}/side-by-side", TestContext.Current.CancellationToken), HttpStatusCode.NotFound);
        await bench.End(at);
    }

    [Fact]
    public async Task What_cannot_be_set_side_by_side_is_refused_in_a_sentence()
    {
        string at = await bench.Ready(24);
        Assert.Contains("100, 200, 400, 800, 1600, 3200, 5000, 8000", await Wrong(new { cleanerIso = 100, noisierIso = 640 }), StringComparison.Ordinal);
        Assert.StartsWith("cleanerIso and noisierIso", await Wrong(new { cleanerIso = 800, noisierIso = 400 }), StringComparison.Ordinal);
        Assert.StartsWith("cleanerIso and noisierIso", await Wrong(new { cleanerIso = -1, noisierIso = 400 }), StringComparison.Ordinal);
        Assert.StartsWith("cleanerIso and noisierIso", await Wrong(new { }), StringComparison.Ordinal);
        Assert.StartsWith("trials", await Wrong(new { cleanerIso = 100, noisierIso = 800, trials = 9 }), StringComparison.Ordinal);
        await bench.End(at);
        await Refused(await bench.Client.PostAsJsonAsync($"{at}/side-by-side", new { cleanerIso = 100, noisierIso = 800 }, TestContext.Current.CancellationToken), HttpStatusCode.NotFound);

        async Task<string> Wrong(object wish) =>
            await Refused(await bench.Client.PostAsJsonAsync($"{at}/side-by-side", wish, TestContext.Current.CancellationToken), HttpStatusCode.BadRequest);
    }

    private async Task<JsonElement> Begun(string at, object wish)
    {
        HttpResponseMessage response = await bench.Client.PostAsJsonAsync($"{at}/side-by-side", wish, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Created, response.StatusCode);
        Assert.Equal($"{at}/side-by-side", response.Headers.Location!.OriginalString);
        return await JudgingBench.Said(response);
    }

    private Task<HttpResponseMessage> Answer(string at, JsonElement trial, string reply) =>
        bench.Client.PostAsJsonAsync($"{at}/side-by-side/answers", new { token = trial.GetProperty("token").GetString(), reply }, TestContext.Current.CancellationToken);

    private async Task<JsonElement> Answered(string at, JsonElement trial, string reply)
    {
        HttpResponseMessage response = await Answer(at, trial, reply);
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        return await JudgingBench.Said(response);
    }

    private static Task<string> Refused(HttpResponseMessage response, HttpStatusCode status) => JudgingBench.Refused(response, status);
}
