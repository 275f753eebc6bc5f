using System.Text.Json;
using Leafstop.Core.Light;
using NodaTime;

namespace Leafstop.Storage.Places;

/// <summary>A kept place as JSON, to hand on or to read without this program. Described in docs/json/light.md.</summary>
public static class PlaceFile
{
    /// <summary>Writes a place with its notes as one JSON object.</summary>
    /// <param name="json">Where to.</param>
    /// <param name="place">The place.</param>
    /// <param name="withLocation">False leaves latitude, longitude and height out: places stay secret unless the person says otherwise.</param>
    public static void Write(Utf8JsonWriter json, KeptPlace place, bool withLocation)
    {
        json.WriteStartObject();
        json.WriteString("name", place.Name);
        if (withLocation)
        {
            // The degrees went through radians and back: ten decimals are a hundredth of a millimetre.
            json.WriteNumber("latitudeDeg", Math.Round(place.Place.Latitude.Degrees, 10));
            json.WriteNumber("longitudeDeg", Math.Round(place.Place.Longitude.Degrees, 10));
            json.WriteNumber("elevationM", place.Place.ElevationMetres);
        }
        json.WriteString("zone", place.Zone);
        Number(json, "ridgeDeg", place.Ridge is { } ridge ? Math.Round(ridge.Degrees, 10) : null);
        json.WriteString("canopy", place.Canopy);
        Number(json, "valleyDeg", place.View.Shape == LandShape.Valley ? Math.Round(place.View.Wall.Degrees, 10) : null);
        Number(json, "basinDeg", place.View.Shape == LandShape.Basin ? Math.Round(place.View.Wall.Degrees, 10) : null);
        json.WriteStartArray("notes");
        DateTimeZone zone = ZoneName.TryParse(place.Zone, out DateTimeZone known, out _) ? known : DateTimeZone.Utc;
        foreach (NumberedNote note in place.Notes)
            Write(json, note, zone);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, NumberedNote numbered, DateTimeZone zone)
    {
        LightNote note = numbered.Note;
        json.WriteStartObject();
        json.WriteNumber("number", numbered.Number);
        json.WritePropertyName("time");
        // Raw, because the writer would spell the plus of an offset as an escape.
        json.WriteRawValue($"\"{ZoneName.Write(note.When, zone)}\"");
        json.WriteNumber("meteredEv100", note.Metered.Value);
        Number(json, "okta", note.Cloud?.Okta);
        json.WriteString("filter", note.FilterName.Length > 0 ? note.FilterName : null);
        json.WriteNumber("filterStops", note.FilterStops.Value);
        json.WriteString("remark", note.Remark.Length > 0 ? note.Remark : null);
        json.WriteString("how", "measured");
        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number)
            json.WriteNumber(name, number);
        else
            json.WriteNull(name);
    }
}
