using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;

namespace MitigationOffice.Business.Documents;

/// <summary>A paper being written from top to bottom, sheet after sheet, in the manner of a builder's drawing: a frame,
/// and a title block at the foot of each sheet. Tagged for screen readers. The same head and the same acts give the same bytes.</summary>
public sealed partial class Paper : IDisposable
{
    public static readonly XColor Ink = XColor.FromArgb(0x1d, 0x29, 0x33);
    public static readonly XColor Soft = XColor.FromArgb(0x4d, 0x59, 0x63);
    public static readonly XColor Line = XColor.FromArgb(0xc8, 0xcd, 0xc8);
    public static readonly XColor Band = XColor.FromArgb(0xee, 0xf1, 0xea);
    public static readonly XColor Accent = XColor.FromArgb(0x1f, 0x5f, 0x6b);
    public static readonly XColor Warning = XColor.FromArgb(0x8a, 0x4b, 0x00);
    public static readonly XColor WarningBand = XColor.FromArgb(0xff, 0xf3, 0xdc);
    private const double BlockHeight = 36;

    private readonly PaperHead _head;
    private readonly int _sheets;
    private readonly PdfDocument _document = new();
    private readonly StructureBuilder _tags;
    private readonly XGraphics _measure = XGraphics.CreateMeasureContext(new XSize(2000, 2000), XGraphicsUnit.Point, XPageDirection.Downwards);
    private readonly Dictionary<(PaperFace, double), PaperType> _types = [];
    private XGraphics _page = null!;
    private double _y;

    private Paper(PaperHead head, int sheets)
    {
        (_head, _sheets) = (head, sheets);
        var manager = UAManager.ForDocument(_document);
        manager.SetDocumentLanguage("en-US");
        _tags = manager.StructureBuilder;
        _document.ViewerPreferences.DisplayDocTitle = true;
        NewSheet();
    }

    /// <summary>Sheets begun so far.</summary>
    public int Sheet { get; private set; }

    /// <summary>Characters so far that the font has no shape for.</summary>
    public int Missing => _types.Values.Sum(t => t.Missing);

    private double Left => _head.Size.Edge + _head.Size.Inset;
    private double Right => _head.Size.Width - Left;
    private double Top => _head.Size.Edge + _head.Size.Inset;
    private double Bottom => _head.Size.Height - _head.Size.Edge - (_head.Boxes.Count > 0 ? BlockHeight + 12 : _head.Size.Inset);

    /// <summary>Width of the text, points.</summary>
    public double TextWidth => Right - Left;

    /// <summary>Writes the paper twice, the first time to learn how many sheets it takes.</summary>
    public static byte[] Make(PaperHead head, Action<Paper> write)
    {
        using var first = Written(head, 0, write);
        using var paper = Written(head, first.Sheet, write);
        return paper.Bytes();
    }

    /// <summary>How many sheets it takes.</summary>
    public static int SheetsOf(PaperHead head, Action<Paper> write)
    {
        using var paper = Written(head, 0, write);
        return paper.Sheet;
    }

    private static Paper Written(PaperHead head, int sheets, Action<Paper> write)
    {
        var paper = new Paper(head, sheets);
        write(paper);
        if (paper.Missing > 0)
            paper.Text($"A hollow square ({PaperType.NoShape}) stands for a character that this paper's type does not have.", PaperFace.Italic, small: true);
        return paper;
    }

    public void NewSheet()
    {
        var page = _document.AddPage();
        (page.Width, page.Height) = (XUnit.FromPoint(_head.Size.Width), XUnit.FromPoint(_head.Size.Height));
        _page = XGraphics.FromPdfPage(page);
        Sheet++;
        _y = Top;
        AsArtifact(DrawFrame);
    }

    /// <summary>Begins a new sheet unless this much height is left.</summary>
    public void Need(double height)
    {
        if (_y + height > Bottom && _y > Top) NewSheet();
    }

    public void Gap(double height = 6)
    {
        if (_y > Top) _y += height;
    }

    private PaperType Type(PaperFace face, double size) =>
        _types.TryGetValue((face, size), out var known) ? known : _types[(face, size)] = new PaperType(face, size, _measure);

    private void DrawFrame()
    {
        var (edge, size) = (_head.Size.Edge, _head.Size);
        if (_head.Frame) _page.DrawRectangle(new XPen(Ink, 1.4), edge, edge, size.Width - 2 * edge, size.Height - 2 * edge);
        if (_head.Boxes.Count == 0) return;
        var boxes = _head.Boxes.Append(new TitleBox("Sheet", $"{Sheet} of {Math.Max(_sheets, Sheet)}", 0.8)).ToList();
        var top = size.Height - edge - BlockHeight;
        _page.DrawLine(new XPen(Ink, 1.4), edge, top, size.Width - edge, top);
        var (x, unit) = (edge, (size.Width - 2 * edge) / boxes.Sum(b => b.Share));
        foreach (var box in boxes)
        {
            DrawBox(box, x, top, box.Share * unit);
            x += box.Share * unit;
            if (x < size.Width - edge - 1) _page.DrawLine(new XPen(Ink, 0.7), x, top, x, top + BlockHeight);
        }
    }

    private void DrawBox(TitleBox box, double x, double top, double width)
    {
        var (label, words) = (Type(PaperFace.Regular, 7.5), Type(PaperFace.Regular, 9));
        _page.DrawString(box.Label, label.Font, new XSolidBrush(Soft), x + 6, top + 10);
        var lines = words.Wrap(box.Words, width - 10);
        if (lines.Count > 2) lines = [lines[0], lines[1][..^Math.Min(1, lines[1].Length)] + "…"];
        for (var i = 0; i < lines.Count; i++) _page.DrawString(lines[i], words.Font, new XSolidBrush(Ink), x + 6, top + (lines.Count == 1 ? 25 : 20.5 + 10.5 * i));
    }

    private void AsArtifact(Action draw)
    {
        _tags.BeginArtifact();
        draw();
        _tags.End();
    }

    private void AsElement(PdfBlockLevelElementTag tag, Action write)
    {
        _tags.BeginElement(tag);
        write();
        _tags.End();
    }

    private byte[] Bytes()
    {
        _page.Dispose();
        return PaperBytes.Save(_document, _head);
    }

    public void Dispose()
    {
        _page.Dispose();
        _measure.Dispose();
        _document.Dispose();
    }
}
