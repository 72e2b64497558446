using Microsoft.Data.Sqlite;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Commands;

/// <summary>The SQLite file itself, opened beside the program's own records.</summary>
public static class RecordsFile
{
    /// <summary>Refuses where there is no file to work on: the records are on a server, or the folder is empty.</summary>
    public static void Demand(IConfiguration configuration, DataFolder folder, string instead)
    {
        if (string.Equals(configuration["Database:Provider"], "Postgres", StringComparison.OrdinalIgnoreCase))
            throw new InvalidOperationException($"The records are on a PostgreSQL server: {instead}");
        if (!File.Exists(folder.Database)) throw new InvalidOperationException($"There is no office in {folder.FullPath}; name its folder with --data.");
    }

    public static async Task<SqliteConnection> OpenAsync(string path, CancellationToken cancel)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Mode = SqliteOpenMode.ReadWrite, Pooling = false }.ConnectionString);
        await connection.OpenAsync(cancel);
        return connection;
    }

    public static async Task<IReadOnlyList<string>> AskAsync(SqliteConnection connection, string sql, CancellationToken cancel)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        await using var reader = await command.ExecuteReaderAsync(cancel);
        var rows = new List<string>();
        while (await reader.ReadAsync(cancel))
            rows.Add(string.Join(' ', Enumerable.Range(0, reader.FieldCount).Select(i => reader.IsDBNull(i) ? "" : reader.GetValue(i).ToString())));
        return rows;
    }

    /// <summary>What SQLite itself finds wrong with the file; nothing where it is whole.</summary>
    public static async Task<IReadOnlyList<string>> ProblemsAsync(SqliteConnection connection, bool thorough, CancellationToken cancel)
    {
        var check = await AskAsync(connection, thorough ? "PRAGMA integrity_check" : "PRAGMA quick_check", cancel);
        var keys = thorough ? await AskAsync(connection, "PRAGMA foreign_key_check", cancel) : [];
        return
        [
            .. check.Where(line => line != "ok").Select(line => $"The database file is damaged: {line}"),
            .. keys.Select(line => $"A row refers to one that is not there (table, row, table referred to): {line}"),
        ];
    }

    public static async Task<string> LastSchemaAsync(SqliteConnection connection, CancellationToken cancel) =>
        (await AskAsync(connection, "SELECT \"MigrationId\" FROM \"__EFMigrationsHistory\" ORDER BY \"MigrationId\" DESC LIMIT 1", cancel)) is [var last]
            ? last
            : throw new InvalidOperationException("The database does not say which version of the program made it.");
}
