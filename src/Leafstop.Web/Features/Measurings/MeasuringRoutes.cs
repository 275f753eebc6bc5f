using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using Leafstop.Browser.Contracts;
using Leafstop.Core.Sensor;
using Leafstop.Look.Bench;
using Leafstop.Storage.Measurings;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Measurings;

/// <summary>Measuring a folder as a job: start, follow, stop, go on, read the answer. Described in docs/json/measuring.md.</summary>
internal static class MeasuringRoutes
{
    private const double UsualPrintMm = 600;

    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder measurings = api.MapGroup("/measurings").WithTags("Measuring");
        measurings.MapPost("", Start)
            .WithName("startMeasuring").WithSummary("Starts to measure a folder; where that is being done for the same print already, answers that one.").Accepts<MeasuringWish>("application/json").Produces<MeasuringView>(202).Refuses(400, 409, 413, 415, 500);
        measurings.MapGet("", (RunningMeasurings all) => Results.Ok(all.Views()))
            .WithName("listMeasurings").WithSummary("The measurings that are kept, newest first.").Produces<MeasuringView[]>().Refuses(500);
        measurings.MapGet("/{id}", (string id, RunningMeasurings all) => all.Find(id) is { } view ? Results.Ok(view) : Unknown())
            .WithName("measuring").WithSummary("How far a measuring is.").Produces<MeasuringView>().Refuses(404, 500);
        measurings.MapGet("/{id}/events", Follow)
            .WithName("followMeasuring").WithSummary("How far a measuring is, each time that it changes: events of type \"state\" until it is over. Takes Last-Event-ID.")
            .Produces<MeasuringView>(200, "text/event-stream").Refuses(404, 500);
        measurings.MapPost("/{id}/stop", async (string id, RunningMeasurings all) => all.Find(id) is null ? Unknown()
                : await all.StopAsync(id) ? Results.Ok(all.Find(id)) : PlainProblems.Of(409, "This measuring is over, or another workbench is at it: there is nothing to stop here."))
            .WithName("stopMeasuring").WithSummary("Stops a measuring and its decoding; it can be gone on with.").Produces<MeasuringView>().Refuses(404, 409, 500);
        measurings.MapPost("/{id}/resume", Resume)
            .WithName("resumeMeasuring").WithSummary("Goes on with a measuring that was stopped or failed.").Produces<MeasuringView>(202).Refuses(404, 409, 500);
        measurings.MapDelete("/{id}", async (string id, RunningMeasurings all) => await all.RemoveAsync(id) ? Results.NoContent() : Unknown())
            .WithName("removeMeasuring").WithSummary("Stops a measuring and forgets it with its answer; a camera that was saved from it stays.").Produces(204).Refuses(404, 500);
        measurings.MapGet("/{id}/answer", (string id, RunningMeasurings all, MeasuringStore store) => store.Answer(id) is { } answer ? Results.Text(answer, "application/json") : NotDone(id, all))
            .WithName("measuringAnswer").WithSummary("The answer, in the form of leafstop measure --json.").Produces<BenchDocument>().Refuses(404, 409, 500);
    }

    /// <summary>The refusal where there is no answer yet.</summary>
    internal static IResult NotDone(string id, RunningMeasurings all) => all.Find(id) is { } view
        ? PlainProblems.Of(409, view.State switch
        {
            "stopped" => "This measuring was stopped before its end: go on with it first.",
            "failed" or "held" or "elsewhere" => view.Why ?? "This measuring has no answer.",
            _ => "This folder is still being measured.",
        })
        : Unknown();

    internal static IResult Unknown() => PlainProblems.Of(404, RunningMeasurings.Unknown);

    private static async Task<IResult> Start(HttpRequest request, RunningMeasurings all, NamedFolders named)
    {
        (MeasuringWish? wish, IResult? refusal) = await JsonBody.Read<MeasuringWish>(request);
        if (wish is null)
            return refusal!;
        if (named.Find(wish.Folder) is not { } folder)
            return PlainProblems.Of(400, named.Refusal(wish.Folder));
        if (wish.PrintWidthMm is not (null or (>= 10 and <= 100_000)))
            return PlainProblems.Of(400, "printWidthMm: a print is 10 to 100000 mm wide.");
        if (wish.ViewingDistanceMm is not (null or (>= 10 and <= 100_000)))
            return PlainProblems.Of(400, "viewingDistanceMm: a print is looked at from 10 to 100000 mm.");
        return all.Start(folder, new PrintCondition(wish.PrintWidthMm ?? UsualPrintMm, wish.ViewingDistanceMm ?? UsualPrintMm)) is { } view
            ? Results.Accepted($"/api/measurings/{view.Id}", view)
            : PlainProblems.Of(409, RunningMeasurings.TooMany);
    }

    private static IResult Resume(string id, RunningMeasurings all)
    {
        (MeasuringView? view, int status, string why) = all.Resume(id);
        return view is null ? PlainProblems.Of(status, why) : Results.Accepted($"/api/measurings/{id}", view);
    }

    private static IResult Follow(string id, HttpRequest request, RunningMeasurings all, IHostApplicationLifetime lifetime)
    {
        string? after = request.Headers["Last-Event-ID"];
        return all.Find(id) is { } view ? Results.ServerSentEvents(Events(all.RunningOf(id), view, after, lifetime.ApplicationStopping)) : Unknown();
    }

    private static async IAsyncEnumerable<SseItem<MeasuringView>> Events(
        RunningMeasuring? running, MeasuringView kept, string? after, CancellationToken ending, [EnumeratorCancellation] CancellationToken gone = default)
    {
        if (running is null)
        {
            yield return new SseItem<MeasuringView>(kept, "state");
            yield break;
        }

        // A host that ends must not wait for those who follow.
        using CancellationTokenSource either = CancellationTokenSource.CreateLinkedTokenSource(ending, gone);
        await foreach ((string mark, MeasuringView view) in running.FollowAsync(after, either.Token).ConfigureAwait(false))
            yield return new SseItem<MeasuringView>(view, "state") { EventId = mark };
    }
}
