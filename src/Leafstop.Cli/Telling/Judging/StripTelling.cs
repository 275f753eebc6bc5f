using System.Text;
using System.Text.Json;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Paper;
using Leafstop.Cli.Paper.Strip;
using Leafstop.Core.Viewing;
using Leafstop.Raw.Developed;

namespace Leafstop.Cli.Telling.Judging;

/// <summary>What is said of a strip that was made. Never what stands behind a letter: whoever judges may be reading.</summary>
internal static class StripTelling
{
    /// <summary>For the terminal.</summary>
    public static string Text(StripContent content, StripLayout layout, string owner, bool isKept, string file)
    {
        string print = $"{Figures.Length(content.Tags.Print.WidthMm)} wide, seen from {Figures.Length(content.Tags.Print.ViewingDistanceMm)}";
        StringBuilder text = new();
        text.AppendLine(OneLine.Of($"Strip {content.Number} is in {file}: {content.Codes.Codes.Length} letters for {owner}, as large as in a print {print}."));
        text.AppendLine($"Print page 1 at 100 %, on {(layout.Sheet == PaperSheet.A4 ? "A4" : "letter")} and on the paper of your prints. The line on it shows whether it came out {PaperPen.Mm(StripDocument.MeasuringLineMm)} long. Behind it is the key: leave it unread.");
        text.AppendLine($"Then type the answers in: leafstop judge --strip {content.Number} --paper \"A clean, B no, …\"");
        text.AppendLine(OneLine.Of($"The crops lie at {content.PlaceWords}, from the left and the top edge of the frame; --dark, --mid and --texture move them."));
        if (content.LiftWords is { } lift)
            text.AppendLine(OneLine.Of($"{lift} What you find holds for that; --lift changes it."));
        if (content.CorrectionWords is { } correction)
            text.AppendLine(OneLine.Of($"{correction} The key has each."));
        if (content.NoiseWords is { } noise)
            text.AppendLine(OneLine.Of($"{noise} The key has each, for after the judging."));
        if (!isKept)
            text.AppendLine(OneLine.Of(NotKept(owner)));
        foreach (string note in content.Notes)
            text.AppendLine(OneLine.Of(note));
        return text.ToString().Replace(Figures.NoBreak, ' ').Replace(Figures.Thin, ' ').ReplaceLineEndings("\n");
    }

    /// <summary>Said when the sheet is made, before anybody judges it.</summary>
    private static string NotKept(string owner) =>
        $"No camera '{owner}' is kept, so the answers could not be: measure it with leafstop measure DIR --save \"{owner}\" before you type them in, or name a kept one with --camera.";

    /// <summary>For programs.</summary>
    public static string Json(StripContent content, StripLayout layout, string owner, bool isKept, string file) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        json.WriteNumber("number", content.Number);
        json.WriteString("file", file);
        json.WriteString("camera", owner);
        json.WriteBoolean("isCameraKept", isKept);
        json.WriteString("sheet", layout.Sheet.Name);
        json.WriteNumber("printWidthMm", content.Tags.Print.WidthMm);
        json.WriteNumber("viewingDistanceMm", content.Tags.Print.ViewingDistanceMm);
        json.WriteNumber("pixelsPerCentimetre", content.PixelsPerCentimetre);
        json.WriteNumber("cropSideMm", content.SideMm);
        JsonValues.Number(json, "darkLiftStops", content.Tags.Lift?.Value);
        json.WriteStartArray("places");
        foreach (StripPlace place in content.Places)
        {
            json.WriteStartObject();
            json.WriteString("shows", StripContent.Subjects.First(s => s.Subject == place.Subject).Head);
            json.WriteNumber("acrossPercent", place.Across.Percent);
            json.WriteNumber("downPercent", place.Down.Percent);
            json.WriteBoolean("isChosen", place.IsChosen);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("corrections");
        foreach (BrightnessCorrection correction in content.Corrections)
        {
            json.WriteStartObject();
            json.WriteNumber("iso", correction.Level.Iso.Speed);
            json.WriteNumber("stops", correction.Stops);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("visibleNoise");
        foreach (CropNoise noise in content.Noise)
        {
            json.WriteStartObject();
            json.WriteNumber("iso", noise.Level.Iso.Speed);
            json.WriteString("shows", StripContent.Subjects.First(s => s.Subject == noise.Subject).Head);
            Spread(json, "measured", noise.Measured.Grain);
            JsonValues.Number(json, "measuredRelativeError", noise.Measured.GrainError);
            Spread(json, "predicted", noise.Predicted);
            JsonValues.Number(json, "rows", noise.Measured.Banding.Rows);
            JsonValues.Number(json, "columns", noise.Measured.Banding.Columns);
            json.WriteBoolean("isBandingFound", noise.Measured.Banding.IsFound);
            JsonValues.Number(json, "atBlackOrWhite", noise.Measured.AtBlackOrWhite);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("letters");
        foreach (var code in content.Codes.Codes)
            json.WriteStringValue(code.Letter);
        json.WriteEndArray();
        json.WriteStartArray("notes");
        foreach (string note in isKept ? content.Notes : content.Notes.Prepend(NotKept(owner)))
            json.WriteStringValue(note);
        json.WriteEndArray();
        json.WriteEndObject();
    });

    private static void Spread(Utf8JsonWriter json, string name, VisibleNoise? noise)
    {
        if (noise is null)
        {
            json.WriteNull(name);
            return;
        }
        json.WriteStartObject(name);
        JsonValues.Number(json, "lightness", noise.Lightness);
        JsonValues.Number(json, "redGreen", noise.RedGreen);
        JsonValues.Number(json, "yellowBlue", noise.YellowBlue);
        json.WriteEndObject();
    }
}
