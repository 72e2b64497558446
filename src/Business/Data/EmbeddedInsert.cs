using System.Globalization;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace MitigationOffice.Business.Data;

/// <summary>One prepared statement of SQLite, run row after row with its values bound by their place. A command of the data provider looks
/// each parameter up by its name and wraps it, which takes as long again as the database needs for the row itself.</summary>
internal sealed class EmbeddedInsert : IDisposable
{
    private readonly sqlite3 _file;
    private readonly sqlite3_stmt _statement;
    private readonly object?[] _values;

    /// <exception cref="SqliteException">The statement is not one, or names what is not there.</exception>
    public EmbeddedInsert(sqlite3 file, string sql, int columns)
    {
        (_file, _values) = (file, new object?[columns]);
        Hold(raw.sqlite3_prepare_v2(file, sql, out _statement));
    }

    /// <exception cref="SqliteException">A rule of the table is broken; the row is not in.</exception>
    public void Run<T>(T row, Action<T, object?[]> fill)
    {
        fill(row, _values);
        for (var i = 0; i < _values.Length; i++) Hold(Bind(i + 1, _values[i]));
        var done = raw.sqlite3_step(_statement);
        raw.sqlite3_reset(_statement);
        if (done != raw.SQLITE_DONE) Hold(done);
    }

    public void Dispose() => _statement.Dispose();

    private int Bind(int place, object? value) => value switch
    {
        null => raw.sqlite3_bind_null(_statement, place),
        string words => raw.sqlite3_bind_text(_statement, place, words),
        int number => raw.sqlite3_bind_int(_statement, place, number),
        // As an embedded database keeps a day.
        DateOnly day => raw.sqlite3_bind_text(_statement, place, day.ToString("O", CultureInfo.InvariantCulture)),
        _ => throw new NotSupportedException($"A value of {value.GetType().Name} is not put in this way yet."),
    };

    private void Hold(int code) => SqliteException.ThrowExceptionForRC(code, _file);
}
