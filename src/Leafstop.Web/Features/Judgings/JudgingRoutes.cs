using Leafstop.Browser.Contracts;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Judgings;

/// <summary>The judgings of a camera. Described in docs/json/judging.md.</summary>
internal static class JudgingRoutes
{
    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder kept = api.MapGroup("/cameras/{camera}/judgings").WithTags("Kept judgings");
        kept.MapGet("", List)
            .WithName("listKeptJudgings").WithSummary("The judgings of a camera, oldest first.").Produces<JudgingView[]>().Refuses(404, 500);
        kept.MapPost("/{key}/drop", (string camera, string key, HttpContext context, JudgementStore judgings) => Drop(camera, key, context, judgings, DateTimeOffset.UtcNow))
            .WithName("dropKeptJudging").WithSummary("Drops a judging: it stays in the history and speaks no more.").Produces<JudgingView>().Refuses(404, 500);
        kept.MapPost("/{key}/restore", (string camera, string key, HttpContext context, JudgementStore judgings) => Drop(camera, key, context, judgings, null))
            .WithName("restoreKeptJudging").WithSummary("Takes a dropped judging back in.").Produces<JudgingView>().Refuses(404, 500);
    }

    private static IResult List(string camera, HttpContext context, CameraStore cameras, JudgementStore judgings) => cameras.Find(Named(camera, context)) is { } kept
        ? Results.Ok(judgings.List(kept.Name).Select(JudgingAnswers.View).ToArray())
        : PlainProblems.Of(404, $"No camera named \"{Named(camera, context)}\" is kept: measure it first.");

    private static IResult Drop(string camera, string key, HttpContext context, JudgementStore judgings, DateTimeOffset? at) => judgings.Drop(Named(camera, context), key, at) is { } kept
        ? Results.Ok(kept.View())
        : PlainProblems.Of(404, $"No such judging of a camera \"{Named(camera, context)}\" is kept: ask for those that are.");

    // /api/cameras/NAME/…
    private static string Named(string camera, HttpContext context) => NameInAddress.Of(context, part: 2, camera);
}
