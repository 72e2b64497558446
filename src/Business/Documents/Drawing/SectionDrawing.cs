using PdfSharp.Drawing;

namespace MitigationOffice.Business.Documents.Drawing;

/// <summary>Draws a picture on a page of a PDF, in black and white with one accent.</summary>
public static class SectionDrawing
{
    private static readonly XColor Ink = XColor.FromArgb(0x1d, 0x29, 0x33);
    private static readonly XColor Soft = XColor.FromArgb(0x5a, 0x66, 0x70);
    private static readonly XColor Accent = XColor.FromArgb(0x1f, 0x5f, 0x6b);
    private static readonly XColor Caution = XColor.FromArgb(0x8a, 0x4b, 0x00);
    private static readonly XColor Hatch = XColor.FromArgb(0xc4, 0xca, 0xc1);

    /// <summary>Fits the picture into the area, keeping its proportions, centred across. Returns the height used, in points.</summary>
    /// <param name="fontFamily">A family the document's font resolver knows.</param>
    public static double DrawOn(XGraphics graphics, XRect area, Picture picture, string fontFamily)
    {
        var scale = Math.Min(area.Width / picture.Width, area.Height / picture.Height);
        var state = graphics.Save();
        graphics.TranslateTransform(area.X + (area.Width - picture.Width * scale) / 2, area.Y);
        graphics.ScaleTransform(scale);
        foreach (var shape in picture.Shapes) Draw(graphics, shape, fontFamily);
        graphics.Restore(state);
        return picture.Height * scale;
    }

    private static void Draw(XGraphics graphics, Shape shape, string fontFamily)
    {
        switch (shape)
        {
            case Strokes strokes:
                foreach (var (from, to) in strokes.Lines) graphics.DrawLine(Pen(strokes.Stroke), from.X, from.Y, to.X, to.Y);
                break;
            case Trace { Closed: true } figure:
                graphics.DrawPolygon(Pen(figure), figure.Filled ? XBrushes.White : XBrushes.Transparent, Points(figure), XFillMode.Winding);
                break;
            case Trace trace:
                graphics.DrawLines(Pen(trace), Points(trace));
                break;
            case Ring ring:
                graphics.DrawEllipse(Pen(ring.Stroke, ring.Of), ring.Filled ? XBrushes.White : XBrushes.Transparent,
                    ring.Centre.X - ring.Radius, ring.Centre.Y - ring.Radius, 2 * ring.Radius, 2 * ring.Radius);
                break;
            case Label label:
                graphics.DrawString(label.Text, new XFont(fontFamily, label.Size), new XSolidBrush(Colour(label.Tone)), new XPoint(label.At.X, label.At.Y), Format(label.Anchor));
                break;
        }
    }

    private static XPoint[] Points(Trace trace) => [.. trace.Corners.Select(c => new XPoint(c.X, c.Y))];

    private static XPen Pen(Trace trace) => Pen(trace.Stroke, trace.Of);

    private static XPen Pen(Stroke stroke, string of = "") => new(stroke switch
    {
        Stroke.Pipe => Accent,
        Stroke.Measure => Soft,
        Stroke.Hatch => Hatch,
        Stroke.Warn => Caution,
        _ when of == "pipe" => Accent,
        _ => Ink,
    }, StrokeWidths.Of(stroke))
    { LineJoin = XLineJoin.Round };

    private static XColor Colour(Tone tone) => tone switch { Tone.Soft => Soft, Tone.Warn => Caution, _ => Ink };

    private static XStringFormat Format(Anchor anchor) => new()
    {
        LineAlignment = XLineAlignment.BaseLine,
        Alignment = anchor switch { Anchor.Start => XStringAlignment.Near, Anchor.End => XStringAlignment.Far, _ => XStringAlignment.Center },
    };
}
