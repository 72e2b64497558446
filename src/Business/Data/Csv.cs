using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;

namespace MitigationOffice.Business.Data;

/// <summary>Comma-separated files by RFC 4180: CRLF, quotes doubled, one header row.</summary>
public static class Csv
{
    /// <summary>A file for a machine: exactly the given text in each cell.</summary>
    public static string Write(IReadOnlyList<string> header, IEnumerable<IReadOnlyList<string>> rows)
    {
        var text = new StringBuilder();
        Line(text, header);
        foreach (var row in rows) Line(text, row);
        return text.ToString();
    }

    /// <summary>A file for a person's spreadsheet: a cell that a spreadsheet would compute gets an apostrophe before it,
    /// and a mark at the start tells the spreadsheet the letters are UTF-8.</summary>
    public static byte[] WriteForPeople(IReadOnlyList<string> header, IEnumerable<IReadOnlyList<string>> rows) =>
        [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(Write(header, rows.Select(row => row.Select(Inert).ToList())))];

    /// <summary>Reads a file whose first line names the columns, in any order; every problem names its line.</summary>
    public static CsvContent Read(string text, IReadOnlyList<string> needed, IReadOnlyList<string> known)
    {
        var problems = new List<string>();
        using var parser = new CsvParser(new StringReader(text.TrimStart('\uFEFF')), new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            BadDataFound = bad => problems.Add($"Line {bad.Context.Parser?.RawRow}: a quotation mark stands where none may; double it or put the whole cell in quotes."),
        });
        if (!parser.Read() || parser.Record is null) return new([], ["The file is empty. Its first line must name the columns."]);
        var header = parser.Record.Select(h => h.Trim().ToLowerInvariant()).ToList();
        problems.AddRange(needed.Where(n => !header.Contains(n)).Select(n => $"Line 1: the column “{n}” is missing."));
        problems.AddRange(header.Where(h => !known.Contains(h)).Select(h => $"Line 1: the column “{h}” is not one this file has. The columns are {string.Join(", ", known)}."));
        problems.AddRange(header.GroupBy(h => h).Where(g => g.Count() > 1).Select(g => $"Line 1: the column “{g.Key}” stands twice."));
        if (problems.Count > 0) return new([], problems);
        var rows = new List<CsvRow>();
        while (parser.Read())
        {
            if (parser.Record.All(string.IsNullOrWhiteSpace)) continue;
            if (parser.Record.Length != header.Count) problems.Add($"Line {parser.RawRow}: {parser.Record.Length} cells where the first line has {header.Count}.");
            else rows.Add(new CsvRow(parser.RawRow, header.Zip(parser.Record, (h, v) => (h, v.Trim())).ToDictionary(x => x.h, x => x.Item2, StringComparer.Ordinal)));
        }

        return new(rows, problems);
    }

    /// <summary>Text that some spreadsheet would take for a formula.</summary>
    public static bool LooksComputed(string cell) => cell.Length > 0 && cell[0] is '=' or '+' or '-' or '@' or '\t' or '\0' or '\r';

    private static string Inert(string cell) =>
        LooksComputed(cell) && !decimal.TryParse(cell, NumberStyles.Number, CultureInfo.InvariantCulture, out _) ? "'" + cell : cell;

    private static void Line(StringBuilder text, IReadOnlyList<string> cells)
    {
        for (var i = 0; i < cells.Count; i++)
        {
            if (i > 0) text.Append(',');
            var cell = cells[i];
            if (cell.AsSpan().IndexOfAny("\",\r\n") < 0) text.Append(cell);
            else text.Append('"').Append(cell.Replace("\"", "\"\"", StringComparison.Ordinal)).Append('"');
        }

        text.Append("\r\n");
    }
}

public sealed record CsvRow(int Line, IReadOnlyDictionary<string, string> Cells)
{
    public string this[string column] => Cells.GetValueOrDefault(column, "");
}

public sealed record CsvContent(IReadOnlyList<CsvRow> Rows, IReadOnlyList<string> Problems);

/// <summary>Collects what is wrong with one line while its cells are read.</summary>
public sealed class RowReading(CsvRow row, List<string> problems)
{
    public string Text(string column, bool needed = false, int most = 500)
    {
        var text = row[column];
        if (needed && text.Length == 0) Refuse($"“{column}” is empty.");
        if (text.Length > most) Refuse($"“{column}” is longer than {most} characters.");
        if (Csv.LooksComputed(text)) Refuse($"“{column}” begins with {text[0]}, which a spreadsheet would compute. Begin it with a letter.");
        return text;
    }

    /// <summary>Whether the file has the column at all.</summary>
    public bool Has(string column) => row.Cells.ContainsKey(column);

    public decimal? NumberOrNone(string column, decimal least, decimal most)
    {
        var (value, problem) = TypedNumbers.ReadDecimal(row[column], column, least, most);
        if (problem is not null) Refuse(problem);
        return value;
    }

    public decimal Number(string column, decimal least, decimal most, decimal? ifEmpty = null) =>
        Or(TypedNumbers.ReadDecimal(row[column], column, least, most), column, ifEmpty);

    public int Whole(string column, int least, int most, int? ifEmpty = null) =>
        Or(TypedNumbers.ReadWhole(row[column], column, least, most), column, ifEmpty);

    public Money Money(string column, Money? ifEmpty = null) => Or(TypedNumbers.ReadMoney(row[column], column), column, ifEmpty);

    public bool YesNo(string column, bool ifEmpty)
    {
        switch (row[column].ToLowerInvariant())
        {
            case "": return ifEmpty;
            case "yes" or "y" or "true" or "1": return true;
            case "no" or "n" or "false" or "0": return false;
            default:
                Refuse($"“{column}” must be yes or no, not {row[column]}.");
                return ifEmpty;
        }
    }

    public T Word<T>(string column, T? ifEmpty = null)
        where T : struct, Enum
    {
        if (row[column].Length == 0 && ifEmpty is { } standard) return standard;
        if (Enum.GetNames<T>().FirstOrDefault(n => n.Equals(row[column].Replace("-", "", StringComparison.Ordinal).Replace(" ", "", StringComparison.Ordinal), StringComparison.OrdinalIgnoreCase)) is { } name)
            return Enum.Parse<T>(name);
        Refuse($"“{column}” must be one of {string.Join(", ", Enum.GetNames<T>()).ToLowerInvariant()}, not {(row[column].Length == 0 ? "empty" : row[column])}.");
        return default;
    }

    public void Refuse(string words) => problems.Add($"Line {row.Line}: {words}");

    private T Or<T>((T? Value, string? Problem) read, string column, T? ifEmpty)
        where T : struct
    {
        if (read.Problem is { } problem) Refuse(problem);
        else if (read.Value is null && ifEmpty is null) Refuse($"“{column}” is empty.");
        return read.Value ?? ifEmpty ?? default;
    }
}
