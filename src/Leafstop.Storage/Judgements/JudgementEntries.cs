using System.Globalization;
using System.Text.Json;
using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Cameras;

namespace Leafstop.Storage.Judgements;

/// <summary>Judgings in a camera file. Described in docs/camera-file.md.</summary>
internal static class JudgementEntries
{
    public static void Write(Utf8JsonWriter json, KeptJudging judging)
    {
        LimitTags tags = judging.Result.Tags;
        json.WriteStartObject();
        json.WriteString("begunAt", CameraRows.Time(judging.BegunAt));
        json.WriteString("judgedAt", CameraRows.Time(judging.JudgedAt));
        // For a reader with no program but an editor; not read back.
        json.WriteStartArray("words");
        foreach (string sentence in judging.Result.ToSentences())
            json.WriteStringValue(sentence);
        json.WriteEndArray();
        json.WriteString("source", Camel(judging.Source));
        // As a text, because many readers of JSON round whole numbers of this size.
        json.WriteString("seed", judging.Seed.ToString(CultureInfo.InvariantCulture));
        json.WriteString("body", tags.Body);
        json.WriteNumber("printWidthMm", tags.Print.WidthMm);
        json.WriteNumber("viewingDistanceMm", tags.Print.ViewingDistanceMm);
        json.WriteString("tone", Camel(tags.Tone));
        json.WriteString("treatment", Camel(tags.Treatment));
        if (tags.Lift is { } lift)
            json.WriteNumber("darkLiftStops", lift.Value);
        if (judging.DroppedAt is { } dropped)
            json.WriteString("droppedAt", CameraRows.Time(dropped));
        json.WriteStartArray("ladder");
        foreach (LadderIso iso in judging.Ladder)
        {
            json.WriteStartObject();
            json.WriteNumber("iso", iso.Iso.Speed);
            json.WriteBoolean("pair", iso.HasPair);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        Write(json, "clean", judging.Result.Clean);
        Write(json, "stretch", judging.Result.Stretch);
        json.WriteStartArray("answers");
        foreach (JudgingAnswer answer in judging.Answers)
        {
            json.WriteStartObject();
            json.WriteNumber("number", answer.Number);
            json.WriteString("question", Camel(answer.Question));
            json.WriteNumber("iso", answer.Shown.Iso.Speed);
            json.WriteNumber("weight", answer.Shown.Weight);
            json.WriteBoolean("blank", answer.IsBlank);
            json.WriteString("reply", Camel(answer.Reply));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    public static KeptJudging Read(CameraFileEntry entry)
    {
        JudgingAnswer[] answers = [.. entry.List("answers").Select((a, i) => new JudgingAnswer(
            a.Whole("number", i + 1, i + 1), a.Choice<JudgingQuestion>("question"),
            a.Positive("weight") is >= 0.5 and <= 1 and var weight ? ShownLevel.Mixed(a.Iso("iso"), weight) : throw a.Wrong("weight", "is from 0.5 to 1"),
            a.Truth("blank"), a.Choice<JudgingReply>("reply")))];
        return new KeptJudging
        {
            BegunAt = Time(entry, "begunAt"),
            JudgedAt = Time(entry, "judgedAt"),
            IsImported = true,
            DroppedAt = entry.TextOrNull("droppedAt") is null ? null : Time(entry, "droppedAt"),
            Source = entry.Choice<JudgingSource>("source"),
            Seed = long.TryParse(entry.Text("seed"), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long seed) ? seed : throw entry.Wrong("seed", "is a whole number written as a text"),
            Ladder = [.. entry.List("ladder").Select(l => new LadderIso(l.Iso("iso"), l.Truth("pair")))],
            Answers = [.. answers],
            Result = new JudgingResult(
                new LimitTags(entry.Text("body"), new PrintCondition(entry.Positive("printWidthMm"), entry.Positive("viewingDistanceMm")), Stated(entry, "tone", ToneKind.NotStated), Stated(entry, "treatment", NoiseTreatment.NotStated), Lift(entry)),
                Reading(entry.Object("clean"), JudgingQuestion.Disturbs).Counting(answers),
                Reading(entry.Object("stretch"), JudgingQuestion.WouldSign).Counting(answers)),
        };
    }

    /// <summary>A tag without which a judged limit holds for nothing.</summary>
    private static T Stated<T>(CameraFileEntry entry, string name, T notStated) where T : struct, Enum => entry.Choice<T>(name) is var tag && !tag.Equals(notStated)
        ? tag
        : throw entry.Wrong(name, "says what was judged; a judging without it holds for nothing");

    private static Stops? Lift(CameraFileEntry entry) => entry.NumberOrNull("darkLiftStops") is not { } lift ? null
        : lift is >= 0 and <= 10 ? Stops.Of(lift)
        : throw entry.Wrong("darkLiftStops", "is from 0 to 10");

    private static void Write(Utf8JsonWriter json, string name, QuestionReading reading)
    {
        json.WriteStartObject(name);
        json.WriteString("outcome", Camel(reading.Outcome));
        json.WriteNumber("answers", reading.Answers);
        json.WriteNumber("blanks", reading.Blanks);
        json.WriteNumber("blanksRefused", reading.BlanksRefused);
        Numbers(json, "limitStopsAboveIso100", reading.LimitStops?.Value);
        if (reading.LimitStops is { } limit)
        {
            json.WriteStartArray("interval95Stops");
            json.WriteNumberValue(limit.Low);
            json.WriteNumberValue(limit.High);
            json.WriteEndArray();
        }
        else
        {
            json.WriteNull("interval95Stops");
        }
        Numbers(json, "spreadStops", reading.SpreadStops);
        if (reading.Repeats is { } repeats)
        {
            json.WriteStartObject("repeats");
            json.WriteNumber("agreeing", repeats.Agreeing);
            json.WriteNumber("pairs", repeats.Pairs);
            json.WriteNumber("expectedShare", repeats.Expected);
            json.WriteEndObject();
        }
        if (reading.Drift is { } drift)
        {
            json.WriteStartObject("drift");
            json.WriteNumber("stops", drift.Stops);
            json.WriteNumber("standardErrors", drift.StandardErrors);
            json.WriteEndObject();
        }
        json.WriteEndObject();
    }

    private static QuestionReading Reading(CameraFileEntry entry, JudgingQuestion question)
    {
        double? value = entry.NumberOrNull("limitStopsAboveIso100");
        QuestionReading reading = new()
        {
            Question = question,
            Outcome = entry.Choice<LimitOutcome>("outcome"),
            Answers = entry.Whole("answers", 0, 10_000),
            Blanks = entry.Whole("blanks", 0, 10_000),
            BlanksRefused = entry.Whole("blanksRefused", 0, 10_000),
            LimitStops = value is { } stops ? entry.Around(stops, "interval95Stops", "limitStopsAboveIso100") : null,
            SpreadStops = entry.PositiveOrNull("spreadStops"),
            Repeats = entry.ObjectOrNull("repeats") is { } r ? new RepeatConsistency(r.Whole("agreeing", 0, 100_000), r.Whole("pairs", 1, 100_000), r.Positive("expectedShare")) : null,
            Drift = entry.ObjectOrNull("drift") is { } d
                ? new LimitDrift(d.NumberOrNull("stops") ?? throw d.Wrong("stops", "is a number"), d.NumberOrNull("standardErrors") ?? throw d.Wrong("standardErrors", "is a number"))
                : null,
        };
        return !reading.HasLimit || (reading.LimitStops is not null && reading.SpreadStops is not null)
            ? reading
            : throw entry.Wrong("limitStopsAboveIso100", "and \"spreadStops\" are numbers where the outcome is reached or wide");
    }

    private static void Numbers(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number)
            json.WriteNumber(name, number);
        else
            json.WriteNull(name);
    }

    private static DateTimeOffset Time(CameraFileEntry entry, string name) => CameraRows.TryTime(entry.Text(name), out DateTimeOffset at)
        ? at
        : throw entry.Wrong(name, "is a time such as \"2026-03-01T18:30:00Z\"");

    private static string Camel<T>(T value) where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());
}
