using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Documents.Drawing;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace MitigationOffice.Business.Tests.Documents;

public sealed class SectionDrawingTests
{
    [Fact]
    public void Every_label_of_the_drawing_is_text_in_the_pdf_and_lies_in_its_area()
    {
        var picture = HouseSection.Draw(HouseSectionTests.Larch);
        var area = new XRect(40, 60, 500, 320);
        var page = Drawn(picture, area, out var heightPt);
        Assert.Equal(picture.Height * Math.Min(area.Width / picture.Width, area.Height / picture.Height), heightPt, 6);
        var words = page.GetWords().ToList();
        foreach (var label in picture.Shapes.OfType<Label>())
            foreach (var word in label.Text.Split(' '))
                Assert.Contains(words, w => w.Text == word);
        foreach (var word in words)
        {
            Assert.InRange(word.BoundingBox.Left, area.Left, area.Right);
            Assert.InRange(page.Height - word.BoundingBox.Top, area.Top - 1, area.Top + heightPt + 1);
        }
    }

    /// <summary>Read back by a second library: the printed words are never wider than the room the layout left for them.</summary>
    [Fact]
    public void The_printed_letters_fit_the_room_that_was_kept_clear_for_them()
    {
        var picture = HouseSection.Draw(HouseSectionTests.Larch);
        var page = Drawn(picture, new XRect(0, 0, picture.Width, picture.Height), out _);
        foreach (var label in picture.Shapes.OfType<Label>())
        {
            var printed = page.Letters.Where(l => label.Frame.Grown(3).Contains(new Spot(l.BoundingBox.Centroid.X, page.Height - l.BoundingBox.Centroid.Y))).ToList();
            Assert.Equal(label.Text.Replace(" ", "", StringComparison.Ordinal), string.Concat(printed.Select(l => l.Value)).Replace(" ", "", StringComparison.Ordinal));
        }
    }

    private static UglyToad.PdfPig.Content.Page Drawn(Picture picture, XRect area, out double heightPt)
    {
        _ = PaperFonts.Make(PaperFace.Regular, 10);
        using var document = new PdfDocument();
        var page = document.AddPage();
        (page.Width, page.Height) = (XUnit.FromPoint(picture.Width + 80), XUnit.FromPoint(picture.Height + 120));
        using (var graphics = XGraphics.FromPdfPage(page)) heightPt = SectionDrawing.DrawOn(graphics, area, picture, PaperFonts.Family);
        using var stream = new MemoryStream();
        document.Save(stream);
        return UglyToad.PdfPig.PdfDocument.Open(stream.ToArray()).GetPage(1);
    }
}
