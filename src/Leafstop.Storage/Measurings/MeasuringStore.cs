using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using Leafstop.Storage.Cameras;
using Microsoft.Data.Sqlite;
using static Leafstop.Storage.Statements;

namespace Leafstop.Storage.Measurings;

/// <summary>Measurings of folders, in SQLite: what was asked for, how it stands, and the answer.</summary>
/// <remarks>Every method may throw <see cref="UnusableDataFileException"/>.</remarks>
public sealed class MeasuringStore(DataFile file)
{
    /// <summary>Of those that ended, the newest so many are kept; a camera that was saved from one keeps its numbers for good.</summary>
    public const int MostEnded = 20;

    private const string Columns = "id, folder, print_width_mm, viewing_distance_mm, begun_at_utc, state, ended_at_utc, why, camera, verdict";

    /// <summary>All of them, newest first, without their answers.</summary>
    public ImmutableArray<KeptMeasuring> List() => file.Exists
        ? file.Use<ImmutableArray<KeptMeasuring>>(connection => [.. Rows(connection, $"SELECT {Columns} FROM measuring ORDER BY begun_at_utc DESC, rowid DESC", Read)])
        : [];

    /// <summary>The one with this id; null when none is kept.</summary>
    public KeptMeasuring? Find(string id) => file.Exists
        ? file.Use(connection => Rows(connection, $"SELECT {Columns} FROM measuring WHERE id = $id", Read, ("$id", id)).SingleOrDefault())
        : null;

    /// <summary>Its answer as JSON; null when there is none.</summary>
    public string? Answer(string id) => file.Exists
        ? file.Use(connection => Rows(connection, "SELECT answer FROM measuring WHERE id = $id", r => r.IsDBNull(0) ? null : r.GetString(0), ("$id", id)).SingleOrDefault())
        : null;

    /// <summary>Keeps a new one, open.</summary>
    public void Add(KeptMeasuring measuring) => file.Use(connection => Change(
        connection,
        "INSERT INTO measuring (id, folder, print_width_mm, viewing_distance_mm, begun_at_utc, state) VALUES ($id, $folder, $width, $distance, $at, $state)",
        ("$id", measuring.Id), ("$folder", measuring.Folder), ("$width", measuring.Print.WidthMm), ("$distance", measuring.Print.ViewingDistanceMm),
        ("$at", CameraRows.Time(measuring.BegunAt)), ("$state", nameof(MeasuringState.Open))));

    /// <summary>Opens a stopped or failed one again.</summary>
    /// <returns>False when there is none such.</returns>
    public bool Reopen(string id) => file.Use(connection => Change(
        connection,
        "UPDATE measuring SET state = 'Open', ended_at_utc = NULL, why = NULL WHERE id = $id AND state IN ('Stopped', 'Failed')", ("$id", id))) == 1;

    /// <summary>Keeps how an open one ended, with its answer where there is one, and lets go of the oldest ended ones. One that was removed meanwhile stays removed.</summary>
    /// <param name="ended">How it stands now.</param>
    /// <param name="answer">The answer as JSON; null for none.</param>
    public void End(KeptMeasuring ended, string? answer) => file.Use(connection =>
    {
        using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
        int changed = Change(
            connection,
            "UPDATE measuring SET state = $state, ended_at_utc = $at, why = $why, camera = $camera, verdict = $verdict, answer = $answer WHERE id = $id AND state = 'Open'",
            ("$state", ended.State.ToString()), ("$at", ended.EndedAt is { } at ? CameraRows.Time(at) : null), ("$why", ended.Why), ("$camera", ended.Camera),
            ("$verdict", ended.Verdict), ("$answer", answer), ("$id", ended.Id));
        Change(
            connection,
            "DELETE FROM measuring WHERE state <> 'Open' AND id NOT IN (SELECT id FROM measuring WHERE state <> 'Open' ORDER BY ended_at_utc DESC, rowid DESC LIMIT $most)",
            ("$most", MostEnded));
        transaction.Commit();
        return changed;
    });

    /// <summary>Removes one.</summary>
    /// <returns>False when there is none such.</returns>
    public bool Remove(string id) => file.Exists && file.Use(connection => Change(connection, "DELETE FROM measuring WHERE id = $id", ("$id", id))) == 1;

    /// <summary>Claims the work of one for this process. The system takes the claim back when the process ends, however it ends.</summary>
    /// <param name="id">An id of <see cref="List"/>.</param>
    /// <returns>The claim, to be disposed of when the work is over; null when another process, or this one, holds it.</returns>
    public IDisposable? Claim(string id)
    {
        file.MakeFolder();
        try
        {
            return new FileStream(Path.Combine(file.Folder, $"measuring-{id}.claim"), new FileStreamOptions
            {
                Mode = FileMode.OpenOrCreate,
                Access = FileAccess.ReadWrite,
                Share = FileShare.None,
                Options = FileOptions.DeleteOnClose,
            });
        }
        catch (IOException)
        {
            return null;
        }
    }

    private static KeptMeasuring Read(SqliteDataReader row) => new(row.GetString(0), row.GetString(1), new PrintCondition(row.GetDouble(2), row.GetDouble(3)), Time(row.GetString(4)))
    {
        State = Enum.Parse<MeasuringState>(row.GetString(5)),
        EndedAt = row.IsDBNull(6) ? null : Time(row.GetString(6)),
        Why = row.IsDBNull(7) ? null : row.GetString(7),
        Camera = row.IsDBNull(8) ? null : row.GetString(8),
        Verdict = row.IsDBNull(9) ? null : row.GetString(9),
    };

    private static DateTimeOffset Time(string text) =>
        CameraRows.TryTime(text, out DateTimeOffset time) ? time : throw new InvalidDataException($"'{text}' is no time.");
}
