using System.Data;
using System.Data.Common;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace MitigationOffice.Business.Data;

/// <summary>A column of rows that are put in past the change tracker: a whole number, words or a day.</summary>
internal sealed record InsertColumn(string Name, DbType Type);

/// <summary>Puts many rows into a table by a statement that is prepared once: through the change tracker, one by one, a hundred thousand
/// take minutes. Nothing is audited and no row is read back, so it is for rows that follow from records that are audited themselves.
/// Each row costs the database one look into every index, O(log n).</summary>
/// <param name="fixedColumns">Columns whose value is the same in every row, and the value as SQL.</param>
internal sealed class InsertRows(string table, IReadOnlyList<InsertColumn> columns, params (string Name, string Sql)[] fixedColumns)
{
    /// <summary>A server takes so many rows in one round trip, a whole column as one parameter.</summary>
    private const int Together = 5000;

    /// <param name="fill">Writes the values of a row, in the order of the columns; null is no value.</param>
    public async Task RunAsync<T>(OfficeDb db, IReadOnlyList<T> rows, Action<T, object?[]> fill, CancellationToken cancel)
    {
        if (rows.Count == 0) return;
        if (db.Database.GetDbConnection() is SqliteConnection { Handle: { } file })
        {
            using var insert = new EmbeddedInsert(file, Sql($"VALUES ({string.Join(", ", columns.Select((_, i) => Name(i)).Concat(Fixed))})"), columns.Count);
            foreach (var row in rows) insert.Run(row, fill);
            return;
        }

        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.Transaction = db.Database.CurrentTransaction?.GetDbTransaction();
        command.CommandText = Sql($"SELECT {string.Join(", ", columns.Select((_, i) => $"c{i}").Concat(Fixed))} FROM unnest({string.Join(", ", columns.Select((c, i) => $"{Name(i)}::{OnServer(c.Type)}[]"))}) AS r({string.Join(", ", columns.Select((_, i) => $"c{i}"))})");
        var parameters = columns.Select((_, i) => Parameter(command, i)).ToArray();
        foreach (var some in rows.Chunk(Together))
        {
            var arrays = columns.Select(c => Column(c.Type, some.Length)).ToArray();
            var values = new object?[columns.Count];
            for (var row = 0; row < some.Length; row++)
            {
                fill(some[row], values);
                for (var c = 0; c < values.Length; c++) arrays[c].SetValue(values[c], row);
            }

            for (var c = 0; c < arrays.Length; c++) parameters[c].Value = arrays[c];
            await command.ExecuteNonQueryAsync(cancel);
        }
    }

    private IEnumerable<string> Fixed => fixedColumns.Select(c => c.Sql);

    private string Sql(string source) => $"INSERT INTO \"{table}\" ({string.Join(", ", columns.Select(c => c.Name).Concat(fixedColumns.Select(c => c.Name)).Select(n => $"\"{n}\""))}) {source}";

    private static DbParameter Parameter(DbCommand command, int number)
    {
        var parameter = command.CreateParameter();
        parameter.ParameterName = Name(number);
        command.Parameters.Add(parameter);
        return parameter;
    }

    private static Array Column(DbType type, int rows) => type switch
    {
        DbType.Int32 => new int?[rows],
        DbType.Date => new DateOnly?[rows],
        DbType.String => new string?[rows],
        _ => throw NotYet(type),
    };

    private static string OnServer(DbType type) => type switch
    {
        DbType.Int32 => "int",
        DbType.Date => "date",
        DbType.String => "text",
        _ => throw NotYet(type),
    };

    private static NotSupportedException NotYet(DbType type) => new($"A column of {type} is not put in this way yet.");

    private static string Name(int number) => string.Create(CultureInfo.InvariantCulture, $"@p{number}");
}
