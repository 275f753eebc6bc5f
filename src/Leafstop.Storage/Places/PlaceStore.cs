using System.Collections.Immutable;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using Leafstop.Core.Text;
using Microsoft.Data.Sqlite;
using NodaTime.Text;
using static Leafstop.Storage.Statements;

namespace Leafstop.Storage.Places;

/// <summary>The places and their light notes, in SQLite. Names ignore case and outer spaces.</summary>
/// <remarks>Every method may throw <see cref="UnusableDataFileException"/>.</remarks>
public sealed class PlaceStore(DataFile file)
{
    /// <summary>Names and remarks are at most this long.</summary>
    public const int LongestText = 80;

    /// <summary>The name as it is kept: trimmed, runs of spaces made one.</summary>
    /// <exception cref="ArgumentException">Empty, too long or with control characters; the message is for the person.</exception>
    public static string TidyName(string name)
    {
        string tidy = string.Join(' ', name.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        if (tidy.Length is 0 or > LongestText || tidy.Any(OutsideText.IsHidden))
            throw new ArgumentException($"Give the place a name: 1 to {LongestText} characters, all of them visible.", nameof(name));
        return tidy;
    }

    /// <summary>Keeps a new place; its notes are added as well.</summary>
    /// <exception cref="ArgumentException">The name cannot be used or is kept already; the message is for the person.</exception>
    public void Add(KeptPlace place)
    {
        string tidy = TidyName(place.Name);
        file.Use(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            if (FindId(connection, tidy) is not null)
                throw new ArgumentException($"A place '{tidy}' is kept already: remove it first, or choose another name.");
            Statements.Change(connection, """
                INSERT INTO place (name, name_key, latitude_degrees, longitude_degrees, elevation_metres, zone, ridge_degrees, canopy, land_shape, wall_degrees)
                VALUES ($name, $key, $latitude, $longitude, $elevation, $zone, $ridge, $canopy, $shape, $wall)
                """, Values(place, tidy));
            long id = DataFile.Number(connection, "SELECT last_insert_rowid()");
            foreach (NumberedNote note in place.Notes)
                Insert(connection, id, note.Number, note.Note);
            transaction.Commit();
            return true;
        });
    }

    /// <summary>Changes a kept place; its notes stay as they are.</summary>
    /// <param name="name">The name it is kept under.</param>
    /// <param name="change">Makes the new one of the one that is kept; nothing else changes it meanwhile.</param>
    /// <returns>As it is kept now; null when no place of that name is kept.</returns>
    /// <exception cref="ArgumentException">The new name cannot be used or is another place's; the message is for the person.</exception>
    public KeptPlace? Change(string name, Func<KeptPlace, KeptPlace> change) => file.Exists
        ? file.Use(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            if (FindId(connection, TidyName(name)) is not { } id)
                return null;
            KeptPlace now = change(Read(connection, id));
            string tidy = TidyName(now.Name);
            if (FindId(connection, tidy) is { } other && other != id)
                throw new ArgumentException($"A place '{tidy}' is kept already: remove it first, or choose another name.");
            Statements.Change(connection, """
                UPDATE place SET name = $name, name_key = $key, latitude_degrees = $latitude, longitude_degrees = $longitude, elevation_metres = $elevation, zone = $zone,
                    ridge_degrees = $ridge, canopy = $canopy, land_shape = $shape, wall_degrees = $wall WHERE id = $id
                """, [.. Values(now, tidy), ("$id", id)]);
            KeptPlace kept = Read(connection, id);
            transaction.Commit();
            return kept;
        })
        : null;

    /// <summary>The place of that name with its notes; null when none is kept.</summary>
    public KeptPlace? Find(string name) => file.Exists
        ? file.Use(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: true);
            return FindId(connection, TidyName(name)) is { } id ? Read(connection, id) : null;
        })
        : null;

    /// <summary>Every place with its notes, by name; empty when none is kept.</summary>
    public ImmutableArray<KeptPlace> List() => file.Exists
        ? file.Use<ImmutableArray<KeptPlace>>(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: true);
            return [.. Rows(connection, "SELECT id FROM place ORDER BY name_key", r => r.GetInt64(0)).Select(id => Read(connection, id))];
        })
        : [];

    /// <summary>Takes a place and its notes out; false when none of that name is kept.</summary>
    public bool Remove(string name) => file.Exists && file.Use(connection =>
        Statements.Change(connection, "DELETE FROM place WHERE name_key = $key", ("$key", Key(TidyName(name)))) > 0);

    /// <summary>Adds a note to a place.</summary>
    /// <param name="name">Name of the place.</param>
    /// <param name="note">The note.</param>
    /// <param name="number">The number it had before it was taken out; null for the next one.</param>
    /// <returns>Its number; null when no place of that name is kept.</returns>
    /// <exception cref="ArgumentException">Another note has that number; the message is for the person.</exception>
    public int? AddNote(string name, LightNote note, int? number = null) => file.Exists
        ? file.Use<int?>(connection =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            if (FindId(connection, TidyName(name)) is not { } id)
                return null;
            long[] taken = [.. Rows(connection, "SELECT number FROM light_note WHERE place_id = $id", r => r.GetInt64(0), ("$id", id))];
            int free = number ?? 1 + (int)taken.DefaultIfEmpty(0).Max();
            if (taken.Contains(free))
                throw new ArgumentException($"Number {free} belongs to another note by now: keep this one anew.");
            Insert(connection, id, free, note);
            transaction.Commit();
            return free;
        })
        : null;

    /// <summary>Takes a note out; false when the place or the number is not kept.</summary>
    public bool RemoveNote(string name, int number) => file.Exists && file.Use(connection =>
        Statements.Change(connection, "DELETE FROM light_note WHERE number = $number AND place_id = (SELECT id FROM place WHERE name_key = $key)",
            ("$number", number), ("$key", Key(TidyName(name)))) > 0);

    private static string Key(string tidyName) => tidyName.ToUpperInvariant();

    private static long? FindId(SqliteConnection connection, string tidyName) =>
        Rows(connection, "SELECT id FROM place WHERE name_key = $key", r => (long?)r.GetInt64(0), ("$key", Key(tidyName))).SingleOrDefault();

    private static (string, object?)[] Values(KeptPlace place, string tidy) =>
    [
        ("$name", tidy), ("$key", Key(tidy)), ("$latitude", place.Place.Latitude.Degrees), ("$longitude", place.Place.Longitude.Degrees),
        ("$elevation", place.Place.ElevationMetres), ("$zone", place.Zone), ("$ridge", place.Ridge?.Degrees), ("$canopy", place.Canopy),
        ("$shape", place.View.Shape.ToString()), ("$wall", place.View.Wall.Degrees),
    ];

    private static KeptPlace Read(SqliteConnection connection, long id) => Rows(connection, """
        SELECT name, latitude_degrees, longitude_degrees, elevation_metres, zone, ridge_degrees, canopy, land_shape, wall_degrees FROM place WHERE id = $id
        """, r => new KeptPlace
    {
        Name = r.GetString(0),
        Place = Place.FromDegrees(r.GetDouble(1), r.GetDouble(2), r.GetDouble(3)),
        Zone = r.GetString(4),
        Ridge = r.IsDBNull(5) ? null : Angle.FromDegrees(r.GetDouble(5)),
        Canopy = r.IsDBNull(6) ? null : r.GetString(6),
        View = ViewOf(r.GetString(7), Angle.FromDegrees(r.GetDouble(8))),
    }, ("$id", id)).Single() with
    {
        Notes =
        [
            .. Rows(connection, """
                SELECT number, noted_at_utc, metered_ev100, cloud_okta, filter, filter_stops, remark FROM light_note WHERE place_id = $id ORDER BY noted_at_utc, number
                """, r => new NumberedNote(r.GetInt32(0), new LightNote(
                    InstantPattern.General.Parse(r.GetString(1)).Value,
                    ExposureValue.Of(r.GetDouble(2)),
                    r.IsDBNull(3) ? null : CloudCover.FromOkta(r.GetDouble(3)),
                    Stops.Of(r.GetDouble(5)), r.GetString(4), r.GetString(6))), ("$id", id)),
        ],
    };

    private static SkyView ViewOf(string shape, Angle wall) => Enum.Parse<LandShape>(shape) switch
    {
        LandShape.Valley => SkyView.Valley(wall),
        LandShape.Basin => SkyView.Basin(wall),
        _ => SkyView.Open,
    };

    private static void Insert(SqliteConnection connection, long place, int number, LightNote note) => Statements.Change(connection, """
        INSERT INTO light_note (place_id, number, noted_at_utc, metered_ev100, cloud_okta, filter, filter_stops, remark)
        VALUES ($place, $number, $at, $ev, $okta, $filter, $stops, $remark)
        """,
        ("$place", place), ("$number", number), ("$at", InstantPattern.General.Format(note.When)), ("$ev", note.Metered.Value), ("$okta", note.Cloud?.Okta),
        ("$filter", note.FilterName), ("$stops", note.FilterStops.Value), ("$remark", note.Remark));
}
