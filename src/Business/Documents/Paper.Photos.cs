using PdfSharp.Drawing;

namespace MitigationOffice.Business.Documents;

/// <summary>Photos with what they show, two beside each other.</summary>
public sealed partial class Paper
{
    private const double PhotoHeight = 165, PhotoGap = 14;

    /// <summary>A heading and its photos; the heading is not left alone at the foot of a sheet.</summary>
    public void Photos(string heading, IReadOnlyList<(byte[] Bytes, string Caption)> photos)
    {
        if (photos.Count == 0) return;
        var pairs = photos.Chunk(2).Select(pair => pair.Select(PhotoPart).ToList()).ToList();
        Need(HeightOf(pairs[0]) + 40);
        Heading(heading);
        foreach (var pair in pairs)
        {
            Need(HeightOf(pair));
            var (top, beside) = (_y, pair.Max(p => p.Height));
            for (var i = 0; i < pair.Count; i++) DrawPhoto(pair[i], Left + i * (PhotoWidth + PhotoGap), top, top + beside + 3);
            _y = top + HeightOf(pair);
        }
    }

    private sealed record PhotoOnPaper(byte[] Bytes, string Caption, double Width, double Height, List<string> Lines);

    private double PhotoWidth => (TextWidth - PhotoGap) / 2;

    private PaperType PhotoWords => Type(PaperFace.Regular, Body * 0.88);

    private double HeightOf(List<PhotoOnPaper> pair) => pair.Max(p => p.Height) + pair.Max(p => p.Lines.Count) * PhotoWords.LineHeight + 12;

    private PhotoOnPaper PhotoPart((byte[] Bytes, string Caption) photo)
    {
        using var stream = new MemoryStream(photo.Bytes);
        using var image = XImage.FromStream(stream);
        var scale = Math.Min(PhotoWidth / image.PixelWidth, PhotoHeight / image.PixelHeight);
        return new(photo.Bytes, photo.Caption, image.PixelWidth * scale, image.PixelHeight * scale, PhotoWords.Wrap(photo.Caption, PhotoWidth));
    }

    private void DrawPhoto(PhotoOnPaper photo, double x, double top, double wordsTop)
    {
        using var stream = new MemoryStream(photo.Bytes);
        using var image = XImage.FromStream(stream);
        var at = new XRect(x, top, photo.Width, photo.Height);
        Figure(photo.Caption.Length > 0 ? photo.Caption : "Photo", at, () => _page.DrawImage(image, at));
        AsElement(PdfSharp.UniversalAccessibility.PdfBlockLevelElementTag.Paragraph, () =>
        {
            for (var i = 0; i < photo.Lines.Count; i++) PutAt(photo.Lines[i], PhotoWords, x, wordsTop + i * PhotoWords.LineHeight, PhotoWidth, Ink, XStringAlignment.Near);
        });
    }
}
