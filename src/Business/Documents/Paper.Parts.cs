using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace MitigationOffice.Business.Documents;

/// <summary>The parts a paper is made of.</summary>
public sealed partial class Paper
{
    private double Body => _head.TextSize;

    public void Title(string words) => Head(PdfBlockLevelElementTag.Heading1, words, Type(PaperFace.Strong, Body * 1.75), 4);

    public void Heading(string words)
    {
        Gap(12);
        Need(60);
        Head(PdfBlockLevelElementTag.Heading2, words, Type(PaperFace.Strong, Body * 1.2), 3);
    }

    public void SubHeading(string words)
    {
        Gap(6);
        Need(44);
        Head(PdfBlockLevelElementTag.Heading3, words, Type(PaperFace.Strong, Body), 1);
    }

    /// <summary>Text that flows over sheets; its line ends are kept.</summary>
    public void Text(string? words, PaperFace face = PaperFace.Regular, bool small = false, bool soft = false)
    {
        if (string.IsNullOrWhiteSpace(words)) return;
        var type = Type(face, small ? Body * 0.88 : Body);
        Flow(PdfBlockLevelElementTag.Paragraph, type.Wrap(words, TextWidth), type, Left, soft ? Soft : Ink);
        Gap(4);
    }

    public void Bullets(IEnumerable<string> points)
    {
        var type = Type(PaperFace.Regular, Body);
        _tags.BeginElement(PdfBlockLevelElementTag.List);
        foreach (var point in points)
        {
            var lines = type.Wrap(point, TextWidth - 14);
            Need(Math.Min(lines.Count, 2) * type.LineHeight);
            _tags.BeginElement(PdfBlockLevelElementTag.ListItem);
            AsElement(PdfBlockLevelElementTag.Label, () => Put("•", type, Left + 2, TextWidth, Ink, XStringAlignment.Near));
            Flow(PdfBlockLevelElementTag.ListBody, lines, type, Left + 14, Ink);
            _tags.End();
            Gap(2);
        }

        _tags.End();
        Gap(3);
    }

    /// <summary>A caution: a band with a thick edge, its heading first.</summary>
    public void Caution(string heading, string words) => Banded(heading, words, Warning, WarningBand);

    /// <summary>Something to note that is not a caution.</summary>
    public void Note(string heading, string words) => Banded(heading, words, Accent, Band);

    public void Rule()
    {
        Gap(3);
        AsArtifact(() => _page.DrawLine(new XPen(Line, 0.8), Left, _y, Right, _y));
        Gap(5);
    }

    /// <summary>A box, ticked or not, with words, a smaller line below and an amount at the right.</summary>
    public void TickLine(bool ticked, string words, string small = "", string amount = "")
    {
        var (type, strong, note) = (Type(PaperFace.Regular, Body), Type(PaperFace.Strong, Body), Type(PaperFace.Regular, Body * 0.88));
        var room = TextWidth - 20 - (amount.Length == 0 ? 0 : strong.Width(amount) + 12);
        var lines = type.Wrap(words, room);
        Need(Math.Min(lines.Count, 3) * type.LineHeight + (small.Length == 0 ? 0 : note.LineHeight));
        var box = new XRect(Left + 1, _y + 2, Body * 0.95, Body * 0.95);
        Figure(ticked ? "Chosen" : "Not chosen", box, () => DrawTick(box, ticked));
        if (amount.Length > 0) AsElement(PdfBlockLevelElementTag.Paragraph, () => Put(amount, strong, Left, TextWidth, Ink, XStringAlignment.Far));
        Flow(PdfBlockLevelElementTag.Paragraph, lines, type, Left + 20, Ink);
        if (small.Length > 0) Flow(PdfBlockLevelElementTag.Paragraph, note.Wrap(small, TextWidth - 20), note, Left + 20, Soft);
        Gap(4);
    }

    /// <summary>Pairs of a label and its words, as a two-column list.</summary>
    public void Facts(IEnumerable<(string Label, string Words)> facts, double labelWidth = 130)
    {
        var (soft, type) = (Type(PaperFace.Regular, Body), Type(PaperFace.Regular, Body));
        foreach (var (label, words) in facts)
        {
            var lines = type.Wrap(words.Length == 0 ? "–" : words, TextWidth - labelWidth);
            Need(Math.Min(lines.Count, 2) * type.LineHeight);
            var labels = soft.Wrap(label, labelWidth - 8);
            var (sheet, top) = (Sheet, _y);
            AsElement(PdfBlockLevelElementTag.Paragraph, () =>
            {
                for (var i = 0; i < labels.Count; i++) PutAt(labels[i], soft, Left, top + i * soft.LineHeight, labelWidth, Soft, XStringAlignment.Near);
            });
            Flow(PdfBlockLevelElementTag.Paragraph, lines, type, Left + labelWidth, Ink);
            if (sheet == Sheet) _y = Math.Max(_y, top + labels.Count * soft.LineHeight);
            Gap(2);
        }

        Gap(5);
    }

    /// <summary>A line to sign or write on, its label below.</summary>
    public void SignLine(string label, double width = 240)
    {
        Need(50);
        _y += 30;
        AsArtifact(() => _page.DrawLine(new XPen(Ink, 0.8), Left, _y, Left + width, _y));
        _y += 2;
        Text(label, small: true, soft: true);
    }

    /// <summary>A PNG picture across the text, no higher than said.</summary>
    public void Picture(byte[] png, string alt, double height, double? width = null)
    {
        using var stream = new MemoryStream(png);
        using var image = XImage.FromStream(stream);
        var scale = Math.Min((width ?? TextWidth) / image.PointWidth, height / image.PointHeight);
        Drawing(alt, image.PointHeight * scale, (g, at) => g.DrawImage(image, at.X, at.Y, image.PointWidth * scale, image.PointHeight * scale));
    }

    /// <summary>Room for a drawing, which the given act fills.</summary>
    public void Drawing(string alt, double height, Action<XGraphics, XRect> draw)
    {
        Need(height);
        var at = new XRect(Left, _y, TextWidth, height);
        Figure(alt, at, () => draw(_page, at));
        _y += height;
        Gap(6);
    }

    private void Head(PdfBlockLevelElementTag tag, string words, PaperType type, double after)
    {
        Flow(tag, type.Wrap(words, TextWidth), type, Left, Ink);
        Gap(after);
    }

    private void Banded(string heading, string words, XColor edge, XColor band)
    {
        if (string.IsNullOrWhiteSpace(words)) return;
        Gap(4);
        var (strong, type) = (Type(PaperFace.Strong, Body), Type(PaperFace.Regular, Body));
        var lines = strong.Wrap(heading, TextWidth - 24).Select(l => (Words: l, Type: strong))
            .Concat(type.Wrap(words, TextWidth - 24).Select(l => (Words: l, Type: type))).ToList();
        for (var from = 0; from < lines.Count;)
        {
            Need(Math.Min(3, lines.Count - from) * type.LineHeight + 10);
            var count = Math.Clamp((int)((Bottom - _y - 10) / type.LineHeight), 1, lines.Count - from);
            var (part, height) = (lines.GetRange(from, count), count * type.LineHeight + 10);
            AsArtifact(() =>
            {
                _page.DrawRectangle(new XSolidBrush(band), Left, _y, TextWidth, height);
                _page.DrawRectangle(new XSolidBrush(edge), Left, _y, 3, height);
            });
            _y += 4;
            AsElement(PdfBlockLevelElementTag.Paragraph, () => part.ForEach(l =>
            {
                Put(l.Words, l.Type, Left + 12, TextWidth - 24, Ink, XStringAlignment.Near);
                _y += type.LineHeight;
            }));
            _y += 6;
            from += count;
            if (from < lines.Count) NewSheet();
        }

        Gap(4);
    }

    /// <summary>Lines downwards, going on at the next sheet where this one ends.</summary>
    private void Flow(PdfBlockLevelElementTag tag, List<string> lines, PaperType type, double x, XColor color)
    {
        for (var from = 0; from < lines.Count;)
        {
            Need(Math.Min(2, lines.Count - from) * type.LineHeight);
            var count = Math.Clamp((int)((Bottom - _y) / type.LineHeight), 1, lines.Count - from);
            AsElement(tag, () =>
            {
                foreach (var line in lines.GetRange(from, count))
                {
                    Put(line, type, x, TextWidth, color, XStringAlignment.Near);
                    _y += type.LineHeight;
                }
            });
            from += count;
            if (from < lines.Count) NewSheet();
        }
    }

    private void Put(string words, PaperType type, double x, double width, XColor color, XStringAlignment side) =>
        PutAt(words, type, x, _y, width, color, side);

    private void PutAt(string words, PaperType type, double x, double top, double width, XColor color, XStringAlignment side)
    {
        if (words.Length == 0) return;
        var at = side == XStringAlignment.Far ? x + width - type.Width(words) : x;
        _page.DrawString(words, type.Font, new XSolidBrush(color), at, top + type.Ascent);
    }

    private void Figure(string alt, XRect at, Action draw)
    {
        var fromBelow = new XRect(at.X, _head.Size.Height - at.Bottom, at.Width, at.Height);
        _tags.BeginElement(PdfIllustrationElementTag.Figure, alt, fromBelow);
        draw();
        _tags.End();
    }

    private void DrawTick(XRect box, bool ticked)
    {
        _page.DrawRectangle(new XPen(Ink, 0.9), box);
        if (!ticked) return;
        var pen = new XPen(Ink, 1.5);
        _page.DrawLine(pen, box.X + 2, box.Y + box.Height * 0.55, box.X + box.Width * 0.42, box.Bottom - 2);
        _page.DrawLine(pen, box.X + box.Width * 0.42, box.Bottom - 2, box.Right - 1.5, box.Y + 2);
    }
}
