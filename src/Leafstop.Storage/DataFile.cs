using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Leafstop.Storage;

/// <summary>The one SQLite file in the data folder. Opened in WAL mode; several processes may use it at once.</summary>
public sealed class DataFile
{
    // "Lfst", so that a database of another program is not taken for ours.
    private const int ApplicationId = 0x4C667374;
    private const int NotADatabase = 26;
    private const int Corrupt = 11;

    /// <summary>Names the file; nothing is opened or made yet.</summary>
    /// <param name="folder">The data folder.</param>
    public DataFile(string folder) => (Folder, Path) = (folder, System.IO.Path.Combine(folder, "leafstop.db"));

    /// <summary>The data folder.</summary>
    public string Folder { get; }

    /// <summary>The file.</summary>
    public string Path { get; }

    /// <summary>True when something was kept before.</summary>
    public bool Exists => File.Exists(Path);

    /// <summary>Opens a file that is there, so that what is wrong with it is known before the work that is to be kept.</summary>
    /// <exception cref="UnusableDataFileException">The file is damaged, foreign or newer than this program.</exception>
    public void Check()
    {
        if (Exists) Use(_ => true);
    }

    /// <summary>Opens the file, making it (and the folder, readable by its owner only) when it is not there, and brings its tables up to date.</summary>
    /// <exception cref="UnusableDataFileException">The file is damaged, foreign, newer than this program or cannot be made.</exception>
    internal SqliteConnection Open() => Open(SchemaUpgrade.Newest);

    internal SqliteConnection Open(int version)
    {
        MakePrivately();
        return Translated(() => OpenMade(version));
    }

    /// <summary>Opens the file, does something with it and closes it.</summary>
    /// <exception cref="UnusableDataFileException">As for <see cref="Open()"/>, and when damage shows up on the way.</exception>
    internal T Use<T>(Func<SqliteConnection, T> doing)
    {
        using SqliteConnection connection = Open();
        return Translated(() => doing(connection));
    }

    private SqliteConnection OpenMade(int version)
    {
        SqliteConnection? connection = null;
        try
        {
            // The timeout is how long a process waits for another one that is writing.
            connection = new SqliteConnection(new SqliteConnectionStringBuilder
            {
                DataSource = Path,
                Mode = SqliteOpenMode.ReadWrite,
                DefaultTimeout = 30,
                Pooling = false,
            }.ToString());
            connection.Open();
            Execute(connection, "PRAGMA busy_timeout = 30000; PRAGMA foreign_keys = ON; PRAGMA synchronous = NORMAL;");
            Recognise(connection, version);
            return connection;
        }
        catch
        {
            connection?.Dispose();
            throw;
        }
    }

    private T Translated<T>(Func<T> doing)
    {
        try
        {
            return doing();
        }
        catch (SqliteException error) when (error.SqliteErrorCode is NotADatabase or Corrupt)
        {
            throw new UnusableDataFileException(
                Path, "this file is damaged or is no Leafstop data file. Nothing was changed or deleted. Move it aside to begin anew, or put a copy of it back.", error);
        }
        catch (SqliteException error)
        {
            throw new UnusableDataFileException(
                Path, $"the data file cannot be used ({error.Message.TrimEnd('.')}). Nothing was changed. Look at its permissions and at the room on the disk.", error);
        }
    }

    private void Recognise(SqliteConnection connection, int version)
    {
        // In one transaction, so that all three are of one moment while another process makes the tables.
        long found, application, tables;
        using (SqliteTransaction look = connection.BeginTransaction(deferred: true))
        {
            tables = Number(connection, "SELECT count(*) FROM sqlite_master");
            found = Number(connection, "PRAGMA user_version");
            application = Number(connection, "PRAGMA application_id");
        }
        if (application != ApplicationId && (tables > 0 || application != 0))
            throw new UnusableDataFileException(Path, "this is a database of another program. Nothing was changed. Choose another folder with --data.");
        if (found > SchemaUpgrade.Newest)
            throw new UnusableDataFileException(Path, "this was written by a newer Leafstop. Nothing was changed. Use that one, or choose another folder with --data.");
        if (found >= version)
            return;
        Execute(connection, "PRAGMA journal_mode = WAL;");
        SchemaUpgrade.Run(connection, ApplicationId, version);
    }

    /// <summary>Makes the data folder, for its owner only, when it is not there.</summary>
    /// <exception cref="UnusableDataFileException">It cannot be made.</exception>
    public void MakeFolder()
    {
        try
        {
            if (OperatingSystem.IsWindows())
                Directory.CreateDirectory(Folder);
            else if (!Directory.Exists(Folder))
                Directory.CreateDirectory(Folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new UnusableDataFileException(Path, $"the data folder cannot be written ({error.Message.TrimEnd('.')}). Choose another with --data.", error);
        }
    }

    private void MakePrivately()
    {
        MakeFolder();
        try
        {
            if (OperatingSystem.IsWindows())
            {
                using FileStream made = new(Path, FileMode.OpenOrCreate, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
                return;
            }
            if (File.Exists(Path))
                return;
            // SQLite gives its companion files the permissions of the main one.
            using FileStream file = new(Path, new FileStreamOptions
            {
                Mode = FileMode.OpenOrCreate,
                Access = FileAccess.Write,
                Share = FileShare.ReadWrite | FileShare.Delete,
                UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite,
            });
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new UnusableDataFileException(Path, $"the data folder cannot be written ({error.Message.TrimEnd('.')}). Choose another with --data.", error);
        }
    }

    internal static void Execute(SqliteConnection connection, string sql)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Only texts of this assembly come here: pragmas and the embedded schema.
        command.CommandText = sql;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }

    internal static long Number(SqliteConnection connection, string sql)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Only texts of this assembly come here.
        command.CommandText = sql;
#pragma warning restore CA2100
        return Convert.ToInt64(command.ExecuteScalar(), CultureInfo.InvariantCulture);
    }
}
