using Leafstop.Browser.Contracts;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Judgings;

/// <summary>The judgings of a camera. Described in docs/json/judging.md.</summary>
internal static class JudgingRoutes
{
    public static void Map(IEndpointRouteBuilder api) => api.MapGet("/cameras/{camera}/judgings", List)
        .WithTags("Kept judgings").WithName("listKeptJudgings").WithSummary("The judgings of a camera, oldest first.")
        .Produces<JudgingView[]>().Refuses(404, 500);

    private static IResult List(string camera, CameraStore cameras, JudgementStore judgings) => cameras.Find(camera) is { } kept
        ? Results.Ok(judgings.List(kept.Name).Select(JudgingAnswers.View).ToArray())
        : PlainProblems.Of(404, $"No camera named \"{camera}\" is kept: measure it first.");
}
