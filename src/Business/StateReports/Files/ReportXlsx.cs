using System.IO.Compression;
using MitigationOffice.Business.StateReports.Profiles;
using SpreadCheetah;
using SpreadCheetah.Styling;
using SpreadCheetah.Worksheets;

namespace MitigationOffice.Business.StateReports.Files;

/// <summary>The report as a workbook: days are dates, numbers are numbers, everything else is text and never computed.
/// The same table gives the same bytes: no part of the file says when it was made.</summary>
public static class ReportXlsx
{
    private static readonly DateTimeOffset Still = new(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);

    public static async Task<byte[]> BytesAsync(ReportTable table, IReadOnlyList<(string Words, string Value)> totals, CancellationToken cancel = default)
    {
        using var stream = new MemoryStream();
        await using (var book = await Spreadsheet.CreateNewAsync(stream, new SpreadCheetahOptions { CompressionLevel = SpreadCheetahCompressionLevel.Fastest, DocumentProperties = null }, cancel))
        {
            var strong = book.AddStyle(new Style { Font = { Bold = true } });
            await SheetAsync(book, table, strong, cancel);
            await book.StartWorksheetAsync("Totals", new WorksheetOptions(), cancel);
            foreach (var (words, value) in totals)
                await book.AddRowAsync([new Cell(words, strong), ReportTable.Number(value) is { } number ? new Cell(number) : new Cell(value)], cancel);
            await book.FinishAsync(cancel);
        }

        return await SteadyAsync(stream, cancel);
    }

    private static async Task SheetAsync(Spreadsheet book, ReportTable table, StyleId strong, CancellationToken cancel)
    {
        var fields = table.Profile.Fields;
        var styles = fields.Select(f => StyleOf(book, f)).ToArray();
        var options = new WorksheetOptions { FrozenRows = 1 };
        for (var i = 0; i < fields.Count; i++) options.Column(i + 1).Width = Math.Clamp(fields[i].Name.Length + 3, 10, 28);
        await book.StartWorksheetAsync("Report", options, cancel);
        await book.AddRowAsync(fields.Select(f => new Cell(f.Name, strong)).ToList(), cancel);
        var cells = new Cell[fields.Count];
        foreach (var row in table.Written)
        {
            for (var i = 0; i < cells.Length; i++) cells[i] = CellOf(table, fields[i], row, styles[i]);
            await book.AddRowAsync(cells, cancel);
        }
    }

    private static Cell CellOf(ReportTable table, ProfileField field, RowToWrite row, StyleId? style)
    {
        var raw = table.Raw(field, row);
        if (raw.Length == 0) return new Cell((string?)null);
        if (style is not null && !field.Map.ContainsKey(raw))
        {
            if (field.Known!.Kind == FieldKind.Day && ReportTable.Day(raw) is { } day) return new Cell(day.ToDateTime(TimeOnly.MinValue), style);
            if (ReportTable.Number(table.Cell(field, row)) is { } number) return new Cell(number, style);
        }

        return new Cell(table.Cell(field, row));
    }

    /// <summary>How a column's days or numbers look; null where it is text.</summary>
    private static StyleId? StyleOf(Spreadsheet book, ProfileField field)
    {
        if (field.Known is not { Kind: not FieldKind.Text } known) return null;
        var form = known.Kind == FieldKind.Day
            ? (field.Format.Length > 0 ? field.Format : "yyyy-MM-dd").Replace("MMM", "mmm", StringComparison.Ordinal).Replace('M', 'm')
            : field.Format.Length > 0 ? field.Format : known.Decimals == 0 ? "0" : "0." + new string('0', known.Decimals);
        return book.AddStyle(new Style { Format = NumberFormat.Custom(form) });
    }

    /// <summary>The parts of the file again, all of one time.</summary>
    private static async Task<byte[]> SteadyAsync(MemoryStream written, CancellationToken cancel)
    {
        written.Position = 0;
        using var steady = new MemoryStream();
        await using (var from = new ZipArchive(written, ZipArchiveMode.Read, leaveOpen: true))
        await using (var to = new ZipArchive(steady, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var part in from.Entries)
            {
                var copy = to.CreateEntry(part.FullName, CompressionLevel.Fastest);
                copy.LastWriteTime = Still;
                await using var source = await part.OpenAsync(cancel);
                await using var target = await copy.OpenAsync(cancel);
                await source.CopyToAsync(target, cancel);
            }
        }

        return steady.ToArray();
    }
}
