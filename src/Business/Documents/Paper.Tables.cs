using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace MitigationOffice.Business.Documents;

/// <summary>Tables: schedules in the drawing's manner. The head is repeated on every sheet; a row higher than a sheet goes on at the next.</summary>
public sealed partial class Paper
{
    private const double Pad = 4;

    public void Table(IReadOnlyList<PaperColumn> columns, IEnumerable<PaperRow> rows)
    {
        var unit = TextWidth / columns.Sum(c => c.Share);
        var widths = columns.Select(c => c.Share * unit).ToArray();
        var head = new PaperRow([.. columns.Select(c => c.Head)]) { Strong = true, Band = true };
        Gap(3);
        _tags.BeginElement(PdfBlockLevelElementTag.Table);
        Need(Height(head, widths) + 2 * (Body * 1.32 + 2 * Pad));
        PutRow(head, columns, widths, PdfBlockLevelElementTag.TableHeaderCell);
        foreach (var row in rows)
        {
            if (_y + Math.Min(Height(row, widths), Bottom - Top - 60) > Bottom) NextSheet();
            PutRow(row, columns, widths, PdfBlockLevelElementTag.TableDataCell, NextSheet);
        }

        _tags.End();
        Gap(6);

        void NextSheet()
        {
            NewSheet();
            PutRow(head, columns, widths, PdfBlockLevelElementTag.TableHeaderCell);
        }
    }

    private double Height(PaperRow row, double[] widths) =>
        Cells(row, widths).Max(c => c.Count) * TypeOf(row).LineHeight + 2 * Pad;

    private PaperType TypeOf(PaperRow row) => Type(row.Strong ? PaperFace.Strong : PaperFace.Regular, Body);

    private List<List<string>> Cells(PaperRow row, double[] widths) =>
        [.. widths.Select((width, i) => TypeOf(row).Wrap(i < row.Cells.Length ? row.Cells[i] : "", width - 2 * Pad - 1))];

    private void PutRow(PaperRow row, IReadOnlyList<PaperColumn> columns, double[] widths, PdfBlockLevelElementTag tag, Action? nextSheet = null)
    {
        var (cells, type) = (Cells(row, widths), TypeOf(row));
        var total = cells.Max(c => c.Count);
        for (var from = 0; from < total;)
        {
            var count = Math.Clamp((int)((Bottom - _y - 2 * Pad) / type.LineHeight), 1, total - from);
            PutPart(row, [.. cells.Select(c => c.Skip(from).Take(count).ToList())], count, columns, widths, tag);
            from += count;
            if (from < total) (nextSheet ?? NewSheet)();
        }
    }

    private void PutPart(PaperRow row, List<List<string>> cells, int count, IReadOnlyList<PaperColumn> columns, double[] widths, PdfBlockLevelElementTag tag)
    {
        var type = TypeOf(row);
        var (height, top) = (count * type.LineHeight + 2 * Pad, _y);
        AsArtifact(() => DrawGrid(widths, height, row.Band));
        _tags.BeginElement(PdfBlockLevelElementTag.TableRow);
        var x = Left;
        for (var i = 0; i < widths.Length; i++)
        {
            var (column, at) = (i, x);
            AsElement(tag, () =>
            {
                for (var n = 0; n < cells[column].Count; n++)
                    PutAt(cells[column][n], type, at + Pad, top + Pad - 1 + n * type.LineHeight, widths[column] - 2 * Pad, Ink, columns[column].Right ? XStringAlignment.Far : XStringAlignment.Near);
            });
            x += widths[i];
        }

        _tags.End();
        _y = top + height;
    }

    private void DrawGrid(double[] widths, double height, bool band)
    {
        if (band) _page.DrawRectangle(new XSolidBrush(Band), Left, _y, TextWidth, height);
        var pen = new XPen(Ink, 0.7);
        var x = Left;
        foreach (var width in widths)
        {
            _page.DrawRectangle(pen, x, _y, width, height);
            x += width;
        }
    }
}
