using System.Text;
using System.Text.Json;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using Leafstop.Core.Text;
using NodaTime;
using NodaTime.Text;

namespace Leafstop.Storage.Places;

/// <summary>A kept place as JSON, to hand on or to read without this program. Described in docs/json/light.md.</summary>
public static class PlaceFile
{
    /// <summary>Larger files are refused unread: a place with a note for every day of a life stays below.</summary>
    public const int LargestBytes = 4 * 1024 * 1024;

    private static readonly OffsetDateTimePattern Time = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-ddTHH:mm:sso<G>");

    /// <summary>Writes a place with its notes as a text of its own.</summary>
    public static string Write(KeptPlace place, bool withLocation)
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream, new JsonWriterOptions { Indented = true, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
            Write(json, place, withLocation);
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    /// <summary>Reads a place that was written with its whereabouts.</summary>
    /// <param name="text">The JSON text.</param>
    /// <exception cref="FormatException">Not such a file; the message says which entry is wrong and how, for the person.</exception>
    public static KeptPlace Read(string text)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(text, new JsonDocumentOptions { MaxDepth = 16 });
            return ReadPlace(document.RootElement);
        }
        catch (JsonException error)
        {
            throw new FormatException($"This is no JSON (line {error.LineNumber + 1}). Export the place again.", error);
        }
        catch (ArgumentException wrong)
        {
            // Out of range; the types say so for the person.
            throw new FormatException(wrong.Message.Split(" (Parameter", StringSplitOptions.None)[0], wrong);
        }
    }

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

    private static KeptPlace ReadPlace(JsonElement file)
    {
        if (file.ValueKind != JsonValueKind.Object || file.TryGetProperty("format", out _) || Text(file, "name", "") is not { } name)
            throw new FormatException("This is no place: choose a file that leafstop places export --with-location wrote.");
        if (Number(file, "latitudeDeg", "") is not { } latitude || Number(file, "longitudeDeg", "") is not { } longitude)
            throw new FormatException("This file leaves out where the place is: export it once more with --with-location, or keep the place anew.");
        string zone = Text(file, "zone", "") ?? throw new FormatException("\"zone\" is missing: it says whose clock counts.");
        if (!ZoneName.TryParse(zone, out DateTimeZone known, out string why))
            throw new FormatException($"\"zone\": {why}");
        string? canopy = Text(file, "canopy", "");
        if (canopy is not null && !Canopy.TryParse(canopy, out _, out why))
            throw new FormatException($"\"canopy\": {why}");
        Angle? ridge = Number(file, "ridgeDeg", "") is { } height ? Angle.FromDegrees(height) : null;
        if (ridge is { } seen)
            _ = SkyLine.Level.WithRidge(seen);
        (double? valley, double? basin) = (Number(file, "valleyDeg", ""), Number(file, "basinDeg", ""));
        if (valley is not null && basin is not null)
            throw new FormatException("\"valleyDeg\" and \"basinDeg\" are both there: a place lies in one of them.");
        NumberedNote[] notes = [.. Notes(file).OrderBy(n => n.Note.When).ThenBy(n => n.Number)];
        return notes.DistinctBy(n => n.Number).Count() == notes.Length
            ? new KeptPlace
            {
                Name = PlaceStore.TidyName(name),
                Place = Place.FromDegrees(latitude, longitude, Number(file, "elevationM", "") ?? 0),
                Zone = known.Id,
                Ridge = ridge,
                Canopy = canopy,
                View = valley is { } v ? SkyView.Valley(Angle.FromDegrees(v)) : basin is { } b ? SkyView.Basin(Angle.FromDegrees(b)) : SkyView.Open,
                Notes = [.. notes],
            }
            : throw new FormatException("Two of the \"notes\" have one number.");
    }

    private static IEnumerable<NumberedNote> Notes(JsonElement file)
    {
        if (!file.TryGetProperty("notes", out JsonElement notes) || notes.ValueKind == JsonValueKind.Null)
            yield break;
        if (notes.ValueKind != JsonValueKind.Array)
            throw new FormatException("\"notes\" is not a list.");
        int at = 0;
        foreach (JsonElement note in notes.EnumerateArray())
        {
            string where = $"notes[{at++}].";
            if (note.ValueKind != JsonValueKind.Object)
                throw new FormatException($"\"{where.TrimEnd('.')}\" is no note.");
            if (Number(note, "number", where) is not { } number || number is not (>= 1 and <= int.MaxValue) || Math.Floor(number) != number)
                throw new FormatException($"\"{where}number\" is a whole number from 1; this file says otherwise.");
            string time = Text(note, "time", where) ?? "";
            if (Time.Parse(time) is not { Success: true } read || !Reach.Holds(read.Value.ToInstant().InUtc().Date))
                throw new FormatException($"\"{where}time\" is a time such as 2026-10-17T08:40:00+01:00, in the years {Reach.FirstYear} to {Reach.LastYear}; this file says otherwise.");
            if (Number(note, "meteredEv100", where) is not { } metered)
                throw new FormatException($"\"{where}meteredEv100\" is missing: it is what the meter showed.");
            double filterStops = Number(note, "filterStops", where) ?? 0;
            if (filterStops is < 0 or > 40)
                throw new FormatException($"\"{where}filterStops\" is from 0 to 40 stops; this file says otherwise.");
            (string filter, string remark) = (Text(note, "filter", where) ?? "", Text(note, "remark", where) ?? "");
            if (remark.Length > PlaceStore.LongestText)
                throw new FormatException($"\"{where}remark\" has at most {PlaceStore.LongestText} characters; this file says otherwise.");
            yield return new NumberedNote((int)number, new LightNote(
                read.Value.ToInstant(), ExposureValue.Of(metered), Number(note, "okta", where) is { } okta ? CloudCover.FromOkta(okta) : null, Stops.Of(filterStops), filter, remark));
        }
    }

    private static string? Text(JsonElement of, string name, string where) => !of.TryGetProperty(name, out JsonElement value) || value.ValueKind == JsonValueKind.Null ? null
        : value.ValueKind == JsonValueKind.String && value.GetString() is { Length: <= 200 } text && !text.Any(OutsideText.IsHidden)
            ? text
            : throw new FormatException($"\"{where}{name}\" is a text of at most 200 visible characters; this file says otherwise.");

    private static double? Number(JsonElement of, string name, string where) => !of.TryGetProperty(name, out JsonElement value) || value.ValueKind == JsonValueKind.Null ? null
        : value.ValueKind == JsonValueKind.Number && value.TryGetDouble(out double number) && double.IsFinite(number)
            ? number
            : throw new FormatException($"\"{where}{name}\" is a number; this file says otherwise.");
}
