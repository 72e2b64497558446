using MitigationOffice.Business.Documents;
using MitigationOffice.Business.StateReports.Files;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace MitigationOffice.Benchmarks.Reports;

/// <summary>A list of cells by the PDF library alone: what no paper of ours can be faster than.</summary>
internal static class BarePdf
{
    private const int RowsASheet = 40;

    private static readonly string[] Shown = ["row_kind", "tag", "street", "city", "zip", "customer", "fan_activation_date", "completion_date", "system_type", "pre_test_pcil", "post_test_pcil", "cost"];

    internal static long Make(ReportTable table)
    {
        using var document = new PdfDocument();
        var (font, brush, pen) = (PaperFonts.Make(PaperFace.Regular, 8), new XSolidBrush(XColors.Black), new XPen(XColors.Gray, 0.5));
        var fields = table.Profile.Fields.Where(f => Shown.Contains(f.From)).ToList();
        foreach (var rows in table.Rows.Chunk(RowsASheet))
        {
            var page = document.AddPage();
            (page.Width, page.Height) = (XUnit.FromPoint(792), XUnit.FromPoint(612));
            using var sheet = XGraphics.FromPdfPage(page);
            for (var r = 0; r < rows.Length; r++)
            {
                var y = 40 + 12 * r;
                sheet.DrawLine(pen, 40, y + 2, 750, y + 2);
                for (var i = 0; i < fields.Count; i++) sheet.DrawString(table.Cell(fields[i], rows[r]), font, brush, 40 + 55 * i, y);
            }
        }

        using var stream = new MemoryStream();
        document.Save(stream, closeStream: false);
        return stream.Length;
    }
}
