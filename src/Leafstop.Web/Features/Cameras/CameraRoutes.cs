using Leafstop.Browser.Contracts;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Cameras;

/// <summary>The cameras that are kept.</summary>
internal static class CameraRoutes
{
    public static void Map(IEndpointRouteBuilder api)
    {
        api.MapGet("/cameras", (CameraStore cameras, NamedFolders named) => Results.Ok(cameras.List().Select(c => Of(c, named)).ToArray()))
            .WithTags("Cameras").WithName("listCameras").WithSummary("The cameras that are kept, by name.").Produces<CameraView[]>().Refuses(500);
        api.MapGet("/cameras/{camera}/noise", Noise)
            .WithTags("Cameras").WithName("tellNoise").WithSummary("What a plan needs to know of a camera: its noise over ISO, and the limits that were judged on it.").Produces<PlanCameraView>().Refuses(404, 500);
    }

    private static IResult Noise(string camera, HttpContext context, CameraStore cameras, JudgementStore judgings)
    {
        string name = NameInAddress.Of(context, part: 2, camera);
        return Find(cameras, name) is { } kept
            ? Results.Ok(PlanCameraView.Of(kept.ForPlan(judgings.Speaking(kept.Name))))
            : PlainProblems.Of(404, $"No camera named \"{name}\" is kept: measure it first.");
    }

    /// <summary>The camera of a name as it came in; null when none is kept, or when none can be under such a name.</summary>
    internal static KeptCamera? Find(CameraStore cameras, string name)
    {
        try
        {
            return cameras.Find(name);
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    private static CameraView Of(KeptCamera camera, NamedFolders named) => new(
        camera.Name, camera.Body.FullModel, camera.Newest?.MeasuredAt, camera.Measurements.Reverse().Select(m => named.Find(m.Folder)).FirstOrDefault(f => f is not null));
}
