using System.Globalization;
using System.Text;
using Leafstop.Browser.Contracts;
using Leafstop.Core.Light;
using Leafstop.Look.Plan;
using Leafstop.Storage.Places;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Places;

/// <summary>Places and light notes into the data file and out of it, read and refused as by leafstop places.</summary>
internal static class PlaceKeeping
{
    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder places = api.MapGroup("/places").WithTags("Places");
        places.MapPost("", Keep)
            .WithName("keepPlace").WithSummary("Keeps a new place: as it is written, or from the file of one.").Accepts<PlaceWish>("application/json").Produces<PlaceView>(201).Refuses(400, 409, 413, 415, 500);
        places.MapPatch("/{place}", Change)
            .WithName("changePlace").WithSummary("Changes what is said of a place; what is left out stays, and so do its notes.").Accepts<PlaceWish>("application/json").Produces<PlaceView>().Refuses(400, 404, 409, 413, 415, 500);
        places.MapDelete("/{place}", (string place, HttpContext context, PlaceStore store) => At(place, context, store, kept =>
            {
                store.Remove(kept.Name);
                return Results.NoContent();
            }))
            .WithName("removePlace").WithSummary("Takes a place out with its notes: its file is the only way back.").Produces(204).Refuses(404, 500);
        places.MapGet("/{place}/file", (string place, string? withLocation, HttpContext context, PlaceStore store) => At(place, context, store, kept =>
                Results.File(Encoding.UTF8.GetBytes(PlaceFile.Write(kept, withLocation == "true")), "application/json", SafeName.Of(kept.Name, "place.json"))))
            .WithName("exportPlace").WithSummary("A place with its notes as a file, described in docs/json/light.md; with its whereabouts only for withLocation=true.")
            .Produces<Stream>(200, "application/json").Refuses(404, 500);
        places.MapPost("/{place}/notes", Note)
            .WithName("keepNote").WithSummary("Adds a light note to a place.").Accepts<NoteWish>("application/json").Produces<NoteView>(201).Refuses(400, 404, 409, 413, 415, 500);
        places.MapDelete("/{place}/notes/{number}", (string place, string number, HttpContext context, PlaceStore store) => At(place, context, store, kept =>
                int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out int wanted) && store.RemoveNote(kept.Name, wanted)
                    ? Results.NoContent()
                    : PlainProblems.Of(404, $"'{kept.Name}' has no note {number}.")))
            .WithName("removeNote").WithSummary("Takes a light note out.").Produces(204).Refuses(404, 500);
    }

    private static async Task<IResult> Keep(HttpRequest request, PlaceStore store)
    {
        (PlaceWish? wish, IResult? refusal) = await JsonBody.Read<PlaceWish>(request, PlaceFile.LargestBytes);
        return wish is null ? refusal! : Told(() =>
        {
            KeptPlace place = wish.Text is { } text ? PlaceFile.Read(text) : new WrittenPlace(wish, null).Read();
            store.Add(place);
            return Results.Created($"/api/places/{Uri.EscapeDataString(place.Name)}", PlaceRoutes.Of(place));
        });
    }

    private static async Task<IResult> Change(string place, HttpContext context, PlaceStore store)
    {
        (PlaceWish? wish, IResult? refusal) = await JsonBody.Read<PlaceWish>(context.Request);
        if (wish is null)
            return refusal!;
        if (wish.Text is not null)
            return PlainProblems.Of(400, "text: a file makes a new place: remove the one that is kept first, or write what shall be changed.");
        return At(place, context, store, kept => Told(() =>
            store.Change(kept.Name, now => new WrittenPlace(wish, now).Read()) is { } changed ? Results.Ok(PlaceRoutes.Of(changed)) : Unknown(kept.Name)));
    }

    private static async Task<IResult> Note(string place, HttpContext context, PlaceStore store)
    {
        (NoteWish? wish, IResult? refusal) = await JsonBody.Read<NoteWish>(context.Request);
        if (wish is null)
            return refusal!;
        if (wish.Number is < 1)
            return PlainProblems.Of(400, "number: notes are counted from 1.");
        return At(place, context, store, kept => Told(() =>
        {
            LightNote note = PlaceReading.ReadNote(new WrittenNote(wish), kept.Zone, PlaceStore.LongestText);
            return store.AddNote(kept.Name, note, wish.Number) is { } number
                ? Results.Created($"/api/places/{Uri.EscapeDataString(kept.Name)}/notes/{number}", PlaceRoutes.Of(new NumberedNote(number, note), PlaceRoutes.Clock(kept)))
                : Unknown(kept.Name);
        }));
    }

    /// <summary>What was written wrongly is 400, what contradicts what is kept 409.</summary>
    private static IResult Told(Func<IResult> doing)
    {
        try
        {
            return doing();
        }
        catch (Exception wrong) when (wrong is PlaceRefusal or FormatException)
        {
            return PlainProblems.Of(400, wrong.Message);
        }
        catch (ArgumentException taken)
        {
            return PlainProblems.Of(409, taken.Message.Split(" (Parameter", StringSplitOptions.None)[0]);
        }
    }

    private static IResult At(string place, HttpContext context, PlaceStore store, Func<KeptPlace, IResult> answer)
    {
        string name = NameInAddress.Of(context, part: 2, place);
        return Find(store, name) is { } kept ? answer(kept) : Unknown(name);
    }

    private static KeptPlace? Find(PlaceStore store, string name)
    {
        try
        {
            return store.Find(name);
        }
        catch (ArgumentException)
        {
            // None can be under such a name.
            return null;
        }
    }

    private static IResult Unknown(string name) => PlainProblems.Of(404, $"No place named \"{name}\" is kept.");
}
