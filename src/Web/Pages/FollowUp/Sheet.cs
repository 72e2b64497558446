using System.Text;
using Microsoft.AspNetCore.Mvc;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>A list for people's spreadsheets: a byte-order mark so that they read it as UTF-8, and a quote before text that they
/// would take for a formula.</summary>
internal static class Sheet
{
    public static FileContentResult Csv(string name, string[] head, IEnumerable<string[]> rows)
    {
        var text = new StringBuilder("\uFEFF");
        foreach (var row in rows.Prepend(head)) text.AppendJoin(',', row.Select(Cell)).Append("\r\n");
        return new FileContentResult(Encoding.UTF8.GetBytes(text.ToString()), "text/csv; charset=utf-8") { FileDownloadName = name };
    }

    private static string Cell(string value)
    {
        var safe = value.Length > 0 && value[0] is '=' or '+' or '-' or '@' or '\t' or '\r' ? "'" + value : value;
        return safe.AsSpan().IndexOfAny(",\"\r\n") < 0 ? safe : $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
    }
}
