using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;
using QRCoder;

namespace MitigationOffice.Business.Documents;

/// <summary>Codes to scan, drawn as shapes, so that they stay sharp at every size.</summary>
public sealed partial class Paper
{
    /// <summary>A QR code (ISO/IEC 18004, error correction M) with lines of words beside it.</summary>
    public void CodeBeside(string text, string alt, double side, IReadOnlyList<string> lines)
    {
        var (type, x) = (Type(PaperFace.Regular, Body), Left + side + Body * 0.7);
        var beside = lines.Select(line => type.Wrap(line, Right - x)).ToList();
        Need(Math.Max(side, beside.Sum(w => w.Count) * type.LineHeight));
        var (top, at) = (_y, new XRect(Left, _y, side, side));
        Figure(alt, at, () => DrawCode(_page, text, at));
        foreach (var wrapped in beside)
        {
            AsElement(PdfBlockLevelElementTag.Paragraph, () =>
            {
                foreach (var words in wrapped)
                {
                    Put(words, type, x, Right - x, Ink, XStringAlignment.Near);
                    _y += type.LineHeight;
                }
            });
        }

        _y = Math.Max(_y, top + side);
        Gap(4);
    }

    /// <summary>A QR code as runs of black, row by row, on a white ground; a hair of overlap keeps printers from showing seams.</summary>
    internal static void DrawCode(XGraphics page, string text, XRect at)
    {
        using var made = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.M);
        var rows = made.ModuleMatrix;
        var module = at.Width / rows.Count;
        page.DrawRectangle(XBrushes.White, at);
        for (var y = 0; y < rows.Count; y++)
            for (var x = 0; x < rows.Count; x++)
            {
                if (!rows[y][x]) continue;
                var from = x;
                while (x + 1 < rows.Count && rows[y][x + 1]) x++;
                page.DrawRectangle(XBrushes.Black, at.X + from * module, at.Y + y * module, (x - from + 1) * module, module * 1.01);
            }
    }
}
