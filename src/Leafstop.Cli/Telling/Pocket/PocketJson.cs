using System.Globalization;
using System.Text;
using System.Text.Json;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Light;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Places;
using NodaTime;
using static Leafstop.Cli.Telling.JsonValues;

namespace Leafstop.Cli.Telling.Pocket;

/// <summary>The data part of a pocket page, and what was written. Both shapes are described in docs/json/pocket.md: fields are added, never renamed.</summary>
internal static class PocketJson
{
    /// <summary>The data part. Every &lt; is written as an escape, so that nothing in it can end the element it lies in.</summary>
    public static string Of(PocketContent content) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        json.WriteNumber("leafstopPocket", 1);
        json.WriteString("page", content.Page);
        json.WriteString("made", content.MadeAt.ToString("d MMMM yyyy", CultureInfo.InvariantCulture));
        WritePrint(json, content.Print);
        json.WriteStartArray("cameras");
        foreach (PocketCameraEntry camera in content.Cameras)
            Write(json, camera);
        json.WriteEndArray();
        json.WriteStartArray("lenses");
        foreach (Length lens in content.Lenses)
            WriteOne(json, "focalLengthMm", lens.Millimetres);
        json.WriteEndArray();
        json.WriteStartArray("tastes");
        foreach (Streak taste in content.Tastes)
            WriteOne(json, "streakPercent", taste.Percent);
        json.WriteEndArray();
        json.WriteStartArray("places");
        foreach (KeptPlace place in content.Places)
            Write(json, place);
        json.WriteEndArray();
        json.WriteEndObject();
    });

    /// <summary>What was written, for --json.</summary>
    public static string Outcome(string file, string page, PocketContent content) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        json.WriteString("file", file);
        json.WriteNumber("bytes", Encoding.UTF8.GetByteCount(page));
        json.WriteStartArray("cameras");
        foreach (PocketCameraEntry camera in content.Cameras)
            json.WriteStringValue(camera.Name);
        json.WriteEndArray();
        json.WriteNumber("lenses", content.Lenses.Length);
        json.WriteNumber("tastes", content.Tastes.Length);
        json.WriteNumber("places", content.Places.Length);
        json.WriteEndObject();
    });

    private static void Write(Utf8JsonWriter json, PocketCameraEntry camera)
    {
        json.WriteStartObject();
        json.WriteString("name", camera.Name);
        json.WriteNumber("baseIso", camera.BaseIso.Speed);
        if (camera.Format is { } format)
        {
            json.WriteStartObject("format");
            json.WriteNumber("widthMm", format.Width.Millimetres);
            json.WriteNumber("heightMm", format.Height.Millimetres);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("format");
        }
        json.WriteStartArray("limits");
        foreach (PocketLimitsEntry limits in camera.Limits)
            Write(json, limits);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, PocketLimitsEntry entry)
    {
        NoiseLimits limits = entry.Limits;
        json.WriteStartObject();
        WriteIso(json, "cleanIso", limits.Clean);
        WriteIso(json, "stretchIso", limits.Stretch);
        json.WriteString("how", Camel(limits.Origin));
        json.WriteString("body", limits.Tags.Body);
        WritePrint(json, limits.Tags.Print);
        json.WriteString("tone", Camel(limits.Tags.Tone));
        json.WriteString("treatment", Camel(limits.Tags.Treatment));
        if (limits.Tags.Lift is { } lift)
            json.WriteNumber("darkLiftStops", lift.Value);
        json.WriteString("judged", entry.Judging?.JudgedAt.ToString("d MMMM yyyy", CultureInfo.InvariantCulture));
        json.WriteString("remark", entry.Remark.Length > 0 ? entry.Remark : null);
        WriteIso(json, "measuredToIso", entry.MeasuredTo);
        json.WriteEndObject();
    }

    /// <summary>A place without its whereabouts: secret places stay secret, also on a phone that is handed round.</summary>
    private static void Write(Utf8JsonWriter json, KeptPlace place)
    {
        DateTimeZone zone = ZoneName.TryParse(place.Zone, out DateTimeZone known, out _) ? known : DateTimeZone.Utc;
        json.WriteStartObject();
        json.WriteString("name", place.Name);
        json.WriteStartArray("notes");
        foreach (NumberedNote numbered in place.Notes)
        {
            LightNote note = numbered.Note;
            json.WriteStartObject();
            json.WriteString("time", note.When.InZone(zone).ToDateTimeUnspecified().ToString("d MMM yyyy, HH:mm", CultureInfo.InvariantCulture));
            json.WriteNumber("meteredEv100", note.Metered.Value);
            json.WriteString("sky", note.Cloud is { } cloud ? string.Create(CultureInfo.InvariantCulture, $"{cloud.Okta:0.#}/8 cloud") : null);
            json.WriteString("filter", note.FilterName.Length > 0 ? note.FilterName : null);
            json.WriteString("remark", note.Remark.Length > 0 ? note.Remark : null);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WritePrint(Utf8JsonWriter json, PrintCondition? print)
    {
        if (print is null)
        {
            json.WriteNull("print");
            return;
        }
        json.WriteStartObject("print");
        json.WriteNumber("widthMm", print.WidthMm);
        json.WriteNumber("viewingDistanceMm", print.ViewingDistanceMm);
        json.WriteEndObject();
    }

    private static void WriteOne(Utf8JsonWriter json, string name, double value)
    {
        json.WriteStartObject();
        json.WriteNumber(name, value);
        json.WriteEndObject();
    }

    private static void WriteIso(Utf8JsonWriter json, string name, Iso? iso)
    {
        if (iso is not null)
            json.WriteNumber(name, iso.Speed);
        else
            json.WriteNull(name);
    }
}
