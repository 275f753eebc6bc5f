using System.Globalization;
using System.Reflection;
using Microsoft.Data.Sqlite;

namespace Leafstop.Storage;

/// <summary>Brings the tables up to date by the numbered SQL files of Schema/, forward only.</summary>
internal static class SchemaUpgrade
{
    private static readonly (int Number, string Resource)[] Steps =
    [
        .. typeof(SchemaUpgrade).Assembly.GetManifestResourceNames()
            .Where(n => n.EndsWith(".sql", StringComparison.Ordinal))
            .Select(n => (int.Parse(n.Split('.')[^2][..4], CultureInfo.InvariantCulture), n))
            .OrderBy(s => s.Item1),
    ];

    /// <summary>The number of the last SQL file.</summary>
    public static int Newest => Steps[^1].Number;

    /// <summary>Runs the files above the file's own number up to <paramref name="version"/>, all or none.</summary>
    public static void Run(SqliteConnection connection, int applicationId, int version)
    {
        // Taking the write lock first makes a second process wait here; it then finds the work done.
        using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
        long found = DataFile.Number(connection, "PRAGMA user_version");
        foreach ((int number, string resource) in Steps.Where(s => s.Number > found && s.Number <= version))
        {
            using Stream stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(resource)!;
            using StreamReader reader = new(stream);
            DataFile.Execute(connection, reader.ReadToEnd());
            DataFile.Execute(connection, string.Create(CultureInfo.InvariantCulture, $"PRAGMA user_version = {number}; PRAGMA application_id = {applicationId};"));
        }
        transaction.Commit();
    }
}
