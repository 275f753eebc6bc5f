using System.Collections.Immutable;
using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Cameras;
using Microsoft.Data.Sqlite;
using static Leafstop.Storage.Statements;

namespace Leafstop.Storage.Judgements;

/// <summary>Judgings to rows and back.</summary>
internal static class JudgementRows
{
    private const string OfOne = "FROM judging WHERE camera_id = $camera AND source = $source AND seed = $seed AND begun_at_utc = $begun";

    /// <summary>Every judging of a camera, oldest first.</summary>
    public static ImmutableArray<KeptJudging> Read(SqliteConnection connection, long cameraId) =>
    [
        .. Rows(connection, """
            SELECT id, begun_at_utc, judged_at_utc, is_imported, source, seed, body, print_width_mm, viewing_distance_mm, tone, treatment, lift_stops, dropped_at_utc
            FROM judging WHERE camera_id = $camera ORDER BY judged_at_utc, id
            """, r => (Id: r.GetInt64(0), Kept: Bare(r)), ("$camera", cameraId)).Select(j => Filled(connection, j.Id, j.Kept)),
    ];

    /// <summary>The judging whose scene has this name, and the name of its camera.</summary>
    public static (string Camera, KeptJudging Judging)? Find(SqliteConnection connection, string name) => Rows(connection, """
        SELECT j.id, j.begun_at_utc, j.judged_at_utc, j.is_imported, j.source, j.seed, j.body, j.print_width_mm, j.viewing_distance_mm, j.tone, j.treatment, j.lift_stops, j.dropped_at_utc, c.name
        FROM judging_scene s JOIN judging j ON j.id = s.judging_id JOIN camera c ON c.id = j.camera_id WHERE s.name = $name
        """, r => (Id: r.GetInt64(0), Kept: Bare(r), Camera: r.GetString(13)), ("$name", name)) is [var found] ? (found.Camera, Filled(connection, found.Id, found.Kept)) : null;

    /// <summary>Writes a judging, in the place of what was kept of it before.</summary>
    public static void Write(SqliteConnection connection, long cameraId, KeptJudging judging)
    {
        LimitTags tags = judging.Result.Tags;
        Change(connection, $"DELETE {OfOne}", One(cameraId, judging));
        Change(connection, """
            INSERT INTO judging (camera_id, begun_at_utc, judged_at_utc, is_imported, source, seed, body, print_width_mm, viewing_distance_mm, tone, treatment, lift_stops, dropped_at_utc)
            VALUES ($camera, $begun, $judged, $imported, $source, $seed, $body, $width, $distance, $tone, $treatment, $lift, $dropped)
            """,
            ("$camera", cameraId), ("$begun", CameraRows.Time(judging.BegunAt)), ("$judged", CameraRows.Time(judging.JudgedAt)), ("$imported", judging.IsImported),
            ("$source", judging.Source.ToString()), ("$seed", judging.Seed), ("$body", tags.Body), ("$width", tags.Print.WidthMm),
            ("$distance", tags.Print.ViewingDistanceMm), ("$tone", tags.Tone.ToString()), ("$treatment", tags.Treatment.ToString()),
            ("$lift", tags.Lift?.Value), ("$dropped", judging.DroppedAt is { } dropped ? CameraRows.Time(dropped) : null));
        long id = DataFile.Number(connection, "SELECT last_insert_rowid()");
        foreach (LadderIso iso in judging.Ladder)
            Change(connection, "INSERT INTO judging_ladder (judging_id, iso, has_pair) VALUES ($id, $iso, $pair)", ("$id", id), ("$iso", iso.Iso.Speed), ("$pair", iso.HasPair));
        foreach (JudgingAnswer answer in judging.Answers)
        {
            Change(connection, "INSERT INTO judging_answer (judging_id, number, question, iso, weight, is_blank, reply) VALUES ($id, $number, $question, $iso, $weight, $blank, $reply)",
                ("$id", id), ("$number", answer.Number), ("$question", answer.Question.ToString()), ("$iso", answer.Shown.Iso.Speed), ("$weight", answer.Shown.Weight),
                ("$blank", answer.IsBlank), ("$reply", answer.Reply.ToString()));
        }
        Write(connection, id, judging.Result.Clean);
        Write(connection, id, judging.Result.Stretch);
        if (judging.Scene is { } scene)
            Write(connection, id, scene);
    }

    /// <summary>The answers that are kept of a judging, in order; none when it is not kept.</summary>
    public static JudgingAnswer[] AnswersOf(SqliteConnection connection, long cameraId, KeptJudging judging) =>
        Rows(connection, $"SELECT id {OfOne}", r => r.GetInt64(0), One(cameraId, judging)) is [var id] ? [.. AnswersOf(connection, id)] : [];

    /// <summary>Sets when a judging was dropped, or that it was not.</summary>
    public static void Drop(SqliteConnection connection, long cameraId, KeptJudging judging, DateTimeOffset? at) =>
        Change(connection, $"UPDATE judging SET dropped_at_utc = $at WHERE id = (SELECT id {OfOne})", [("$at", at is { } time ? CameraRows.Time(time) : null), .. One(cameraId, judging)]);

    private static (string, object?)[] One(long cameraId, KeptJudging judging) =>
        [("$camera", cameraId), ("$source", judging.Source.ToString()), ("$seed", judging.Seed), ("$begun", CameraRows.Time(judging.BegunAt))];

    private static ImmutableArray<JudgingAnswer> AnswersOf(SqliteConnection connection, long id) =>
    [
        .. Rows(connection, "SELECT number, question, iso, weight, is_blank, reply FROM judging_answer WHERE judging_id = $id ORDER BY number", r => new JudgingAnswer(
            r.GetInt32(0), Enum.Parse<JudgingQuestion>(r.GetString(1)), ShownLevel.Mixed(Iso.FromSpeed(r.GetDouble(2)), r.GetDouble(3)), r.GetBoolean(4),
            Enum.Parse<JudgingReply>(r.GetString(5))), ("$id", id)),
    ];

    private static void Write(SqliteConnection connection, long id, KeptScene scene)
    {
        Change(connection, "INSERT INTO judging_scene (judging_id, name, folder, samples_mark, screen_pixels_per_centimetre, crop_side_px) VALUES ($id, $name, $folder, $mark, $screen, $side)",
            ("$id", id), ("$name", scene.Name), ("$folder", scene.Folder), ("$mark", scene.SamplesMark), ("$screen", scene.ScreenPixelsPerCentimetre), ("$side", scene.CropSidePixels));
        foreach (KeptCrop crop in scene.Crops)
            Change(connection, "INSERT INTO judging_crop (judging_id, region, left_px, top_px) VALUES ($id, $region, $left, $top)", ("$id", id), ("$region", crop.Region.ToString()), ("$left", crop.Left), ("$top", crop.Top));
    }

    private static void Write(SqliteConnection connection, long id, QuestionReading reading) => Change(connection, """
        INSERT INTO judged_limit (judging_id, question, outcome, answers, blanks, blanks_refused, limit_stops, limit_low_stops, limit_high_stops, spread_stops,
            repeats_agreeing, repeats_pairs, repeats_expected, drift_stops, drift_standard_errors)
        VALUES ($id, $question, $outcome, $answers, $blanks, $refused, $limit, $low, $high, $spread, $agreeing, $pairs, $expected, $drift, $errors)
        """,
        ("$id", id), ("$question", reading.Question.ToString()), ("$outcome", reading.Outcome.ToString()), ("$answers", reading.Answers), ("$blanks", reading.Blanks),
        ("$refused", reading.BlanksRefused), ("$limit", reading.LimitStops?.Value), ("$low", reading.LimitStops?.Low), ("$high", reading.LimitStops?.High),
        ("$spread", reading.SpreadStops), ("$agreeing", reading.Repeats?.Agreeing), ("$pairs", reading.Repeats?.Pairs), ("$expected", reading.Repeats?.Expected),
        ("$drift", reading.Drift?.Stops), ("$errors", reading.Drift?.StandardErrors));

    private static KeptJudging Bare(SqliteDataReader row)
    {
        LimitTags tags = new(row.GetString(6), new PrintCondition(row.GetDouble(7), row.GetDouble(8)), Enum.Parse<ToneKind>(row.GetString(9)), Enum.Parse<NoiseTreatment>(row.GetString(10)), row.IsDBNull(11) ? null : Stops.Of(row.GetDouble(11)));
        QuestionReading none = new() { Question = default, Answers = 0, Blanks = 0, BlanksRefused = 0, Outcome = LimitOutcome.Unfinished };
        return new KeptJudging
        {
            BegunAt = TimeOf(row.GetString(1)),
            JudgedAt = TimeOf(row.GetString(2)),
            IsImported = row.GetBoolean(3),
            DroppedAt = row.IsDBNull(12) ? null : TimeOf(row.GetString(12)),
            Source = Enum.Parse<JudgingSource>(row.GetString(4)),
            Seed = row.GetInt64(5),
            Ladder = [],
            Answers = [],
            Result = new JudgingResult(tags, none, none with { Question = JudgingQuestion.WouldSign }),
        };
    }

    private static KeptJudging Filled(SqliteConnection connection, long id, KeptJudging bare)
    {
        QuestionReading[] readings =
        [
            .. Rows(connection, """
                SELECT question, outcome, answers, blanks, blanks_refused, limit_stops, limit_low_stops, limit_high_stops, spread_stops,
                    repeats_agreeing, repeats_pairs, repeats_expected, drift_stops, drift_standard_errors FROM judged_limit WHERE judging_id = $id
                """, Reading, ("$id", id)),
        ];
        ImmutableArray<JudgingAnswer> answers = AnswersOf(connection, id);
        return bare with
        {
            Scene = Scene(connection, id),
            Ladder = [.. Rows(connection, "SELECT iso, has_pair FROM judging_ladder WHERE judging_id = $id ORDER BY iso", r => new LadderIso(Iso.FromSpeed(r.GetDouble(0)), r.GetBoolean(1)), ("$id", id))],
            Answers = answers,
            Result = bare.Result with
            {
                Clean = readings.Single(r => r.Question == JudgingQuestion.Disturbs).Counting(answers),
                Stretch = readings.Single(r => r.Question == JudgingQuestion.WouldSign).Counting(answers),
            },
        };
    }

    private static KeptScene? Scene(SqliteConnection connection, long id) =>
        Rows(connection, "SELECT name, folder, samples_mark, screen_pixels_per_centimetre, crop_side_px FROM judging_scene WHERE judging_id = $id",
            r => new KeptScene(r.GetString(0), r.GetString(1), r.GetString(2), r.GetDouble(3), r.GetInt32(4), []), ("$id", id)) is [var bare]
            ? bare with
            {
                Crops = [.. Rows(connection, "SELECT region, left_px, top_px FROM judging_crop WHERE judging_id = $id ORDER BY region", r => new KeptCrop(Enum.Parse<CropRegion>(r.GetString(0)), r.GetInt32(1), r.GetInt32(2)), ("$id", id))],
            }
            : null;

    private static QuestionReading Reading(SqliteDataReader row) => new()
    {
        Question = Enum.Parse<JudgingQuestion>(row.GetString(0)),
        Outcome = Enum.Parse<LimitOutcome>(row.GetString(1)),
        Answers = row.GetInt32(2),
        Blanks = row.GetInt32(3),
        BlanksRefused = row.GetInt32(4),
        LimitStops = row.IsDBNull(5) ? null : new Estimate(row.GetDouble(5), row.GetDouble(6), row.GetDouble(7)),
        SpreadStops = row.IsDBNull(8) ? null : row.GetDouble(8),
        Repeats = row.IsDBNull(9) ? null : new RepeatConsistency(row.GetInt32(9), row.GetInt32(10), row.GetDouble(11)),
        Drift = row.IsDBNull(12) ? null : new LimitDrift(row.GetDouble(12), row.GetDouble(13)),
    };

    private static DateTimeOffset TimeOf(string text) => CameraRows.TryTime(text, out DateTimeOffset time) ? time : throw new InvalidDataException($"'{text}' is no time.");
}
