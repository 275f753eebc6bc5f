using System.Text;
using System.Text.Json;
using Leafstop.Core.Card;
using Leafstop.Core.Sensor;
using Leafstop.Storage.Judgements;

namespace Leafstop.Storage.Cameras;

/// <summary>A kept camera as JSON, to hand on or to read without this program. Described in docs/camera-file.md.</summary>
public static class CameraFile
{
    /// <summary>The value of "format".</summary>
    public const string Format = "leafstop-camera";

    /// <summary>The version of the format that is written, and the highest that is read.</summary>
    public const int FormatVersion = 1;

    /// <summary>Larger files are refused unread: a camera measured a thousand times stays below.</summary>
    public const int LargestBytes = 16 * 1024 * 1024;

    /// <summary>Writes a camera with its history.</summary>
    public static string Write(KeptCamera camera)
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream, new JsonWriterOptions { Indented = true, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
            Write(json, camera);
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    /// <summary>Writes a camera with its history as one JSON object.</summary>
    public static void Write(Utf8JsonWriter json, KeptCamera camera)
    {
        json.WriteStartObject();
        json.WriteString("format", Format);
        json.WriteNumber("formatVersion", FormatVersion);
        json.WriteString("name", camera.Name);
        json.WriteStartArray("measurements");
        foreach (KeptMeasurement m in camera.Measurements)
            Write(json, m);
        json.WriteEndArray();
        if (!camera.Judgings.IsEmpty)
        {
            json.WriteStartArray("judgings");
            foreach (KeptJudging judging in camera.Judgings)
                JudgementEntries.Write(json, judging);
            json.WriteEndArray();
        }
        if (!camera.Cards.IsEmpty)
        {
            json.WriteStartArray("cards");
            foreach (KeptCard card in camera.Cards)
            {
                json.WriteStartObject();
                json.WriteString("keptAt", CameraRows.Time(card.KeptAt));
                json.WriteString("text", card.Card.ToString());
                json.WriteEndObject();
            }
            json.WriteEndArray();
        }
        json.WriteEndObject();
    }

    /// <summary>Reads a camera. Its measurements count as imported.</summary>
    /// <param name="text">The JSON text.</param>
    /// <exception cref="FormatException">Not a camera file; the message says which entry is wrong and how, for the person.</exception>
    public static KeptCamera Read(string text)
    {
        JsonDocument document;
        try
        {
            document = JsonDocument.Parse(text, new JsonDocumentOptions { MaxDepth = 16 });
        }
        catch (JsonException error)
        {
            throw new FormatException($"This is no JSON (line {error.LineNumber + 1}). Export the camera again.", error);
        }
        using (document)
        {
            CameraFileEntry file = new(document.RootElement, "");
            if (file.TextOrNull("format") != Format)
                throw new FormatException($"This is no camera file: its \"format\" is not \"{Format}\". Name a file that leafstop cameras export wrote.");
            int version = file.Whole("formatVersion", 1, int.MaxValue);
            if (version > FormatVersion)
                throw new FormatException($"This camera file has format version {version}; this Leafstop reads up to {FormatVersion}. Use a newer one.");
            string name;
            try
            {
                name = CameraStore.TidyName(file.Text("name"));
            }
            catch (ArgumentException)
            {
                throw new FormatException($"\"name\" has 1 to {CameraStore.LongestName} characters, all of them visible.");
            }
            KeptMeasurement[] measurements = [.. file.List("measurements").Select(Measurement)];
            KeptCard[] cards = [.. file.ListOrNone("cards").Select(Card).OrderBy(c => c.KeptAt)];
            return measurements.Length + cards.Length > 0
                ? new KeptCamera(name, [.. measurements.OrderBy(m => m.MeasuredAt)])
                {
                    Judgings = [.. file.ListOrNone("judgings").Select(JudgementEntries.Read).OrderBy(j => j.JudgedAt)],
                    Cards = [.. cards],
                }
                : throw new FormatException("\"measurements\" is empty: there is nothing to keep.");
        }
    }

    private static void Write(Utf8JsonWriter json, KeptMeasurement m)
    {
        json.WriteStartObject();
        json.WriteString("measuredAt", CameraRows.Time(m.MeasuredAt));
        json.WriteStartObject("camera");
        json.WriteString("make", m.Camera.Make);
        json.WriteString("model", m.Camera.Model);
        json.WriteString("bodyFingerprint", m.Camera.BodyFingerprint);
        json.WriteNumber("widthPx", m.Camera.Width);
        json.WriteNumber("heightPx", m.Camera.Height);
        json.WriteString("mosaic", m.Camera.Mosaic);
        json.WriteNumber("bits", m.Camera.Bits);
        json.WriteEndObject();
        json.WriteString("ladder", Camel(m.Ladder));
        json.WriteStartArray("levels");
        foreach (KeptLevel level in m.Levels)
        {
            json.WriteStartObject();
            json.WriteNumber("iso", level.Iso.Speed);
            json.WriteString("ladder", Camel(level.Ladder));
            Write(json, "gainElectronsPerDn", "gainInterval95", level.GainElectronsPerDn);
            Write(json, "readNoiseElectrons", "readNoiseInterval95", level.ReadNoiseElectrons);
            json.WriteString("readNoiseSource", level.ReadNoiseSource is { } source ? Camel(source) : null);
            if (level.SaturationElectrons is { } saturation)
                json.WriteNumber("saturationElectrons", saturation);
            else
                json.WriteNull("saturationElectrons");
            json.WriteBoolean("clipSeen", level.ClipSeen);
            json.WriteBoolean("usable", level.Usable);
            json.WriteStartArray("flags");
            foreach (LevelFlag flag in level.Flags)
                json.WriteStringValue(Camel(flag));
            json.WriteEndArray();
            json.WriteString("reason", level.Reason);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("gainSteps");
        foreach (KeptGainStep step in m.GainSteps)
        {
            json.WriteStartObject();
            json.WriteNumber("belowIso", step.Below.Speed);
            json.WriteNumber("aboveIso", step.Above.Speed);
            json.WriteNumber("readNoiseRatio", step.ReadNoiseRatio);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, string name, string intervalName, Estimate? estimate)
    {
        if (estimate is not { } e)
        {
            json.WriteNull(name);
            json.WriteNull(intervalName);
            return;
        }
        json.WriteNumber(name, e.Value);
        json.WriteStartArray(intervalName);
        json.WriteNumberValue(e.Low);
        json.WriteNumberValue(e.High);
        json.WriteEndArray();
    }

    private static KeptCard Card(CameraFileEntry entry) => new(
        CameraRows.TryTime(entry.Text("keptAt"), out DateTimeOffset at) ? at : throw entry.Wrong("keptAt", "is a time such as \"2026-03-01T18:30:00Z\""),
        CardText.TryParse(entry.Text("text"), out CardText? card, out string why) ? card! : throw new FormatException(why));

    private static KeptMeasurement Measurement(CameraFileEntry entry)
    {
        CameraFileEntry camera = entry.Object("camera");
        KeptLevel[] levels = [.. entry.List("levels").Select(Level)];
        return new KeptMeasurement
        {
            MeasuredAt = CameraRows.TryTime(entry.Text("measuredAt"), out DateTimeOffset at)
                ? at
                : throw entry.Wrong("measuredAt", "is a time such as \"2026-03-01T18:30:00Z\""),
            IsImported = true,
            Camera = new CameraIdentity
            {
                Make = camera.Text("make"),
                Model = camera.Text("model"),
                BodyFingerprint = camera.TextOrNull("bodyFingerprint"),
                Width = camera.Whole("widthPx", 1, 1_000_000),
                Height = camera.Whole("heightPx", 1, 1_000_000),
                Mosaic = camera.Text("mosaic"),
                Bits = camera.Whole("bits", 1, 32),
            },
            Ladder = entry.Choice<LadderKind>("ladder"),
            Levels = levels.Length > 0 ? [.. levels] : throw entry.Wrong("levels", "has at least one level"),
            GainSteps = [.. entry.List("gainSteps").Select(s => new KeptGainStep(s.Iso("belowIso"), s.Iso("aboveIso"), s.Positive("readNoiseRatio")))],
        };
    }

    private static KeptLevel Level(CameraFileEntry entry)
    {
        KeptLevel level = new()
        {
            Iso = entry.Iso("iso"),
            Ladder = entry.Choice<LadderKind>("ladder"),
            GainElectronsPerDn = entry.Interval("gainElectronsPerDn", "gainInterval95"),
            ReadNoiseElectrons = entry.Interval("readNoiseElectrons", "readNoiseInterval95"),
            ReadNoiseSource = entry.ChoiceOrNull<ReadNoiseSource>("readNoiseSource"),
            SaturationElectrons = entry.PositiveOrNull("saturationElectrons"),
            ClipSeen = entry.Truth("clipSeen"),
            Usable = entry.Truth("usable"),
            Flags = [.. entry.Choices<LevelFlag>("flags")],
            Reason = entry.TextOrNull("reason"),
        };
        return !level.Usable || (level.GainElectronsPerDn is not null && level.ReadNoiseElectrons is not null)
            ? level
            : throw entry.Wrong("usable", "is false where gain or read noise is missing");
    }

    private static string Camel<T>(T value) where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());
}
