using System.Text.Json;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using NodaTime;
using static Leafstop.Cli.Telling.JsonValues;

namespace Leafstop.Cli.Telling;

/// <summary>Writes the light of a day as JSON, the shape of docs/json/light.md.</summary>
internal static class LightJson
{
    public static string Of(LightAnswer answer) => JsonText.Of(json => Write(json, answer));

    private static void Write(Utf8JsonWriter json, LightAnswer answer)
    {
        DateTimeZone zone = answer.Day.Zone;
        LightWords words = new(answer);
        json.WriteStartObject();
        json.WriteStartObject("verdict");
        json.WriteString("sentence", words.Sentence);
        json.WriteString("second", words.Second);
        json.WriteString("howSure", words.HowSure.Text);
        json.WriteEndObject();
        Where(json, answer);
        json.WriteString("date", NodaTime.Text.LocalDatePattern.Iso.Format(answer.Day.Date));
        json.WriteString("zone", zone.Id);
        Conditions(json, answer.Conditions);
        json.WriteStartArray("events");
        foreach (SunEvent e in answer.Events)
            Event(json, e, zone);
        json.WriteEndArray();
        json.WriteStartArray("extremes");
        foreach (HeightExtreme extreme in answer.Day.Extremes)
        {
            json.WriteStartObject();
            Time(json, "time", extreme.Time, zone);
            Degrees(json, "sunAltitudeDeg", extreme.Altitude);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        Moon(json, answer, zone);
        json.WriteStartArray("samples");
        foreach (LightEstimate row in answer.Rows)
            Sample(json, row, answer.Curve, zone);
        json.WriteEndArray();
        Number(json, "wantedEv100", answer.Wanted?.Value);
        json.WriteStartArray("crossings");
        foreach (LightCrossing pass in answer.Passes)
        {
            json.WriteStartObject();
            Time(json, "time", pass.Time, zone);
            json.WriteBoolean("brightening", pass.IsBrightening);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("cautions");
        foreach ((string code, string text) in words.Cautions)
        {
            json.WriteStartObject();
            json.WriteString("code", code);
            json.WriteString("text", text);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    // A kept place stays secret: its name is told, not where it is.
    private static void Where(Utf8JsonWriter json, LightAnswer answer)
    {
        json.WriteStartObject("place");
        json.WriteString("name", answer.Kept);
        if (answer.Kept is null)
        {
            Degrees(json, "latitudeDeg", answer.Day.Place.Latitude);
            Degrees(json, "longitudeDeg", answer.Day.Place.Longitude);
            json.WriteNumber("elevationM", answer.Day.Place.ElevationMetres);
        }
        json.WriteEndObject();
    }

    private static void Conditions(Utf8JsonWriter json, SkyConditions conditions)
    {
        json.WriteStartObject("conditions");
        json.WriteNumber("okta", conditions.Cloud.Okta);
        json.WriteString("canopy", conditions.Canopy.Name);
        json.WriteNumber("canopyShare", conditions.Canopy.Share);
        Degrees(json, "valleyDeg", conditions.View.Shape == LandShape.Valley ? conditions.View.Wall : null);
        Degrees(json, "basinDeg", conditions.View.Shape == LandShape.Basin ? conditions.View.Wall : null);
        Degrees(json, "ridgeDeg", conditions.SkyLine.Ridge);
        json.WriteNumber("eyeHeightM", conditions.SkyLine.EyeHeightMetres);
        json.WriteEndObject();
    }

    private static void Event(Utf8JsonWriter json, SunEvent e, DateTimeZone zone)
    {
        json.WriteStartObject();
        json.WriteString("event", LevelWords.CamelCase(e.Kind));
        Time(json, "time", e.Time, zone);
        json.WriteString("state", LevelWords.CamelCase(e.State));
        Degrees(json, "sunAltitudeDeg", e.Altitude);
        Degrees(json, "sunAzimuthDeg", e.Azimuth);
        json.WriteBoolean("grazing", e.IsGrazing);
        json.WriteEndObject();
    }

    private static void Moon(Utf8JsonWriter json, LightAnswer answer, DateTimeZone zone)
    {
        json.WriteStartObject("moon");
        json.WriteNumber("litShare", Math.Round(answer.MoonLit, 4));
        json.WriteStartArray("events");
        foreach (HeightCrossing pass in answer.MoonPasses)
        {
            json.WriteStartObject();
            json.WriteString("event", pass.IsRising ? "moonrise" : "moonset");
            Time(json, "time", pass.Time, zone);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Sample(Utf8JsonWriter json, LightEstimate row, LightCurve curve, DateTimeZone zone)
    {
        json.WriteStartObject();
        Time(json, "time", row.When, zone);
        Degrees(json, "sunAltitudeDeg", row.Sun.Altitude);
        Degrees(json, "sunApparentAltitudeDeg", row.Sun.ApparentAltitude);
        Degrees(json, "sunAzimuthDeg", row.Sun.Azimuth);
        json.WriteNumber("illuminanceLux", row.Illuminance.Lux);
        json.WriteNumber("ev100", row.Light.Value);
        json.WriteNumber("uncertaintyStops", row.Uncertainty.Value);
        json.WriteNumber("stopsPerMinute", curve.StopsPerMinuteAt(row.When));
        json.WriteNumber("sunDiscShare", row.Sun.Altitude > SkyLine.RiseAltitude ? row.Chain.DiscShare : 0);
        json.WriteString("how", LevelWords.CamelCase(row.How));
        Time(json, "noteTime", row.Note?.When, zone);
        Number(json, "carriedByStops", row.CarriedBy?.Value);
        json.WriteEndObject();
    }

    // Raw, because the writer would spell the plus of an offset as an escape; digits, colons and signs need none.
    private static void Time(Utf8JsonWriter json, string name, Instant? when, DateTimeZone zone)
    {
        json.WritePropertyName(name);
        json.WriteRawValue(when is { } time ? $"\"{ZoneName.Write(time, zone)}\"" : "null");
    }

    // Degrees went through radians and back; ten decimals hide that and nothing else.
    private static void Degrees(Utf8JsonWriter json, string name, Angle? angle) => Number(json, name, angle is { } a ? Math.Round(a.Degrees, 10) : null);
}
