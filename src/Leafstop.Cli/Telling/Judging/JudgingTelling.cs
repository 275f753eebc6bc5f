using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Judging;
using Leafstop.Core.Planning;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Judgements;
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
        foreach (string sentence in Sentences(result, further))
            foreach (string line in TextColumns.Wrap(sentence, width))
                text.Append(line).Append('\n');
        return text.ToString().Replace(Figures.NoBreak, ' ').Replace(Figures.Thin, ' ');
    }

    /// <summary>What a person is told, sentence by sentence.</summary>
    public static IEnumerable<string> Sentences(JudgingResult result, IEnumerable<string> further) => result.ToSentences().Concat(further).Select(s => Capital(OneLine.Of(s)));

    /// <summary>For programs.</summary>
    /// <param name="result">What the answers say.</param>
    /// <param name="camera">The camera it belongs to.</param>
    /// <param name="isKept">True when it was kept with that camera.</param>
    /// <param name="further">Sentences after those of the result.</param>
    public static string Json(JudgingResult result, string camera, bool isKept, IEnumerable<string> further) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        json.WriteString("camera", camera);
        json.WriteString("body", result.Tags.Body);
        json.WriteNumber("printWidthMm", result.Tags.Print.WidthMm);
        json.WriteNumber("viewingDistanceMm", result.Tags.Print.ViewingDistanceMm);
        json.WriteString("tone", Camel(result.Tags.Tone));
        json.WriteString("treatment", Camel(result.Tags.Treatment));
        Number(json, "darkLiftStops", result.Tags.Lift?.Value);
        json.WriteBoolean("isKept", isKept);
        Write(json, "clean", result.Clean);
        Write(json, "stretch", result.Stretch);
        json.WriteStartArray("words");
        foreach (string sentence in Sentences(result, further))
            json.WriteStringValue(sentence);
        json.WriteEndArray();
        json.WriteEndObject();
    });

    /// <summary>The history for the terminal: number, day, what it holds for, what it said, and whether it counts.</summary>
    /// <param name="camera">Name of the camera.</param>
    /// <param name="all">Its judgings, oldest first.</param>
    /// <param name="speaking">Those that count.</param>
    /// <param name="width">Columns.</param>
    public static string HistoryText(string camera, ImmutableArray<KeptJudging> all, ImmutableArray<KeptJudging> speaking, int width)
    {
        StringBuilder text = new();
        string[] sentences = all.IsEmpty ? [$"'{camera}' was never judged."] :
        [
            .. all.Select((judging, i) => $"{i + 1}. {Day(judging.JudgedAt)}, {(judging.Source == JudgingSource.Paper ? "on paper" : "on the screen")}, a print {Figures.Length(judging.Result.Tags.Print.WidthMm)} wide "
                + $"seen from {Figures.Length(judging.Result.Tags.Print.ViewingDistanceMm)}{Lifted(judging)}: {Said(judging)} {Standing(judging, speaking)}"),
            $"leafstop judge --drop N --camera \"{camera}\" drops one of them, --restore N takes it back in. Nothing is deleted.",
        ];
        foreach (string line in sentences.SelectMany(s => TextColumns.Wrap(OneLine.Of(s), width)))
            text.Append(line).Append('\n');
        return text.ToString().Replace(Figures.NoBreak, ' ').Replace(Figures.Thin, ' ');
    }

    /// <summary>The history for programs.</summary>
    public static string HistoryJson(string camera, ImmutableArray<KeptJudging> all, ImmutableArray<KeptJudging> speaking) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        json.WriteString("camera", camera);
        json.WriteStartArray("judgings");
        foreach ((KeptJudging judging, int i) in all.Select((j, i) => (j, i)))
        {
            json.WriteStartObject();
            json.WriteNumber("number", i + 1);
            json.WriteString("judgedAt", judging.JudgedAt);
            json.WriteString("source", Camel(judging.Source));
            json.WriteNumber("printWidthMm", judging.Result.Tags.Print.WidthMm);
            json.WriteNumber("viewingDistanceMm", judging.Result.Tags.Print.ViewingDistanceMm);
            json.WriteString("tone", Camel(judging.Result.Tags.Tone));
            json.WriteString("treatment", Camel(judging.Result.Tags.Treatment));
            Number(json, "darkLiftStops", judging.Result.Tags.Lift?.Value);
            json.WriteBoolean("isDropped", judging.DroppedAt is not null);
            json.WriteBoolean("counts", speaking.Any(judging.IsSameAs));
            json.WriteStartArray("words");
            json.WriteStringValue(Said(judging));
            json.WriteStringValue(Standing(judging, speaking));
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    });

    /// <summary>A day as it is told.</summary>
    public static string Day(DateTimeOffset at) => at.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    // An unfinished one tells nothing, so that its observer stays blind.
    private static string Said(KeptJudging judging) => judging.IsUnfinished ? $"{judging.Answers.Length} answers so far, not finished." : Figures.Uncapital(string.Join(' ', judging.Result.ToSentences().Take(Limits(judging.Result))));

    // The limits in one sentence, and one for each that is left open.
    private static int Limits(JudgingResult result)
    {
        int open = (result.Clean.HasLimit ? 0 : 1) + (result.Stretch.HasLimit ? 0 : 1);
        return open == 2 ? 2 : 1 + open;
    }

    private static string Standing(KeptJudging judging, ImmutableArray<KeptJudging> speaking) =>
        judging.DroppedAt is { } at ? $"Dropped on {Day(at)}."
        : speaking.FirstOrDefault(judging.IsSameAs) is { } counting ? Counts(counting, speaking)
        : judging.IsUnfinished || !judging.Result.HasLimits ? "Tells no limit."
        : "A newer one counts for this print.";

    // Of one print and tone a plan takes the newest that has both limits, else the newest, whatever its lift, and tells what another lift makes of it.
    private static string Counts(KeptJudging counting, ImmutableArray<KeptJudging> speaking)
    {
        string with = counting.Borrowed is { } borrowed ? $", with the {borrowed.Question.Limit()} limit of {Day(borrowed.JudgedAt)}" : "";
        LimitTags tags = counting.Result.Tags;
        KeptJudging first = LimitChoice.Nearest(
            speaking.Where(other => AnyLift(other) == AnyLift(counting)), j => j.Result.Tags, j => j.Result.HasBothLimits, new LimitUse { Body = tags.Body, Print = tags.Print, Tone = tags.Tone }) ?? counting;
        return first.IsSameAs(counting) ? $"Counts{with}."
            : first.JudgedAt > counting.JudgedAt ? $"Counts for this lift{with}; a plan asks the newer one of another lift first."
            : $"Counts for this lift{with}; a plan asks the older one of another lift first, which has both limits.";
    }

    private static LimitTags AnyLift(KeptJudging judging) => judging.Result.Tags with { Lift = null };

    private static string Lifted(KeptJudging judging) => judging.Result.Tags.Lift is { Value: > 0 } lift ? $", the dark lifted by {Figures.StopsOf(lift.Value)}" : "";

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
