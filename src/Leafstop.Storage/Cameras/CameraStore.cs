using System.Collections.Immutable;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Text;
using Leafstop.Storage.Judgements;
using Microsoft.Data.Sqlite;
using static Leafstop.Storage.Statements;

namespace Leafstop.Storage.Cameras;

/// <summary>What happened to a camera that was to be kept.</summary>
/// <param name="Name">The name under which it is kept, as first written.</param>
/// <param name="Added">Measurements that were added.</param>
/// <param name="AlreadyThere">Measurements that were kept before and say the same.</param>
/// <param name="History">Measurements kept now.</param>
public sealed record KeepOutcome(string Name, int Added, int AlreadyThere, int History)
{
    /// <summary>Pocket cards that were added.</summary>
    public int CardsAdded { get; init; }
}

/// <summary>The measured cameras, in SQLite. Names ignore case and outer spaces. Nothing is ever overwritten: measuring again adds to the history, and only <see cref="Forget"/> removes.</summary>
/// <remarks>Every method may throw <see cref="UnusableDataFileException"/>.</remarks>
public sealed class CameraStore(DataFile file)
{
    /// <summary>Names are at most this long.</summary>
    public const int LongestName = 80;

    /// <summary>The name as it is kept: trimmed, runs of spaces made one.</summary>
    /// <exception cref="ArgumentException">Empty, too long or with control characters; the message is for the person.</exception>
    public static string TidyName(string name)
    {
        string tidy = string.Join(' ', name.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        if (tidy.Length is 0 or > LongestName || tidy.Any(OutsideText.IsHidden))
            throw new ArgumentException($"A camera's name has 1 to {LongestName} characters, all of them visible.", nameof(name));
        return tidy;
    }

    /// <summary>Adds measurements to the camera of that name, making it when it is new. All or none.</summary>
    /// <exception cref="ArgumentException">The name cannot be used, or is that of another body; the message is for the person.</exception>
    public KeepOutcome Keep(string name, IReadOnlyList<KeptMeasurement> measurements)
    {
        string tidy = TidyName(name);
        return file.Use(connection => Keep(connection, tidy, new KeptCamera(tidy, [.. measurements])));
    }

    /// <summary>Adds the measurements, judgings and cards of a camera that was read from a file. What is kept already stays as it is. All or none.</summary>
    /// <param name="name">The name to keep it under, which may be another than its own.</param>
    /// <param name="camera">What was read.</param>
    /// <exception cref="ArgumentException">As for <see cref="Keep(string, IReadOnlyList{KeptMeasurement})"/>.</exception>
    public KeepOutcome Keep(string name, KeptCamera camera)
    {
        string tidy = TidyName(name);
        return file.Use(connection => Keep(connection, tidy, camera));
    }

    /// <summary>The camera of that name with its history; null when none is kept.</summary>
    public KeptCamera? Find(string name) => file.Exists
        ? file.Use(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: true);
            return FindId(connection, TidyName(name)) is { } id ? Read(connection, id) : null;
        })
        : null;

    /// <summary>Every camera with its history, by name; empty when none is kept.</summary>
    public ImmutableArray<KeptCamera> List() => file.Exists
        ? file.Use<ImmutableArray<KeptCamera>>(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: true);
            long[] ids = [.. Rows(connection, "SELECT id FROM camera ORDER BY name_key", r => r.GetInt64(0))];
            return [.. ids.Select(id => Read(connection, id))];
        })
        : [];

    /// <summary>Removes the camera of that name with its whole history, in one step. An exported file is the only way back.</summary>
    /// <returns>What was removed; null when none of that name is kept.</returns>
    public KeptCamera? Forget(string name) => file.Exists
        ? file.Use(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            if (FindId(connection, TidyName(name)) is not { } id)
                return null;
            KeptCamera camera = Read(connection, id);
            foreach (string table in (string[])["gain_step", "level"])
                Change(connection, $"DELETE FROM {table} WHERE measurement_id IN (SELECT id FROM measurement WHERE camera_id = $id)", ("$id", id));
            Change(connection, "DELETE FROM measurement WHERE camera_id = $id", ("$id", id));
            Change(connection, "DELETE FROM camera WHERE id = $id", ("$id", id));
            transaction.Commit();
            return camera;
        })
        : null;

    private static KeepOutcome Keep(SqliteConnection connection, string tidy, KeptCamera camera)
    {
        using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
        long? id = FindId(connection, tidy);
        KeptCamera? before = id is { } known ? Read(connection, known) : null;
        CameraIdentity[] bodies = [.. camera.Measurements.Select(m => m.Camera), .. camera.Cards.Select(c => c.Card.Camera)];
        if (before is not null)
        {
            foreach (CameraIdentity body in bodies)
            {
                if (Difference(before.Body, body) is { } other)
                {
                    throw new ArgumentException(
                        $"'{before.Name}' is already kept and {other}: it is {Body(before.Body)}; this one is {Body(body)}. Nothing was kept. Keep this one under another name.");
                }
            }
        }
        else if (bodies.Select(b => Difference(bodies[0], b)).OfType<string>().Any())
        {
            throw new ArgumentException($"The measurements for '{tidy}' are of different cameras. Nothing was kept. Keep each under a name of its own.");
        }
        if (id is null)
        {
            Change(connection, "INSERT INTO camera (name, name_key) VALUES ($name, $key)", ("$name", tidy), ("$key", Key(tidy)));
            id = DataFile.Number(connection, "SELECT last_insert_rowid()");
        }
        int added = 0, addedCards = 0;
        foreach (KeptMeasurement measurement in camera.Measurements.OrderBy(m => m.MeasuredAt))
        {
            if (before?.Measurements.Any(measurement.SaysTheSameAs) ?? false)
                continue;
            Add(connection, id.Value, measurement);
            added++;
        }
        foreach (KeptJudging judging in camera.Judgings)
        {
            if (before?.Judgings.Any(judging.IsSameAs) is not true)
                JudgementRows.Write(connection, id.Value, judging);
        }
        foreach (KeptCard card in camera.Cards)
        {
            if (before?.Cards.Any(c => c.Card == card.Card) is true)
                continue;
            Change(connection, "INSERT INTO card (camera_id, kept_at_utc, text) VALUES ($camera, $at, $text)",
                ("$camera", id.Value), ("$at", CameraRows.Time(card.KeptAt)), ("$text", card.Card.ToString()));
            addedCards++;
        }
        transaction.Commit();
        return new KeepOutcome(before?.Name ?? tidy, added, camera.Measurements.Length - added, (before?.Measurements.Length ?? 0) + added) { CardsAdded = addedCards };
    }

    private static string Key(string tidyName) => tidyName.ToUpperInvariant();

    private static string Body(CameraIdentity camera) =>
        $"{camera.Make} {camera.Model}".Trim() + $", {camera.Width} × {camera.Height}, {camera.Mosaic.Replace('x', '×')} mosaic";

    /// <summary>In what a measurement is not one of the kept camera, as "is another body"; null when it may be. Bit depth is a setting of one body, mosaic and size are not.</summary>
    public static string? Difference(CameraIdentity kept, CameraIdentity now) =>
        kept.FullModel != now.FullModel ? "is another body"
        : kept.BodyFingerprint is { } a && now.BodyFingerprint is { } b && a != b ? "is another body of that model"
        : kept.Mosaic != now.Mosaic ? "has another mosaic"
        : (kept.Width, kept.Height) != (now.Width, now.Height) ? "has frames of another size"
        : null;

    internal static long? FindId(SqliteConnection connection, string tidyName) =>
        Rows(connection, "SELECT id FROM camera WHERE name_key = $key", r => (long?)r.GetInt64(0), ("$key", Key(tidyName))).SingleOrDefault();

    private static KeptCamera Read(SqliteConnection connection, long id)
    {
        string name = Rows(connection, "SELECT name FROM camera WHERE id = $id", r => r.GetString(0), ("$id", id)).Single();
        (long Id, KeptMeasurement Bare)[] bare =
        [
            .. Rows(connection, """
                SELECT id, measured_at_utc, is_imported, make, model, body_fingerprint, width_px, height_px, mosaic, bits, ladder, folder
                FROM measurement WHERE camera_id = $id ORDER BY measured_at_utc, id
                """, r => (r.GetInt64(0), CameraRows.Measurement(r)), ("$id", id)),
        ];
        return new KeptCamera(name,
        [
            .. bare.Select(m => m.Bare with
            {
                Levels =
                [
                    .. Rows(connection, """
                        SELECT iso, ladder, gain_electrons_per_dn, gain_low_electrons_per_dn, gain_high_electrons_per_dn, read_noise_electrons,
                            read_noise_low_electrons, read_noise_high_electrons, read_noise_source, saturation_electrons, is_clip_seen, is_usable, flags, reason
                        FROM level WHERE measurement_id = $id ORDER BY position
                        """, CameraRows.Level, ("$id", m.Id)),
                ],
                GainSteps =
                [
                    .. Rows(connection, "SELECT below_iso, above_iso, read_noise_ratio FROM gain_step WHERE measurement_id = $id ORDER BY position",
                        r => new KeptGainStep(Iso.FromSpeed(r.GetDouble(0)), Iso.FromSpeed(r.GetDouble(1)), r.GetDouble(2)), ("$id", m.Id)),
                ],
            }),
        ])
        {
            Judgings = JudgementRows.Read(connection, id),
            Cards = [.. Rows(connection, "SELECT kept_at_utc, text FROM card WHERE camera_id = $id ORDER BY kept_at_utc, id", CameraRows.Card, ("$id", id))],
        };
    }

    private static void Add(SqliteConnection connection, long cameraId, KeptMeasurement m)
    {
        Change(connection, """
            INSERT INTO measurement (camera_id, measured_at_utc, is_imported, make, model, body_fingerprint, width_px, height_px, mosaic, bits, ladder, folder)
            VALUES ($camera, $at, $imported, $make, $model, $fingerprint, $width, $height, $mosaic, $bits, $ladder, $folder)
            """,
            ("$camera", cameraId), ("$at", CameraRows.Time(m.MeasuredAt)), ("$imported", m.IsImported), ("$make", m.Camera.Make), ("$model", m.Camera.Model),
            ("$fingerprint", m.Camera.BodyFingerprint), ("$width", m.Camera.Width), ("$height", m.Camera.Height), ("$mosaic", m.Camera.Mosaic),
            ("$bits", m.Camera.Bits), ("$ladder", m.Ladder.ToString()), ("$folder", m.Folder));
        long id = DataFile.Number(connection, "SELECT last_insert_rowid()");
        foreach ((KeptLevel level, int position) in m.Levels.Select((l, i) => (l, i)))
        {
            Change(connection, """
                INSERT INTO level (measurement_id, position, iso, ladder, gain_electrons_per_dn, gain_low_electrons_per_dn, gain_high_electrons_per_dn,
                    read_noise_electrons, read_noise_low_electrons, read_noise_high_electrons, read_noise_source, saturation_electrons, is_clip_seen, is_usable, flags, reason)
                VALUES ($m, $position, $iso, $ladder, $gain, $gainLow, $gainHigh, $noise, $noiseLow, $noiseHigh, $source, $saturation, $clip, $usable, $flags, $reason)
                """,
                ("$m", id), ("$position", position), ("$iso", level.Iso.Speed), ("$ladder", level.Ladder.ToString()),
                ("$gain", level.GainElectronsPerDn?.Value), ("$gainLow", level.GainElectronsPerDn?.Low), ("$gainHigh", level.GainElectronsPerDn?.High),
                ("$noise", level.ReadNoiseElectrons?.Value), ("$noiseLow", level.ReadNoiseElectrons?.Low), ("$noiseHigh", level.ReadNoiseElectrons?.High),
                ("$source", level.ReadNoiseSource?.ToString()), ("$saturation", level.SaturationElectrons), ("$clip", level.ClipSeen),
                ("$usable", level.Usable), ("$flags", string.Join(' ', level.Flags)), ("$reason", level.Reason));
        }
        foreach ((KeptGainStep step, int position) in m.GainSteps.Select((s, i) => (s, i)))
        {
            Change(connection, "INSERT INTO gain_step (measurement_id, position, below_iso, above_iso, read_noise_ratio) VALUES ($m, $position, $below, $above, $ratio)",
                ("$m", id), ("$position", position), ("$below", step.Below.Speed), ("$above", step.Above.Speed), ("$ratio", step.ReadNoiseRatio));
        }
    }
}
