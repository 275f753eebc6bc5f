using System.Globalization;
using Leafstop.Browser.Contracts;
using Leafstop.Core.Quantities;

namespace Leafstop.Browser.Pages.Places;

/// <summary>A kept place as it is written, and its notes in words.</summary>
internal static class PlaceText
{
    /// <summary>Every value as a text, empty where there is none, so that it reads back to the same.</summary>
    public static PlaceWish Written(PlaceView place) => new(
        place.Name, Number(place.LatitudeDeg), Number(place.LongitudeDeg), Number(place.ElevationM), place.Zone,
        Number(place.RidgeDeg), place.Canopy ?? "", Number(place.ValleyDeg), Number(place.BasinDeg));

    /// <summary>What takes a change back.</summary>
    /// <param name="change">What was changed; all else in it is null.</param>
    /// <param name="before">The place as it was.</param>
    public static PlaceWish Inverse(PlaceWish change, PlaceWish before)
    {
        // A valley takes the basin out, and the other way round: both come back.
        bool isLand = (change.Valley ?? change.Basin) is not null;
        return new(
            change.Name is null ? null : before.Name, change.Lat is null ? null : before.Lat, change.Lon is null ? null : before.Lon,
            change.Elevation is null ? null : before.Elevation, change.Zone is null ? null : before.Zone, change.Ridge is null ? null : before.Ridge,
            change.Canopy is null ? null : before.Canopy, isLand ? before.Valley : null, isLand ? before.Basin : null);
    }

    /// <summary>A place that is being written, with a change.</summary>
    public static PlaceWish With(PlaceWish draft, PlaceWish change) => new(
        change.Name ?? draft.Name, change.Lat ?? draft.Lat, change.Lon ?? draft.Lon, change.Elevation ?? draft.Elevation, change.Zone ?? draft.Zone,
        change.Ridge ?? draft.Ridge, change.Canopy ?? draft.Canopy, change.Valley ?? (change.Basin is { Length: > 0 } ? "" : draft.Valley), change.Basin ?? (change.Valley is { Length: > 0 } ? "" : draft.Basin));

    /// <summary>What was changed, in words: "Ridge of Dimble Spout: 15."</summary>
    public static string Said(PlaceWish change, PlaceView before)
    {
        (string what, string now) = change switch
        {
            { Name: { } name } => ("Name", name),
            { Lat: { } latitude } => ("Latitude", latitude),
            { Lon: { } longitude } => ("Longitude", longitude),
            { Elevation: { } height } => ("Height above the sea", height),
            { Zone: { } zone } => ("Clock", zone),
            { Ridge: { } ridge } => ("Ridge", ridge),
            { Canopy: { } trees } => ("Trees", trees),
            { Valley: { } valley } => ("Valley walls", valley),
            _ => ("Walls all round", change.Basin ?? ""),
        };
        return $"{what} of {before.Name}: {(now.Length > 0 ? now : "taken out")}.";
    }

    /// <summary>A note as it is written, so that it reads back to the same under its own number.</summary>
    public static NoteWish Written(NoteView note) => new(
        note.Time.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture), Number(note.MeteredEv100), note.Okta is { } okta ? Number(okta) : null, note.Filter, note.Remark, note.Number);

    /// <summary>"17 October 2026, 08:40".</summary>
    public static string When(NoteView note) => note.Time.ToString("d MMMM yyyy, HH:mm", CultureInfo.InvariantCulture);

    /// <summary>"EV 6 2/3 (measured), 8/8 cloud, through polariser 1.5 (without it EV 8 1/3)".</summary>
    public static string Light(NoteView note) =>
        $"EV {ExposureValue.Of(note.MeteredEv100).ToDisplay()} (measured), {(note.Okta is { } okta ? $"{okta.ToString("0.#", CultureInfo.InvariantCulture)}/8 cloud" : "sky not noted")}"
        + (note.Filter is { } filter ? $", through {filter} (without it EV {ExposureValue.Of(note.MeteredEv100 + note.FilterStops).ToDisplay()})" : "")
        + (note.Remark is { } remark ? $". {remark}" : "");

    private static string Number(double? value) => value is { } number ? number.ToString("R", CultureInfo.InvariantCulture) : "";
}
