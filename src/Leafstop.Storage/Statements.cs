using Microsoft.Data.Sqlite;

namespace Leafstop.Storage;

/// <summary>Runs fixed SQL texts whose values travel as parameters.</summary>
internal static class Statements
{
    /// <summary>Runs a text that changes rows; how many it changed.</summary>
    public static int Change(SqliteConnection connection, string sql, params (string Name, object? Value)[] values)
    {
        using SqliteCommand command = Command(connection, sql, values);
        return command.ExecuteNonQuery();
    }

    /// <summary>Runs a text that reads rows.</summary>
    public static List<T> Rows<T>(SqliteConnection connection, string sql, Func<SqliteDataReader, T> map, params (string Name, object? Value)[] values)
    {
        using SqliteCommand command = Command(connection, sql, values);
        using SqliteDataReader reader = command.ExecuteReader();
        List<T> rows = [];
        while (reader.Read())
            rows.Add(map(reader));
        return rows;
    }

    private static SqliteCommand Command(SqliteConnection connection, string sql, (string Name, object? Value)[] values)
    {
        SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // The texts are constants of the stores; values travel as parameters.
        command.CommandText = sql;
#pragma warning restore CA2100
        foreach ((string name, object? value) in values)
            command.Parameters.AddWithValue(name, value is bool flag ? (flag ? 1 : 0) : value ?? DBNull.Value);
        return command;
    }
}
