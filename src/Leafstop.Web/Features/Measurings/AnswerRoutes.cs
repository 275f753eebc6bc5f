using System.Globalization;
using System.Text.Json;
using Leafstop.Browser.Contracts;
using Leafstop.Core.Sensor;
using Leafstop.Look.Bench;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Jpegs;
using Leafstop.Report;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Measurings;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Measurings;

/// <summary>What is done with the answer of a measuring: keep the camera, set it beside an earlier test, print it.</summary>
internal static class AnswerRoutes
{
    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder answers = api.MapGroup("/measurings/{id}").WithTags("Measuring");
        answers.MapPost("/save", Save)
            .WithName("saveMeasuring").WithSummary("Keeps the camera, as leafstop measure --save does; a test of a kept camera adds to its history.").Accepts<SaveWish>("application/json").Produces<SavedView>().Refuses(400, 404, 409, 413, 415, 500);
        answers.MapGet("/earlier", (string id, RunningMeasurings all, MeasuringStore store, CameraStore cameras) => At(id, all, store, (kept, answer) => Results.Ok(Earlier(kept, answer, cameras).Select(e => e.View).ToArray())))
            .WithName("earlierTests").WithSummary("Earlier tests of the same body, newest first.").Produces<EarlierView[]>().Refuses(404, 409, 500);
        answers.MapGet("/comparison", Compare)
            .WithName("compareMeasuring").WithSummary("The answer beside an earlier test of the same body.").Produces<ComparisonView>().Refuses(400, 404, 409, 500);
        answers.MapGet("/report", Print)
            .WithName("measuringReport").WithSummary("One printable page, as leafstop measure --report writes it.").Produces<string>(200, "text/html").Refuses(404, 409, 500);
    }

    private static async Task<IResult> Save(string id, HttpRequest request, RunningMeasurings all, MeasuringStore store, CameraStore cameras)
    {
        (SaveWish? wish, IResult? refusal) = await JsonBody.Read<SaveWish>(request);
        return wish is null ? refusal! : At(id, all, store, (kept, answer) =>
        {
            if (!answer.HasAnswer || answer.Camera is not { } camera)
                return PlainProblems.Of(409, "No level of this test holds, so there is nothing to keep.");
            string name = wish.Name ?? camera.Model;
            try
            {
                CameraStore.TidyName(name);
            }
            catch (ArgumentException wrong)
            {
                return PlainProblems.Of(400, $"name: {Said(wrong)}");
            }

            try
            {
                // The time of the measuring, so that saving twice keeps one test.
                KeepOutcome outcome = cameras.Keep(name, [KeptMeasurement.Of(answer, kept.EndedAt ?? kept.BegunAt, kept.Folder)]);
                return Results.Ok(new SavedView(outcome.Name, outcome.History, outcome.Added == 0));
            }
            catch (ArgumentException other)
            {
                return PlainProblems.Of(409, Said(other));
            }
        });
    }

    private static IResult Compare(string id, string? camera, string? measuredAt, RunningMeasurings all, MeasuringStore store, CameraStore cameras) => At(id, all, store, (kept, answer) =>
    {
        if (!DateTimeOffset.TryParse(measuredAt, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset at))
            return PlainProblems.Of(400, "measuredAt: name the earlier test by its camera and its time, as the list of earlier tests has them.");
        if (Earlier(kept, answer, cameras).FirstOrDefault(e => e.View.Camera == camera && e.View.MeasuredAt == at) is not { Test: { } test })
            return PlainProblems.Of(404, "There is no such earlier test of this body: ask for those that there are.");
        ComparisonWords words = ComparisonWords.Of(
            BenchComparison.Of(
                test.Levels.Select(l => new ComparedLevel(l.Iso, l.Ladder, l.GainElectronsPerDn, l.ReadNoiseElectrons, l.ClipSeen ? l.SaturationElectrons : null, l.Usable)),
                answer.Levels.Select(l => new ComparedLevel(l.Iso, l.Ladder, l.GainElectronsPerDn, l.ReadNoiseElectrons, l.ClipSeen ? l.SaturationElectrons : null, l.Usable))),
            test.MeasuredAt.ToString("d MMMM yyyy", CultureInfo.InvariantCulture));
        return Results.Ok(new ComparisonView(words.Sentence, words.HowSure, words.Rows));
    });

    private static async Task<IResult> Print(
        string id, HttpContext context, RunningMeasurings all, MeasuringStore store, NamedFolders named, HostWishes wishes, DecodingTurn turn, CancellationToken gone)
    {
        if (store.Find(id) is not { } kept || Read(kept, store) is not { } answer)
            return MeasuringRoutes.NotDone(id, all);
        IReadOnlyList<BenchPicture> pictures = [];
        JpegComparison? jpegs = null;
        // A folder that may not be opened any more, or is gone, leaves the pictures out: the numbers are kept.
        if (named.Find(kept.Folder) is not null)
        {
            await turn.Turn.WaitAsync(gone).ConfigureAwait(false);
            try
            {
                pictures = await BenchPictures.MakeAsync(answer, wishes.Worker, progress: null, gone).ConfigureAwait(false);
                jpegs = await JpegComparison.MakeAsync(answer, wishes.Worker, progress: null, gone).ConfigureAwait(false);
            }
            finally
            {
                turn.Turn.Release();
            }
        }

        string title = Path.GetFileName(kept.Folder);
        // The page brings its own style and one script with its mark, and may do nothing else: less than pages of this host may.
        context.Response.Headers.ContentSecurityPolicy = ReportResources.ContentPolicy(ReportResources.Script()) + "; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";
        context.Response.Headers.ContentDisposition = "inline; filename=\"leafstop-bench.html\"";
        return Results.Text(BenchReport.Html(answer, CropWords.Of(pictures), title, jpegs), "text/html; charset=utf-8");
    }

    /// <summary>Kept tests of the same body, newest first, without the one that was saved from this measuring.</summary>
    private static IEnumerable<(EarlierView View, KeptMeasurement Test)> Earlier(KeptMeasuring kept, BenchAnswer answer, CameraStore cameras) => answer.Camera is not { } body ? []
        : from camera in cameras.List()
          where CameraStore.Difference(camera.Body, body) is null
          from test in camera.Measurements
          where test.MeasuredAt != kept.EndedAt
          orderby test.MeasuredAt descending
          select (new EarlierView(camera.Name, test.MeasuredAt, test.Levels.Count(l => l.Usable)), test);

    private static IResult At(string id, RunningMeasurings all, MeasuringStore store, Func<KeptMeasuring, BenchAnswer, IResult> then) =>
        store.Find(id) is { } kept && Read(kept, store) is { } answer ? then(kept, answer) : MeasuringRoutes.NotDone(id, all);

    private static BenchAnswer? Read(KeptMeasuring kept, MeasuringStore store)
    {
        if (store.Answer(kept.Id) is not { } json)
            return null;
        using JsonDocument document = JsonDocument.Parse(json);
        return BenchReading.Answer(document.RootElement, kept.Folder);
    }

    private static string Said(ArgumentException wrong) => wrong.Message.Split(" (Parameter", StringSplitOptions.None)[0];
}
