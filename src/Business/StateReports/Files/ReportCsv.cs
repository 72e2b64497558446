using System.Text;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports.Files;

/// <summary>RFC 4180: a fixed header line, CRLF, quotes doubled, every line with the same fields. UTF-8 without a byte-order mark, as a
/// file for machines; nothing in it is altered.</summary>
public static class ReportCsv
{
    public static byte[] Bytes(ReportTable table) =>
        new UTF8Encoding(false).GetBytes(Csv.Write(table.Columns, table.Written.Select(r => (IReadOnlyList<string>)[.. table.Profile.Fields.Select(f => table.Cell(f, r))])));
}
