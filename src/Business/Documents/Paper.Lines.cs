using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace MitigationOffice.Business.Documents;

/// <summary>Long lists: a hair line under each row, the head repeated on every sheet. On the first writing, which only learns how many
/// sheets there are, nothing is drawn, for a list may have ten thousand rows.</summary>
public sealed partial class Paper
{
    private const double LinePad = 2;

    /// <summary>Above so many rows a row is one tagged cell and not one for each column: the tags would weigh more than the text.</summary>
    private const int MostTagged = 500;

    public void Lines(IReadOnlyList<PaperColumn> columns, IReadOnlyList<IReadOnlyList<string>> rows)
    {
        var unit = TextWidth / columns.Sum(c => c.Share);
        var widths = columns.Select(c => c.Share * unit).ToArray();
        var (strong, type) = (Type(PaperFace.Strong, Body), Type(PaperFace.Regular, Body));
        var head = columns.Select((c, i) => strong.Wrap(c.Head, widths[i] - 6)).ToArray();
        Gap(3);
        _tags.BeginElement(PdfBlockLevelElementTag.Table);
        Need(PutLine(head, strong, columns, widths, PdfBlockLevelElementTag.TableHeaderCell, measure: true) + 3 * type.LineHeight);
        PutLine(head, strong, columns, widths, PdfBlockLevelElementTag.TableHeaderCell);
        foreach (var row in rows)
        {
            var cells = new List<string>[widths.Length];
            for (var i = 0; i < cells.Length; i++) cells[i] = i < row.Count && row[i].Length > 0 ? type.Wrap(row[i], widths[i] - 6) : [];
            if (_y + PutLine(cells, type, columns, widths, PdfBlockLevelElementTag.TableDataCell, measure: true) > Bottom)
            {
                NewSheet();
                PutLine(head, strong, columns, widths, PdfBlockLevelElementTag.TableHeaderCell);
            }

            PutLine(cells, type, columns, widths, PdfBlockLevelElementTag.TableDataCell, whole: rows.Count > MostTagged);
        }

        _tags.End();
        Gap(6);
    }

    /// <summary>Its height; drawn unless only measured. A row higher than a sheet is cut at the sheet's foot.</summary>
    private double PutLine(List<string>[] cells, PaperType type, IReadOnlyList<PaperColumn> columns, double[] widths, PdfBlockLevelElementTag tag, bool measure = false, bool whole = false)
    {
        var most = (int)((Bottom - Top) / type.LineHeight) - 4;
        var height = Math.Clamp(cells.Max(c => c.Count), 1, most) * type.LineHeight + 2 * LinePad;
        if (measure) return height;
        var top = _y;
        _y += height;
        if (_sheets == 0) return height;
        AsArtifact(() => _page.DrawLine(new XPen(Line, 0.5), Left, top + height, Right, top + height));
        _tags.BeginElement(PdfBlockLevelElementTag.TableRow);
        if (whole) _tags.BeginElement(tag);
        var x = Left;
        for (var i = 0; i < widths.Length; x += widths[i], i++)
        {
            if (!whole) _tags.BeginElement(tag);
            for (var n = 0; n < Math.Min(cells[i].Count, most); n++) PutAt(cells[i][n], type, x + 3, top + LinePad - 1 + n * type.LineHeight, widths[i] - 6, Ink, columns[i].Right ? XStringAlignment.Far : XStringAlignment.Near);
            if (!whole) _tags.End();
        }

        if (whole) _tags.End();

        _tags.End();
        return height;
    }
}
