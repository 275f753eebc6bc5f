using Leafstop.Browser.Contracts;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Web.Features.Judgings;

namespace Leafstop.Web.Features.Desk;

/// <summary>What the first page shows, in one answer.</summary>
internal static class DeskRoutes
{
    public static void Map(IEndpointRouteBuilder api) =>
        api.MapGet("/desk", (CameraStore cameras, JudgementStore judgings) => Results.Ok(View(cameras, judgings)))
            .WithTags("Cameras").WithName("showDesk").WithSummary("Every kept camera with the judging that it stands by and the one that can be gone on with, the newest judged first.").Produces<DeskCameraView[]>().Refuses(500);

    /// <summary>The cameras, the newest judged first.</summary>
    public static DeskCameraView[] View(CameraStore cameras, JudgementStore judgings) =>
        [.. cameras.List().Select(c => View(c, [.. judgings.List(c.Name).Select(JudgingAnswers.View)])).OrderByDescending(c => c.Judged?.JudgedAt ?? DateTimeOffset.MinValue)];

    private static DeskCameraView View(KeptCamera camera, JudgingView[] judgings) => new(
        camera.Name,
        camera.Newest?.MeasuredAt.ToLocalTime(),
        judgings.LastOrDefault(j => j is { IsFinished: true, AreLimitsKept: true }) is { } judged ? judged with { JudgedAt = judged.JudgedAt.ToLocalTime() } : null,
        judgings.LastOrDefault(j => j.Id is not null));
}
