using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace MitigationOffice.Business.Documents;

/// <summary>Long lists: a hair line under each row, the head repeated on every sheet. On the first writing, which only learns how many
/// sheets there are, nothing is drawn, for a list may have ten thousand rows.</summary>
public sealed partial class Paper
{
    private const double LinePad = 2;

    /// <summary>Above so many rows a row is one tagged cell and not one for each column, and above the second number a sheet is one tagged
    /// paragraph: the tags would weigh more than the text.</summary>
    private const int MostTagged = 500, MostRowsTagged = 2000;

    private readonly XPen _hairLine = new(Line, 0.5);

    public void Lines(IReadOnlyList<PaperColumn> columns, IReadOnlyList<IReadOnlyList<string>> rows)
    {
        var unit = TextWidth / columns.Sum(c => c.Share);
        var list = new LineList(columns, [.. columns.Select(c => c.Share * unit)], BySheet: rows.Count > MostRowsTagged);
        var (strong, type) = (Type(PaperFace.Strong, Body), Type(PaperFace.Regular, Body));
        var head = columns.Select((c, i) => strong.Wrap(c.Head, list.Widths[i] - 6)).ToArray();
        Gap(3);
        if (!list.BySheet) _tags.BeginElement(PdfBlockLevelElementTag.Table);
        Need(HeightOf(head, strong) + 3 * type.LineHeight);
        BeginSheetOfLines(list, head, strong);
        foreach (var row in rows)
        {
            var cells = new List<string>[list.Widths.Length];
            for (var i = 0; i < cells.Length; i++) cells[i] = i < row.Count && row[i].Length > 0 ? type.Wrap(row[i], list.Widths[i] - 6) : [];
            if (_y + HeightOf(cells, type) > Bottom)
            {
                EndSheetOfLines(list);
                NewSheet();
                BeginSheetOfLines(list, head, strong);
            }

            PutLine(list, cells, type, PdfBlockLevelElementTag.TableDataCell, whole: rows.Count > MostTagged);
        }

        EndSheetOfLines(list);
        if (!list.BySheet) _tags.End();
        Gap(6);
    }

    /// <param name="BySheet">A sheet is one tagged paragraph.</param>
    private sealed record LineList(IReadOnlyList<PaperColumn> Columns, double[] Widths, bool BySheet)
    {
        /// <summary>Where the sheet's hair lines go.</summary>
        public List<double> Under { get; } = [];
    }

    private void BeginSheetOfLines(LineList list, List<string>[] head, PaperType strong)
    {
        if (list.BySheet) _tags.BeginElement(PdfBlockLevelElementTag.Paragraph);
        PutLine(list, head, strong, PdfBlockLevelElementTag.TableHeaderCell, whole: false);
    }

    private void EndSheetOfLines(LineList list)
    {
        if (list.BySheet) _tags.End();
        if (list.Under.Count > 0) AsArtifact(() => list.Under.ForEach(y => _page.DrawLine(_hairLine, Left, y, Right, y)));
        list.Under.Clear();
    }

    private int MostLines(PaperType type) => (int)((Bottom - Top) / type.LineHeight) - 4;

    private double HeightOf(List<string>[] cells, PaperType type)
    {
        var lines = 1;
        foreach (var cell in cells) lines = Math.Max(lines, cell.Count);
        return Math.Min(lines, MostLines(type)) * type.LineHeight + 2 * LinePad;
    }

    /// <summary>A row higher than a sheet is cut at the sheet's foot.</summary>
    private void PutLine(LineList list, List<string>[] cells, PaperType type, PdfBlockLevelElementTag tag, bool whole)
    {
        var top = _y;
        _y += HeightOf(cells, type);
        if (_sheets == 0) return;
        list.Under.Add(_y);
        if (list.BySheet)
        {
            PutCells(list, cells, type, top, null);
            return;
        }

        _tags.BeginElement(PdfBlockLevelElementTag.TableRow);
        if (whole) AsElement(tag, () => PutCells(list, cells, type, top, null));
        else PutCells(list, cells, type, top, tag);
        _tags.End();
    }

    /// <param name="tag">What each cell is tagged as; null: it is tagged with the others.</param>
    private void PutCells(LineList list, List<string>[] cells, PaperType type, double top, PdfBlockLevelElementTag? tag)
    {
        var (x, most) = (Left, MostLines(type));
        for (var i = 0; i < cells.Length; x += list.Widths[i], i++)
        {
            if (tag is { } each) _tags.BeginElement(each);
            for (var n = 0; n < Math.Min(cells[i].Count, most); n++) PutAt(cells[i][n], type, x + 3, top + LinePad - 1 + n * type.LineHeight, list.Widths[i] - 6, Ink, list.Columns[i].Right ? XStringAlignment.Far : XStringAlignment.Near);
            if (tag is not null) _tags.End();
        }
    }
}
