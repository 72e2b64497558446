using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;

namespace MitigationOffice.Web.Pages.Quotes;

/// <summary>The list of quotes for a spreadsheet: RFC 4180, UTF-8 with a byte order mark, text that a spreadsheet would
/// compute kept from it by a leading apostrophe.</summary>
public static class QuotesCsv
{
    public static byte[] Of(IEnumerable<QuoteRow> rows)
    {
        using var stream = new MemoryStream();
        using (var writer = new StreamWriter(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: true)))
        using (var csv = new CsvWriter(writer, new CsvConfiguration(CultureInfo.InvariantCulture) { NewLine = "\r\n" }))
        {
            Write(csv, ["Number", "Revision", "House", "Customer", "State", "Sent", "Valid until", "Total, $"]);
            foreach (var r in rows)
                Write(csv, [r.Number, r.Letter, Text(r.House), Text(r.Customer), r.StateWord, TypedNumbers.Plain(r.SentOn), TypedNumbers.Plain(r.ValidUntil), r.Total is { } total ? TypedNumbers.Plain(total) : ""]);
        }

        return stream.ToArray();
    }

    private static void Write(CsvWriter csv, string[] cells)
    {
        foreach (var cell in cells) csv.WriteField(cell);
        csv.NextRecord();
    }

    private static string Text(string cell) => cell.Length > 0 && "=+-@\t\0".Contains(cell[0], StringComparison.Ordinal) ? "'" + cell : cell;
}
