using System.Text;
using System.Text.Json;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Judging;
using static Leafstop.Cli.Telling.JsonValues;

namespace Leafstop.Cli.Telling.Judging;

/// <summary>What a judging says.</summary>
internal static class JudgingTelling
{
    /// <summary>For the terminal, the limits first.</summary>
    /// <param name="result">What the answers say.</param>
    /// <param name="further">Sentences after it: what was kept, what is missing.</param>
    /// <param name="width">Columns.</param>
    public static string Text(JudgingResult result, IEnumerable<string> further, int width)
    {
        StringBuilder text = new();
        foreach (string sentence in result.ToSentences().Concat(further))
            foreach (string line in TextColumns.Wrap(Capital(OneLine.Of(sentence)), width))
                text.Append(line).Append('\n');
        return text.ToString().Replace(Figures.NoBreak, ' ').Replace(Figures.Thin, ' ');
    }

    /// <summary>For programs.</summary>
    /// <param name="result">What the answers say.</param>
    /// <param name="camera">The camera it belongs to.</param>
    /// <param name="isKept">True when it was kept with that camera.</param>
    public static string Json(JudgingResult result, string camera, bool isKept) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        json.WriteString("camera", camera);
        json.WriteString("body", result.Tags.Body);
        json.WriteNumber("printWidthMm", result.Tags.Print.WidthMm);
        json.WriteNumber("viewingDistanceMm", result.Tags.Print.ViewingDistanceMm);
        json.WriteString("tone", Camel(result.Tags.Tone));
        json.WriteString("treatment", Camel(result.Tags.Treatment));
        json.WriteBoolean("isKept", isKept);
        Write(json, "clean", result.Clean);
        Write(json, "stretch", result.Stretch);
        json.WriteStartArray("words");
        foreach (string sentence in result.ToSentences())
            json.WriteStringValue(sentence);
        json.WriteEndArray();
        json.WriteEndObject();
    });

    private static void Write(Utf8JsonWriter json, string name, QuestionReading reading)
    {
        json.WriteStartObject(name);
        json.WriteString("outcome", Camel(reading.Outcome));
        Number(json, "iso", reading.Limit?.Speed);
        Number(json, "isoLow", reading.Low?.Speed);
        Number(json, "isoHigh", reading.High?.Speed);
        Number(json, "spreadStops", reading.SpreadStops);
        json.WriteNumber("answers", reading.Answers);
        json.WriteEndObject();
    }

    private static string Capital(string sentence) => sentence.Length > 0 ? char.ToUpperInvariant(sentence[0]) + sentence[1..] : sentence;
}
