using System.Collections.Immutable;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Microsoft.Data.Sqlite;
using static Leafstop.Storage.Statements;

namespace Leafstop.Storage.Kit;

/// <summary>The person's lenses, by focal length, and tastes in water, by streak, in SQLite.</summary>
/// <remarks>Every method may throw <see cref="UnusableDataFileException"/>.</remarks>
public sealed class KitStore(DataFile file)
{
    /// <summary>Focal lengths, shortest first; empty when none is kept.</summary>
    public ImmutableArray<Length> Lenses() => file.Exists
        ? file.Use<ImmutableArray<Length>>(connection => [.. Rows(connection, "SELECT focal_length_mm FROM lens ORDER BY focal_length_mm", r => Length.FromMillimetres(r.GetDouble(0)))])
        : [];

    /// <summary>Streaks that are liked, shortest first; empty when none is kept.</summary>
    public ImmutableArray<Streak> Tastes() => file.Exists
        ? file.Use<ImmutableArray<Streak>>(connection => [.. Rows(connection, "SELECT streak_percent FROM taste ORDER BY streak_percent", r => Streak.FromPercent(r.GetDouble(0)))])
        : [];

    /// <summary>Keeps these lenses in place of those that were kept.</summary>
    public void KeepLenses(IEnumerable<Length> lenses) => Replace("DELETE FROM lens", "INSERT OR IGNORE INTO lens VALUES ($value)", lenses.Select(l => l.Millimetres));

    /// <summary>Keeps these tastes in place of those that were kept.</summary>
    public void KeepTastes(IEnumerable<Streak> tastes) => Replace("DELETE FROM taste", "INSERT OR IGNORE INTO taste VALUES ($value)", tastes.Select(t => t.Percent));

    private void Replace(string delete, string insert, IEnumerable<double> values) => file.Use(connection =>
    {
        using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
        Change(connection, delete);
        foreach (double value in values)
            Change(connection, insert, ("$value", value));
        transaction.Commit();
        return true;
    });
}
