using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;

namespace MitigationOffice.Business.Tests.Monitor;

/// <summary>A monitor's file cut into cells: what stands before the table, the heads of its columns, its rows with their lines.</summary>
public sealed record MonitorTable(char Separator, IReadOnlyList<string> Before, IReadOnlyList<string> Heads, IReadOnlyList<(int Line, string[] Cells)> Rows)
{
    public const int MostRows = 250_000;
    private static readonly char[] Separators = [',', ';', '\t', '|'];

    /// <summary>The text of a file, or why it is none.</summary>
    public static (string? Text, string? Problem) TextOf(byte[] bytes)
    {
        if (bytes.Length == 0) return (null, "This file is empty. Read the monitor out again.");
        if (bytes.AsSpan().StartsWith("PK"u8)) return (null, "This is a workbook or a packed file. Save the readings as CSV (comma separated) and choose that file.");
        if (Documents.ReceivedFile.Picture(bytes) is not null) return (null, "This is a picture or a PDF. Choose the monitor's file of readings: CSV, one row an hour.");
        if (bytes.AsSpan().StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE])) return (Encoding.Unicode.GetString(bytes, 2, bytes.Length - 2), null);
        if (bytes.AsSpan().StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF])) return (Encoding.BigEndianUnicode.GetString(bytes, 2, bytes.Length - 2), null);
        if (bytes.AsSpan().IndexOf((byte)0) >= 0) return (null, "What is in this file is no text. Choose the monitor's file of readings: CSV, one row an hour.");
        try
        {
            return (new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes).TrimStart('\uFEFF'), null);
        }
        catch (DecoderFallbackException)
        {
            return (Encoding.Latin1.GetString(bytes), null);
        }
    }

    /// <summary>Cuts the text; the table begins where most lines have the same number of cells.</summary>
    public static (MonitorTable? Table, string? Problem) Of(string text, char? separator = null)
    {
        var used = separator ?? Separators.MaxBy(s => Wide(text, s));
        var lines = Cells(text, used).Take(MostRows + 1).ToList();
        if (lines.Count > MostRows) return (null, $"The file has more than {MostRows:#,##0} lines. Read out only the days of this test.");
        var width = lines.Take(400).Where(l => l.Cells.Length > 1).GroupBy(l => l.Cells.Length).OrderByDescending(g => g.Count()).ThenByDescending(g => g.Key).Select(g => g.Key).FirstOrDefault();
        if (width < 2) return (null, "No table was found in this file. It needs a column with the time and a column with the radon of each hour.");
        var first = lines.FindIndex(l => l.Cells.Length == width);
        var headed = !LooksLikeReading(lines[first].Cells);
        var heads = headed ? lines[first].Cells.Select((h, i) => h.Trim().Length == 0 ? $"#{i + 1}" : h.Trim()).ToList() : [.. Enumerable.Range(1, width).Select(i => $"#{i}")];
        var before = lines.Take(first).Select(l => string.Join(' ', l.Cells).Trim()).Where(l => l.Length > 0).ToList();
        var rows = lines.Skip(headed ? first + 1 : first).Where(l => !l.Cells.All(string.IsNullOrWhiteSpace)).ToList();
        return rows.Count == 0 ? (null, "The file names its columns but holds no reading. Read the monitor out again.") : (new(used, before, Different(heads), rows), null);
    }

    public int ColumnOf(string head)
    {
        for (var i = 0; i < Heads.Count; i++)
            if (Heads[i].Equals(head.Trim(), StringComparison.OrdinalIgnoreCase)) return i;
        return -1;
    }

    private static List<string> Different(List<string> heads)
    {
        var seen = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        return heads.ConvertAll(h =>
        {
            seen[h] = seen.GetValueOrDefault(h) + 1;
            return seen[h] == 1 ? h : $"{h} ({seen[h]})";
        });
    }

    private static bool LooksLikeReading(string[] cells) => cells.Any(c => c.Any(char.IsAsciiDigit) && ReadStamp.LooksLikeTime(c)) && cells.Any(c => ReadStamp.NumberOf(c) is not null);

    private static int Wide(string text, char separator) =>
        Cells(text[..Math.Min(text.Length, 20_000)], separator).Take(200).Where(l => l.Cells.Length > 1).GroupBy(l => l.Cells.Length).Select(g => g.Count() * Math.Min(g.Key, 12)).DefaultIfEmpty(0).Max();

    private static IEnumerable<(int Line, string[] Cells)> Cells(string text, char separator)
    {
        using var parser = new CsvParser(new StringReader(text), new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = separator.ToString(), BadDataFound = null, Mode = CsvMode.RFC4180, IgnoreBlankLines = true, MaxFieldSize = 0,
        });
        while (parser.Read())
            if (parser.Record is { } record) yield return (parser.RawRow, record);
    }
}
