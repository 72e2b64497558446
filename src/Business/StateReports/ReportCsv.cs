using System.Text;

namespace MitigationOffice.Business.StateReports;

/// <summary>RFC 4180: a fixed header line, CRLF, quotes doubled, every line with the same fields. UTF-8 without a byte-order mark, as a
/// file for machines; nothing in it is altered.</summary>
public static class ReportCsv
{
    public static byte[] Bytes(IReadOnlyList<IReadOnlyDictionary<string, string>> rows)
    {
        var text = new StringBuilder();
        Line(text, ReportLayout.Columns.Select(c => c.Name));
        foreach (var row in rows) Line(text, ReportLayout.Columns.Select(c => row.GetValueOrDefault(c.Name, "")));
        return new UTF8Encoding(false).GetBytes(text.ToString());
    }

    private static void Line(StringBuilder text, IEnumerable<string> fields) => text.AppendJoin(',', fields.Select(Field)).Append("\r\n");

    private static string Field(string value) =>
        value.AsSpan().IndexOfAny(",\"\r\n") < 0 ? value : $"\"{value.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    /// <summary>Spreadsheets take text that begins so for a formula.</summary>
    public static bool LooksLikeFormula(string value) => value.Length > 0 && value[0] is '=' or '+' or '-' or '@' or '\t' or '\r' or '\0';
}
