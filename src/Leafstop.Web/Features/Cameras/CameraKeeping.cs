using System.Text;
using Leafstop.Browser.Contracts;
using Leafstop.Core.Card;
using Leafstop.Look;
using Leafstop.Storage.Cameras;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Cameras;

/// <summary>Cameras out of the data file and into it: history, export, import, forgetting. The same as leafstop cameras does.</summary>
internal static class CameraKeeping
{
    // A camera file of a few hundred measurings; the data file itself takes more, by the command line.
    private const int MostBytes = 4 << 20;

    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder cameras = api.MapGroup("/cameras").WithTags("Cameras");
        cameras.MapGet("/{camera}", (string camera, HttpContext context, CameraStore store) => At(camera, context, store, kept => Results.Ok(View(kept))))
            .WithName("tellCamera").WithSummary("A camera and the history of its measuring.").Produces<CameraHistoryView>().Refuses(404, 500);
        cameras.MapGet("/{camera}/file", (string camera, HttpContext context, CameraStore store) => At(camera, context, store, kept =>
                Results.File(Encoding.UTF8.GetBytes(CameraFile.Write(kept)), "application/json", SafeName.Of(kept.Name, "camera.json"))))
            .WithName("exportCamera").WithSummary("A camera with its history as a file, described in docs/camera-file.md.").Produces<Stream>(200, "application/json").Refuses(404, 500);
        cameras.MapPost("", Keep)
            .WithName("keepCamera").WithSummary("Keeps a camera from such a file; what is kept already stays.").Accepts<CameraWish>("application/json").Produces<CameraKeptView>().Refuses(400, 409, 413, 415, 500);
        cameras.MapDelete("/{camera}", (string camera, HttpContext context, CameraStore store) => At(camera, context, store, kept =>
            {
                store.Forget(kept.Name);
                return Results.NoContent();
            }))
            .WithName("forgetCamera").WithSummary("Removes a camera with its whole history: its file is the only way back.").Produces(204).Refuses(404, 500);
    }

    private static async Task<IResult> Keep(HttpRequest request, CameraStore store)
    {
        (CameraWish? wish, IResult? refusal) = await JsonBody.Read<CameraWish>(request, MostBytes);
        if (wish is null)
            return refusal!;
        if (string.IsNullOrWhiteSpace(wish.Text))
            return PlainProblems.Of(400, "text: there is nothing in it: choose a file that leafstop cameras export wrote, or paste what stands in it.");
        bool isCard = CardText.IsMeant(wish.Text);
        KeptCamera camera;
        try
        {
            camera = isCard ? OfCard(wish.Text) : CameraFile.Read(wish.Text);
        }
        catch (FormatException wrong)
        {
            return PlainProblems.Of(400, wrong.Message);
        }
        try
        {
            KeepOutcome kept = store.Keep(wish.Name ?? camera.Name, camera);
            return Results.Ok(new CameraKeptView(
                kept.Name, kept.Added, kept.AlreadyThere, kept.History, kept.CardsAdded,
                isCard ? KeptWords.OfCard(kept.Name, kept.CardsAdded, kept.History) : KeptWords.OfFile(kept.Name, kept.Added, kept.AlreadyThere, kept.History)));
        }
        catch (ArgumentException wrong)
        {
            return PlainProblems.Of(409, wrong.Message.Split(" (Parameter", StringSplitOptions.None)[0]);
        }
    }

    private static KeptCamera OfCard(string text)
    {
        var card = CardText.Parse(text);
        return new KeptCamera(card.Name, []) { Cards = [new KeptCard(DateTimeOffset.FromUnixTimeSeconds(DateTimeOffset.UtcNow.ToUnixTimeSeconds()), card)] };
    }

    private static IResult At(string camera, HttpContext context, CameraStore store, Func<KeptCamera, IResult> answer)
    {
        string name = NameInAddress.Of(context, part: 2, camera);
        return CameraRoutes.Find(store, name) is { } kept ? answer(kept) : PlainProblems.Of(404, $"No camera named \"{name}\" is kept.");
    }

    private static CameraHistoryView View(KeptCamera camera) => new(
        camera.Name, camera.Body.ToWords(), [.. camera.Measurements.Select(View)], [.. camera.Cards.Select(c => c.Card.MadeOn)]);

    private static KeptMeasuringView View(KeptMeasurement measured)
    {
        KeptLevel[] usable = [.. measured.Levels.Where(l => l.Usable).OrderBy(l => l.Iso)];
        return new(
            measured.MeasuredAt, measured.IsImported, usable.Length, usable.FirstOrDefault()?.Iso.Speed, usable.LastOrDefault()?.Iso.Speed,
            usable.FirstOrDefault(l => l.ReadNoiseElectrons is not null)?.ReadNoiseElectrons?.Value);
    }
}
