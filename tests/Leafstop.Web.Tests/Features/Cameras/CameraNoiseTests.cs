using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Leafstop.Browser.Contracts;
using Leafstop.Core.Judging;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Storage.Tests.Cameras;

namespace Leafstop.Web.Tests.Features.Cameras;

/// <summary>What the page is told of a camera leads it to the limits that the command line finds in the data file.</summary>
public sealed class CameraNoiseTests
{
    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web);

    // Derived: the same Core on both sides of the wire; numbers go through JSON in full.
    [Theory]
    [InlineData("Body A", 1200, 400)]
    [InlineData("Body A/B", 600, 600)]
    [InlineData("Körper %2F ½", 900, 300)]
    public async Task The_limits_worked_out_on_the_page_are_those_of_the_data_file(string name, double width, double distance)
    {
        await using RunningHost host = await RunningHost.Start();
        new CameraStore(host.File).Keep(name, [Measurements.At(Measurements.Morning)]);
        PlanCamera here = new CameraStore(host.File).Find(name)!.ForPlan([]);
        PlanCamera there = (await Told(host, name)).ToPlan();
        Assert.Equal(here.Body.ToWords(), there.Body.ToWords());
        Assert.Equal(here.LowestMeasured, there.LowestMeasured);
        foreach (LimitTone tone in Enum.GetValues<LimitTone>())
            Assert.Equal(here.WorkedOut(new PrintCondition(width, distance), tone), there.WorkedOut(new PrintCondition(width, distance), tone));
    }

    // Derived: judged limits keep their day, intervals, answers and tags on the way, whatever print they are asked for.
    [Fact]
    public async Task Judged_limits_arrive_with_all_that_makes_them_judged()
    {
        await using RunningHost host = await RunningHost.Start();
        new CameraStore(host.File).Keep("Body A", [Measurements.At(Measurements.Morning)]);
        Assert.True(new JudgementStore(host.File).Keep("Body A", Judged()));
        PlanCamera here = new CameraStore(host.File).Find("Body A")!.ForPlan(new JudgementStore(host.File).Speaking("Body A"));
        PlanCamera there = (await Told(host, "Body A")).ToPlan();
        Assert.Equal(LimitOrigin.Judged, here.Judged.Single().Limits.Origin);
        Assert.Equal(here.Judged, there.Judged);
        foreach (PrintCondition? print in (PrintCondition?[])[null, new PrintCondition(600, 600), new PrintCondition(900, 600)])
            Assert.Equal(here.Own(print, null), there.Own(print, null));
    }

    [Theory]
    [InlineData("Body%20B")]
    [InlineData("%20")]
    [InlineData("a%0Ab")]
    public async Task A_camera_that_is_not_kept_is_refused_in_a_sentence(string written)
    {
        await using RunningHost host = await RunningHost.Start();
        new CameraStore(host.File).Keep("Body A", [Measurements.At(Measurements.Morning)]);
        using HttpResponseMessage response = await host.Client.GetAsync(new Uri(host.Address, $"/api/cameras/{written}/noise"), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, response.StatusCode);
        Assert.Contains("is kept: measure it first", await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    private static async Task<PlanCameraView> Told(RunningHost host, string name) =>
        (await host.Client.GetFromJsonAsync<PlanCameraView>(new Uri(host.Address, $"/api/cameras/{Uri.EscapeDataString(name)}/noise"), Web, TestContext.Current.CancellationToken))!;

    /// <summary>An observer whose limits lie 3 and 5 stops above ISO 100 and who never errs.</summary>
    private static KeptJudging Judged()
    {
        JudgingLadder ladder = JudgingLadder.Of(new double[] { 100, 200, 400, 800, 1600, 3200, 6400, 12800 }.Select(s => new LadderIso(Iso.FromSpeed(s), true)));
        LimitTags tags = new("Invented Body A, 14-bit raw, 8256 pixels across", new PrintCondition(600, 600), ToneKind.Smooth, NoiseTreatment.None, Stops.Of(4));
        JudgingSession session = JudgingSession.Begin(new JudgingSetup(7, ladder, tags));
        while (session.Next() is { } trial)
        {
            double stops = session.Picture(trial.Token).Level.EquivalentStops;
            session.Answer(trial.Token, (trial.Question == JudgingQuestion.Disturbs ? stops > 3 : stops < 5) ? JudgingReply.Yes : JudgingReply.No);
        }
        return KeptJudging.Of(session, Measurements.Morning, Measurements.Morning);
    }
}
