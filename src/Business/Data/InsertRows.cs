using System.Data;
using System.Data.Common;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace MitigationOffice.Business.Data;

/// <summary>A column of rows that are put in past the change tracker.</summary>
internal sealed record InsertColumn(string Name, DbType Type);

/// <summary>Puts many rows into a table by a statement that is prepared once: through the change tracker, one by one, a hundred thousand
/// take minutes. Nothing is audited and no row is read back, so it is for rows that follow from records that are audited themselves.
/// Each row costs the database one look into every index, O(log n).</summary>
/// <param name="fixedColumns">Columns whose value is the same in every row, and the value as SQL.</param>
internal sealed class InsertRows(string table, IReadOnlyList<InsertColumn> columns, params (string Name, string Sql)[] fixedColumns)
{
    /// <param name="fill">Writes the values of a row, in the order of the columns; null is no value.</param>
    public async Task RunAsync<T>(OfficeDb db, IReadOnlyList<T> rows, Action<T, object?[]> fill, CancellationToken cancel)
    {
        if (rows.Count == 0) return;
        if (db.Database.GetDbConnection() is SqliteConnection { Handle: { } file })
        {
            using var insert = new EmbeddedInsert(file, Sql(1), columns.Count);
            foreach (var row in rows) insert.Run(row, fill);
            return;
        }

        // A server wants few round trips.
        const int Together = 500;
        var whole = rows.Count / Together * Together;
        await InsertAsync(db, rows, (0, whole), Together, fill, cancel);
        await InsertAsync(db, rows, (whole, rows.Count), 1, fill, cancel);
    }

    private async Task InsertAsync<T>(OfficeDb db, IReadOnlyList<T> rows, (int From, int To) range, int together, Action<T, object?[]> fill, CancellationToken cancel)
    {
        if (range.From == range.To) return;
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.Transaction = db.Database.CurrentTransaction?.GetDbTransaction();
        command.CommandText = Sql(together);
        var parameters = Enumerable.Range(0, together * columns.Count).Select(i => Parameter(command, i)).ToArray();
        await command.PrepareAsync(cancel);
        var values = new object?[columns.Count];
        for (var at = range.From; at < range.To; at += together)
        {
            for (var row = 0; row < together; row++)
            {
                fill(rows[at + row], values);
                for (var c = 0; c < values.Length; c++) parameters[row * values.Length + c].Value = values[c] ?? DBNull.Value;
            }

            await command.ExecuteNonQueryAsync(cancel);
        }
    }

    private DbParameter Parameter(DbCommand command, int number)
    {
        var parameter = command.CreateParameter();
        (parameter.ParameterName, parameter.DbType) = (Name(number), columns[number % columns.Count].Type);
        command.Parameters.Add(parameter);
        return parameter;
    }

    private string Sql(int rows) =>
        $"INSERT INTO \"{table}\" ({string.Join(", ", columns.Select(c => c.Name).Concat(fixedColumns.Select(c => c.Name)).Select(n => $"\"{n}\""))}) VALUES {string.Join(", ", Enumerable.Range(0, rows).Select(Row))}";

    private string Row(int row) => $"({string.Join(", ", columns.Select((_, i) => Name(row * columns.Count + i)).Concat(fixedColumns.Select(c => c.Sql)))})";

    private static string Name(int number) => string.Create(CultureInfo.InvariantCulture, $"@p{number}");
}
