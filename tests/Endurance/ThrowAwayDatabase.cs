using Npgsql;

namespace MitigationOffice.Endurance;

/// <summary>A database of its own on the server of OFFICE_TEST_POSTGRES.</summary>
public sealed class ThrowAwayDatabase(string server)
{
    private readonly string _name = "endurance_" + Path.GetRandomFileName().Replace(".", "", StringComparison.Ordinal);

    public string ConnectionString => new NpgsqlConnectionStringBuilder(server) { Database = _name }.ConnectionString;

    public static ThrowAwayDatabase? FromEnvironment() =>
        Environment.GetEnvironmentVariable("OFFICE_TEST_POSTGRES") is { Length: > 0 } server ? new(server) : null;

    public Task MakeAsync() => RunAsync($"CREATE DATABASE {_name}");

    public Task DropAsync()
    {
        NpgsqlConnection.ClearAllPools();
        return RunAsync($"DROP DATABASE IF EXISTS {_name} WITH (FORCE)");
    }

    private async Task RunAsync(string sql)
    {
        await using var connection = new NpgsqlConnection(server);
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        await command.ExecuteNonQueryAsync();
    }
}
