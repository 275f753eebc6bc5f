using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Judgings;

/// <summary>The judgings of a camera. Described in docs/json/judging.md.</summary>
internal static class JudgingRoutes
{
    public static void Map(IEndpointRouteBuilder host) => host.MapGet("/api/cameras/{camera}/judgings", List);

    private static IResult List(string camera, CameraStore cameras, JudgementStore judgings) => cameras.Find(camera) is { } kept
        ? Results.Ok(judgings.List(kept.Name).Select(JudgingView.Of).ToArray())
        : PlainProblems.Of(404, $"No camera named \"{camera}\" is kept: measure it first.");
}
