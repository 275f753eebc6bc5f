using System.Net;
using System.Text.Json;
using Leafstop.Core.Judging;
using Leafstop.Storage.Judgements;
using Leafstop.Testing.Judging;

namespace Leafstop.Web.Tests.Features.Judgings;

/// <summary>A judging goes on after the host was ended in the middle of it.</summary>
public sealed class ResumedJudgingTests(JudgingBench bench) : IClassFixture<JudgingBench>
{
    // Derived: the same setup and the same eye without any host or interruption, answer by answer.
    [Fact]
    public async Task A_judging_cut_short_by_the_end_of_the_host_ends_as_if_it_had_not_been()
    {
        string at = await bench.Ready(31);
        JsonElement begun = await bench.Get(at);
        SimulatedObserver eye = new(31) { SpreadStops = 0.3 };
        for (int i = 0; i < 13; i++)
            await AnswerOnce(at, eye);
        JsonElement shownBefore = await bench.Get($"{at}/trial");
        byte[] before = await Picture(shownBefore);
        await bench.Restart();

        Assert.Contains("go on with it", await JudgingBench.Refused(await bench.Client.GetAsync(at, TestContext.Current.CancellationToken), HttpStatusCode.Conflict), StringComparison.Ordinal);
        JsonElement listed = Assert.Single((await bench.Get("/api/cameras/Body%20A/judgings")).EnumerateArray(), j => at.EndsWith(j.GetProperty("id").GetString() ?? "none", StringComparison.Ordinal));
        Assert.Equal(13, listed.GetProperty("answers").GetInt32());
        JsonElement state = await Resumed(at);
        Assert.Equal("ready", state.GetProperty("state").GetString());
        Assert.Equal(13, state.GetProperty("answers").GetInt32());
        Assert.True(state.GetProperty("isKept").GetBoolean());
        Assert.Equal(begun.GetProperty("crops").GetRawText(), state.GetProperty("crops").GetRawText());
        JsonElement shownAfter = await bench.Get($"{at}/trial");
        Assert.Equal(14, shownAfter.GetProperty("number").GetInt32());
        Assert.NotEqual(shownBefore.GetProperty("token").GetString(), shownAfter.GetProperty("token").GetString());
        Assert.Equal(before, await Picture(shownAfter));
        // Asked for once more, it is left as it is.
        string token = shownAfter.GetProperty("token").GetString()!;
        Assert.Equal(13, (await Resumed(at)).GetProperty("answers").GetInt32());
        Assert.Equal(token, (await bench.Get($"{at}/trial")).GetProperty("token").GetString());

        while ((state = await AnswerOnce(at, eye)).GetProperty("state").GetString() == "ready")
            continue;
        KeptJudging kept = Assert.Single(new JudgementStore(bench.Host.File).List("Body A"), j => j.Seed == 31);
        JudgingSession whole = JudgingSession.Begin(new JudgingSetup(31, JudgingLadder.Of(kept.Ladder), kept.Result.Tags));
        JudgingResult expected = new SimulatedObserver(31) { SpreadStops = 0.3 }.Judge(whole);
        Assert.Equal(whole.Answers.Select(Plain), kept.Answers.Select(Plain));
        Assert.Equal(expected.ToSentences(), kept.Result.ToSentences());
        Assert.Equal(expected.ToSentences(), state.GetProperty("result").GetProperty("words").EnumerateArray().Select(w => w.GetString()!));
        Assert.Equal(expected.Clean.LimitStops, kept.Result.Clean.LimitStops);
        Assert.Equal(expected.Stretch.Repeats, kept.Result.Stretch.Repeats);

        await bench.End(at);
        Assert.Contains("is over", await JudgingBench.Refused(await bench.Client.PostAsync($"{at}/resume", null, TestContext.Current.CancellationToken), HttpStatusCode.Conflict), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_its_files_or_with_others_it_says_so_and_with_them_it_goes_on()
    {
        string at = await bench.Ready(32), aside = bench.Folder + " aside";
        await AnswerOnce(at, new SimulatedObserver(32));
        await bench.Restart();

        Directory.Move(bench.Folder, aside);
        string gone = await JudgingBench.Refused(await bench.Client.PostAsync($"{at}/resume", null, TestContext.Current.CancellationToken), HttpStatusCode.Conflict);
        Assert.Contains(bench.Folder, gone, StringComparison.Ordinal);
        Assert.Contains("is not there", gone, StringComparison.Ordinal);

        // The same settings and scene, photographed once more: only the noise is another.
        bench.Write(seed: 2);
        JsonElement changed = await Resumed(at);
        Assert.Equal("failed", changed.GetProperty("state").GetString());
        Assert.Contains("are not those that this judging was begun with", changed.GetProperty("why").GetString(), StringComparison.Ordinal);

        Directory.Delete(bench.Folder, recursive: true);
        Directory.CreateDirectory(bench.Folder);
        Assert.Equal("failed", (await Resumed(at)).GetProperty("state").GetString());

        Directory.Delete(bench.Folder);
        Directory.Move(aside, bench.Folder);
        JsonElement state = await Resumed(at);
        Assert.Equal("ready", state.GetProperty("state").GetString());
        Assert.Equal(1, state.GetProperty("answers").GetInt32());
        await bench.End(at);
    }

    [Fact]
    public async Task What_was_never_kept_cannot_be_gone_on_with() =>
        Assert.Contains("nothing to go on with", await JudgingBench.Refused(
            await bench.Client.PostAsync("/api/judgings/00ff/resume", null, TestContext.Current.CancellationToken), HttpStatusCode.NotFound), StringComparison.Ordinal);

    private async Task<JsonElement> Resumed(string at)
    {
        using HttpResponseMessage response = await bench.Client.PostAsync($"{at}/resume", null, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Accepted, response.StatusCode);
        return await bench.Settled(at);
    }

    private async Task<byte[]> Picture(JsonElement trial) =>
        await bench.Client.GetByteArrayAsync(trial.GetProperty("pictures")[0].GetProperty("address").GetString(), TestContext.Current.CancellationToken);

    private async Task<JsonElement> AnswerOnce(string at, SimulatedObserver eye)
    {
        JsonElement trial = await bench.Get($"{at}/trial");
        string token = trial.GetProperty("token").GetString()!;
        JudgingQuestion question = Enum.GetValues<JudgingQuestion>().Single(q => q.Ask() == trial.GetProperty("question").GetString());
        double stops = bench.Host.Judgings.Find(at.Split('/')[^1])!.Table!.LevelBehind(token)!.EquivalentStops;
        HttpResponseMessage response = await bench.Answer(at, token, eye.Reply(question, stops) switch { JudgingReply.Yes => "yes", JudgingReply.No => "no", _ => "unsure" });
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        return await JudgingBench.Said(response);
    }

    // A weight that went through the data file gives the same level to rounding.
    private static (int, JudgingQuestion, double, double, bool, JudgingReply) Plain(JudgingAnswer a) =>
        (a.Number, a.Question, a.Shown.Iso.Speed, Math.Round(a.Shown.EquivalentStops, 9), a.IsBlank, a.Reply);
}
