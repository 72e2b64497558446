using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

/// <summary>Puts planned reminders in by prepared statements of many rows each: the first plan of many thousand houses has more than
/// a hundred thousand of them, and one by one through the change tracker they take minutes.</summary>
internal static class InsertReminders
{
    private static readonly string[] Columns = ["HouseId", "InstalledSystemId", "RuleCode", "Key", "Because", "DueOn", "SendOn"];

    /// <param name="fresh">Not on record yet.</param>
    public static async Task RunAsync(OfficeDb db, IReadOnlyList<Occasion> fresh, CancellationToken cancel)
    {
        // An embedded database looks a parameter up by walking over all of them: few rows are faster. A server wants few round trips.
        var rows = db.Database.ProviderName?.EndsWith("Sqlite", StringComparison.Ordinal) == true ? 8 : 500;
        await InsertAsync(db, fresh.Take(fresh.Count - fresh.Count % rows), rows, cancel);
        await InsertAsync(db, fresh.Skip(fresh.Count - fresh.Count % rows), 1, cancel);
    }

    private static async Task InsertAsync(OfficeDb db, IEnumerable<Occasion> fresh, int rows, CancellationToken cancel)
    {
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.Transaction = db.Database.CurrentTransaction?.GetDbTransaction();
        command.CommandText = Sql(rows);
        var values = Enumerable.Range(0, rows * Columns.Length).Select(i => Parameter(command, i)).ToArray();
        foreach (var some in fresh.Chunk(rows))
        {
            for (var i = 0; i < some.Length; i++) Set(values.AsSpan(i * Columns.Length), some[i]);
            await command.ExecuteNonQueryAsync(cancel);
        }
    }

    private static DbParameter Parameter(DbCommand command, int number)
    {
        var parameter = command.CreateParameter();
        parameter.ParameterName = $"@p{number}";
        parameter.DbType = (number % Columns.Length) switch { 0 or 1 => System.Data.DbType.Int32, 5 or 6 => System.Data.DbType.Date, _ => System.Data.DbType.String };
        command.Parameters.Add(parameter);
        return parameter;
    }

    private static void Set(Span<DbParameter> row, Occasion occasion)
    {
        row[0].Value = occasion.HouseId is { } house ? house : DBNull.Value;
        row[1].Value = occasion.SystemId is { } system ? system : DBNull.Value;
        row[2].Value = occasion.RuleCode;
        row[3].Value = occasion.Key;
        row[4].Value = occasion.Because;
        row[5].Value = occasion.DueOn;
        row[6].Value = occasion.SendOn;
    }

    private static string Sql(int rows) =>
        $"""INSERT INTO "Reminders" ({string.Join(", ", Columns.Select(c => $"\"{c}\""))}, "State", "Note", "Version") VALUES """
        + string.Join(", ", Enumerable.Range(0, rows).Select(row => $"({string.Join(", ", Enumerable.Range(row * Columns.Length, Columns.Length).Select(i => $"@p{i}"))}, '{nameof(ReminderState.Planned)}', '', 0)"));
}
