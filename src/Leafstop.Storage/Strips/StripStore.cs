using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Cameras;
using Microsoft.Data.Sqlite;
using static Leafstop.Storage.Statements;

namespace Leafstop.Storage.Strips;

/// <summary>The test strips that were made, in SQLite, so that typed answers find what stood behind the letters.</summary>
/// <remarks>Every method may throw <see cref="UnusableDataFileException"/>.</remarks>
public sealed class StripStore(DataFile file)
{
    /// <summary>A number that no strip has yet, 1 for the first.</summary>
    public long NextNumber() => file.Exists ? file.Use(connection => DataFile.Number(connection, "SELECT coalesce(max(number), 0) + 1 FROM strip")) : 1;

    /// <summary>Remembers a strip. One that shows the same under the same number is remembered once.</summary>
    /// <exception cref="ArgumentException">Another strip has this number; the message is for the person.</exception>
    public void Keep(KeptStrip strip)
    {
        ArgumentNullException.ThrowIfNull(strip);
        file.Use(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            if (Read(connection, strip.Number) is { } other && !other.ShowsTheSameAs(strip))
                throw new ArgumentException($"Strip {strip.Number} was made of other levels or for another print, and its sheet may still hang somewhere: choose another number.", nameof(strip));
            Change(connection, "DELETE FROM strip WHERE number = $number", ("$number", strip.Number));
            Change(connection, """
                INSERT INTO strip (number, camera, made_at_utc, repeats, body, print_width_mm, viewing_distance_mm, tone, treatment, lift_stops)
                VALUES ($number, $camera, $made, $repeats, $body, $width, $distance, $tone, $treatment, $lift)
                """,
                ("$number", strip.Number), ("$camera", strip.Camera), ("$made", CameraRows.Time(strip.MadeAt)), ("$repeats", strip.Repeats), ("$body", strip.Tags.Body),
                ("$width", strip.Tags.Print.WidthMm), ("$distance", strip.Tags.Print.ViewingDistanceMm), ("$tone", strip.Tags.Tone.ToString()), ("$treatment", strip.Tags.Treatment.ToString()), ("$lift", strip.Tags.Lift?.Value));
            foreach (LadderIso iso in strip.Ladder)
                Change(connection, "INSERT INTO strip_ladder (number, iso, has_pair) VALUES ($number, $iso, $pair)", ("$number", strip.Number), ("$iso", iso.Iso.Speed), ("$pair", iso.HasPair));
            transaction.Commit();
            return true;
        });
    }

    /// <summary>The strip of that number; null when none is remembered.</summary>
    public KeptStrip? Find(long number) => file.Exists
        ? file.Use(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: true);
            return Read(connection, number);
        })
        : null;

    /// <summary>The numbers of all strips, lowest first.</summary>
    public IReadOnlyList<long> Numbers() => file.Exists ? file.Use(connection => Rows(connection, "SELECT number FROM strip ORDER BY number", r => r.GetInt64(0))) : [];

    private static KeptStrip? Read(SqliteConnection connection, long number)
    {
        KeptStrip? bare = Rows(connection, "SELECT camera, made_at_utc, repeats, body, print_width_mm, viewing_distance_mm, tone, treatment, lift_stops FROM strip WHERE number = $number", r => new KeptStrip(
            number, r.GetString(0), CameraRows.TryTime(r.GetString(1), out DateTimeOffset made) ? made : throw new InvalidDataException($"'{r.GetString(1)}' is no time."), [], r.GetInt32(2),
            new LimitTags(r.GetString(3), new PrintCondition(r.GetDouble(4), r.GetDouble(5)), Enum.Parse<ToneKind>(r.GetString(6)), Enum.Parse<NoiseTreatment>(r.GetString(7)), r.IsDBNull(8) ? null : Stops.Of(r.GetDouble(8)))), ("$number", number)).SingleOrDefault();
        return bare is null ? null : bare with
        {
            Ladder = [.. Rows(connection, "SELECT iso, has_pair FROM strip_ladder WHERE number = $number ORDER BY iso", r => new LadderIso(Iso.FromSpeed(r.GetDouble(0)), r.GetBoolean(1)), ("$number", number))],
        };
    }
}
