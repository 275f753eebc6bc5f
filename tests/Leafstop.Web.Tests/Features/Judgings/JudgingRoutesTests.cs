using System.Net;
using System.Text.Json;
using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Storage.Tests.Cameras;

namespace Leafstop.Web.Tests.Features.Judgings;

public sealed class JudgingRoutesTests
{
    private static readonly double[] Speeds = [100, 200, 400, 800, 1600, 3200, 6400, 12800];

    [Fact]
    public async Task A_camera_that_is_not_kept_is_named_in_the_refusal()
    {
        await using RunningHost host = await RunningHost.Start();
        using HttpResponseMessage response = await host.Client.GetAsync("/api/cameras/Body%20A/judgings", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, response.StatusCode);
        Assert.Contains("Body A", await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    // A slash in a part of an address comes encoded, and so does a name that holds "%2F" itself.
    [Theory]
    [InlineData("Body A/B")]
    [InlineData("Body A%2FB")]
    [InlineData("Körper ½ %")]
    public async Task A_camera_of_any_name_can_be_asked_for_and_its_judgings_dropped_and_taken_back(string name)
    {
        await using RunningHost host = await RunningHost.Start();
        new CameraStore(host.File).Keep(name, [Measurements.At(Measurements.Morning)]);
        new CameraStore(host.File).Keep("Body A", [Measurements.At(Measurements.Morning)]);
        JudgingLadder ladder = JudgingLadder.Of(Speeds.Select(s => new LadderIso(Iso.FromSpeed(s), true)));
        JudgingSession session = JudgingSession.Begin(new JudgingSetup(7, ladder, new LimitTags("Body A", new PrintCondition(600, 600), ToneKind.Smooth, NoiseTreatment.None, Stops.Of(4))));
        session.Answer(session.Next()!.Token, JudgingReply.Yes);
        Assert.True(new JudgementStore(host.File).Keep(name, KeptJudging.Of(session, Measurements.Morning, Measurements.Morning)));
        string at = $"/api/cameras/{Uri.EscapeDataString(name)}/judgings";
        JsonElement told = Assert.Single((await Got(at)).EnumerateArray());
        Assert.Equal(4, told.GetProperty("darkLiftStops").GetDouble());
        string key = told.GetProperty("key").GetString()!;
        Assert.NotEqual(JsonValueKind.Null, (await Posted($"{at}/{key}/drop")).GetProperty("droppedAt").ValueKind);
        Assert.Equal(JsonValueKind.Null, (await Posted($"{at}/{key}/restore")).GetProperty("droppedAt").ValueKind);
        using HttpResponseMessage none = await host.Client.PostAsync($"{at}/20260101T000000Z-00000000/drop", null, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);

        async Task<JsonElement> Got(string address) => await JudgingBench.Said(await host.Client.GetAsync(new Uri(host.Address, address), TestContext.Current.CancellationToken));

        async Task<JsonElement> Posted(string address) => await JudgingBench.Said(await host.Client.PostAsync(new Uri(host.Address, address), null, TestContext.Current.CancellationToken));
    }

    // Derived: an observer whose limits lie 3 and 5 stops above ISO 100 (800 and 3200) and who never errs.
    [Fact]
    public async Task A_finished_judging_tells_the_limits_of_its_observer_within_a_third_of_a_stop()
    {
        JsonElement told = await ListAfter(int.MaxValue);
        Assert.True(told.GetProperty("isFinished").GetBoolean());
        Assert.InRange(Math.Log2(told.GetProperty("clean").GetProperty("iso").GetDouble() / 100), 3 - 0.34, 3 + 0.34);
        Assert.InRange(Math.Log2(told.GetProperty("stretch").GetProperty("iso").GetDouble() / 100), 5 - 0.34, 5 + 0.34);
        Assert.NotEmpty(told.GetProperty("words").EnumerateArray());
    }

    [Fact]
    public async Task An_unfinished_judging_tells_how_many_answers_there_are_and_nothing_that_ends_the_blindness()
    {
        JsonElement told = await ListAfter(7);
        Assert.Equal(7, told.GetProperty("answers").GetInt32());
        Assert.False(told.GetProperty("isFinished").GetBoolean());
        Assert.All(["clean", "stretch", "areLimitsKept", "words"], name => Assert.Equal(JsonValueKind.Null, told.GetProperty(name).ValueKind));
        Assert.DoesNotContain("seed", told.GetRawText(), StringComparison.OrdinalIgnoreCase);
    }

    private static async Task<JsonElement> ListAfter(int answers)
    {
        await using RunningHost host = await RunningHost.Start();
        new CameraStore(host.File).Keep("Body A", [Measurements.At(Measurements.Morning)]);
        JudgingLadder ladder = JudgingLadder.Of(Speeds.Select(s => new LadderIso(Iso.FromSpeed(s), true)));
        LimitTags tags = new("Body A", new PrintCondition(600, 600), Enum.GetValues<ToneKind>()[0], Enum.GetValues<NoiseTreatment>()[0]);
        JudgingSession session = JudgingSession.Begin(new JudgingSetup(7, ladder, tags));
        for (int i = 0; i < answers && session.Next() is { } trial; i++)
        {
            double stops = session.Picture(trial.Token).Level.EquivalentStops;
            bool says = trial.Question == JudgingQuestion.Disturbs ? stops > 3 : stops < 5;
            session.Answer(trial.Token, says ? JudgingReply.Yes : JudgingReply.No);
        }
        Assert.True(new JudgementStore(host.File).Keep("Body A", KeptJudging.Of(session, Measurements.Morning, Measurements.Morning)));
        using JsonDocument list = JsonDocument.Parse(await host.Client.GetStringAsync("/api/cameras/Body%20A/judgings", TestContext.Current.CancellationToken));
        return Assert.Single(list.RootElement.EnumerateArray()).Clone();
    }
}
