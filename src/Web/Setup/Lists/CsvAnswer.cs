using System.Text;
using Microsoft.AspNetCore.Mvc;

namespace MitigationOffice.Web.Setup.Lists;

/// <summary>A list as a spreadsheet file: RFC 4180, UTF-8 with its mark. A text that a spreadsheet would take for a formula is told apart by a leading apostrophe.</summary>
public static class CsvAnswer
{
    public static FileContentResult Of(string fileName, IReadOnlyList<string> head, IEnumerable<IReadOnlyList<string>> rows)
    {
        var text = new StringBuilder();
        foreach (var row in rows.Prepend(head)) text.AppendJoin(',', row.Select(Cell)).Append("\r\n");
        return new FileContentResult([.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(text.ToString())], "text/csv; charset=utf-8") { FileDownloadName = fileName };
    }

    private static string Cell(string words)
    {
        var safe = words.Length > 0 && words[0] is '=' or '+' or '-' or '@' or '\t' ? "'" + words : words;
        return safe.AsSpan().IndexOfAny("\",\r\n") >= 0 ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }
}
