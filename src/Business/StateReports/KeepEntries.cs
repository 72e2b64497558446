using System.Data.Common;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports;

/// <summary>Writes the rows of a frozen report, many in a statement that is prepared once: a month may have ten thousand, and the run's
/// hash is their proof, so that nothing has to follow each of them.</summary>
internal static class KeepEntries
{
    private const int Chunk = 50, CountsKey = 4;
    private static readonly string[] Columns = ["ReportRunId", "ProfileCode", "InstalledSystemId", "EventKey", "CountsKey", "Kind", "Position", "Day", "Amends", "Changed", "RowJson"];

    /// <summary>Inside the transaction that the run was added in.</summary>
    public static async Task RunAsync(OfficeDb db, IReadOnlyList<ReportEntry> entries, CancellationToken cancel)
    {
        var whole = entries.Count / Chunk * Chunk;
        await WriteAsync(db, [.. entries.Take(whole)], Chunk, cancel);
        await WriteAsync(db, [.. entries.Skip(whole)], entries.Count - whole, cancel);
    }

    private static async Task WriteAsync(OfficeDb db, ReportEntry[] entries, int together, CancellationToken cancel)
    {
        if (entries.Length == 0) return;
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.Transaction = db.Database.CurrentTransaction?.GetDbTransaction();
        command.CommandText = Insert(together);
        for (var i = 0; i < together * Columns.Length; i++) command.Parameters.Add(Parameter(command, i));
        for (var from = 0; from < entries.Length; from += together)
        {
            var at = 0;
            foreach (var entry in entries.AsSpan(from, together))
                foreach (var value in Values(entry)) command.Parameters[at++].Value = value;
            if (from == 0) await command.PrepareAsync(cancel);
            await command.ExecuteNonQueryAsync(cancel);
        }
    }

    private static DbParameter Parameter(DbCommand command, int number)
    {
        var parameter = command.CreateParameter();
        parameter.ParameterName = Name(number);
        return parameter;
    }

    private static object[] Values(ReportEntry e) => [e.ReportRunId, e.ProfileCode, e.InstalledSystemId, e.EventKey, e.CountsKey ?? "", $"{e.Kind}", e.Position, e.Day, e.Amends, e.Changed, e.RowJson];

    private static string Insert(int rows) =>
        $"""INSERT INTO "ReportEntries" ({string.Join(", ", Columns.Select(c => $"\"{c}\""))}) VALUES {string.Join(", ", Enumerable.Range(0, rows).Select(r => Row(r * Columns.Length)))}""";

    /// <summary>An empty key of what counts is none.</summary>
    private static string Row(int from) => $"({string.Join(", ", Columns.Select((_, i) => i == CountsKey ? $"NULLIF({Name(from + i)}, '')" : Name(from + i)))})";

    private static string Name(int number) => string.Create(CultureInfo.InvariantCulture, $"@p{number}");
}
