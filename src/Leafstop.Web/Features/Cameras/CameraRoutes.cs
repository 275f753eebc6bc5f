using Leafstop.Browser.Contracts;
using Leafstop.Storage.Cameras;

namespace Leafstop.Web.Features.Cameras;

/// <summary>The cameras that are kept.</summary>
internal static class CameraRoutes
{
    public static void Map(IEndpointRouteBuilder api) => api.MapGet("/cameras", (CameraStore cameras) => Results.Ok(cameras.List().Select(Of).ToArray()))
        .WithTags("Cameras").WithName("listCameras").WithSummary("The cameras that are kept, by name.").Produces<CameraView[]>().Refuses(500);

    private static CameraView Of(KeptCamera camera) => new(camera.Name, camera.Body.FullModel, camera.Newest?.MeasuredAt);
}
