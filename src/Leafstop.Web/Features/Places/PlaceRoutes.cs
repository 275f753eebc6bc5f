using Leafstop.Browser.Contracts;
using Leafstop.Core.Light;
using Leafstop.Storage.Places;
using NodaTime;

namespace Leafstop.Web.Features.Places;

/// <summary>The places that are kept, with the light that was metered there.</summary>
internal static class PlaceRoutes
{
    public static void Map(IEndpointRouteBuilder api) => api.MapGet("/places", (PlaceStore places) => Results.Ok(places.List().Select(Of).ToArray()))
        .WithTags("Places").WithName("listPlaces").WithSummary("The places that are kept, by name, with their light notes.").Produces<PlaceView[]>().Refuses(500);

    /// <summary>A place as it goes out.</summary>
    internal static PlaceView Of(KeptPlace place)
    {
        DateTimeZone zone = Clock(place);
        return new(
            // The degrees went through radians and back: ten decimals are a hundredth of a millimetre.
            place.Name, Math.Round(place.Place.Latitude.Degrees, 10), Math.Round(place.Place.Longitude.Degrees, 10), place.Place.ElevationMetres, place.Zone,
            place.Ridge is { } ridge ? Math.Round(ridge.Degrees, 10) : null, place.Canopy, Wall(place, LandShape.Valley), Wall(place, LandShape.Basin),
            [.. place.Notes.Select(n => Of(n, zone))]);
    }

    /// <summary>The clock of a place.</summary>
    internal static DateTimeZone Clock(KeptPlace place) => ZoneName.TryParse(place.Zone, out DateTimeZone known, out _) ? known : DateTimeZone.Utc;

    /// <summary>A note as it goes out.</summary>
    internal static NoteView Of(NumberedNote numbered, DateTimeZone zone)
    {
        LightNote note = numbered.Note;
        return new(
            numbered.Number, note.When.InZone(zone).ToDateTimeOffset(), note.Metered.Value, note.Cloud?.Okta, note.FilterName.Length > 0 ? note.FilterName : null, note.FilterStops.Value,
            note.Remark.Length > 0 ? note.Remark : null);
    }

    private static double? Wall(KeptPlace place, LandShape shape) => place.View.Shape == shape ? Math.Round(place.View.Wall.Degrees, 10) : null;
}
