using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Html;
using MitigationOffice.Business.Documents.Drawing;

namespace MitigationOffice.Web.Setup.Drawings;

/// <summary>A picture as inline SVG: looks come from the style sheet, words from its title and description.</summary>
public static class SvgDrawing
{
    /// <summary>The same house twice, wide and narrow; the style sheet shows the one that fits. Both tell the same in words,
    /// so only the wide one is told to those who listen, unless it is hidden.</summary>
    public static IHtmlContent Both(HouseFacts facts, string id) => new HtmlContentBuilder()
        .AppendHtml(Of(HouseSection.Draw(facts), id, "wide-drawing"))
        .AppendHtml(Of(HouseSection.Draw(facts, narrow: true), id + "-narrow", "narrow-drawing"));

    public static IHtmlContent Of(Picture picture, string id, string extraClass = "")
    {
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture,
            $"<svg class=\"drawing {extraClass}\" viewBox=\"0 0 {N(picture.Width)} {N(picture.Height)}\" role=\"img\" aria-labelledby=\"{id}-title {id}-words\" xmlns=\"http://www.w3.org/2000/svg\">");
        svg.Append(CultureInfo.InvariantCulture, $"<title id=\"{id}-title\">{Encode(picture.Title)}</title><desc id=\"{id}-words\">{Encode(picture.Description)}</desc>");
        foreach (var shape in picture.Shapes) Append(svg, shape);
        return new HtmlString(svg.Append("</svg>").ToString());
    }

    private static void Append(StringBuilder svg, Shape shape)
    {
        switch (shape)
        {
            case Strokes strokes:
                svg.Append(CultureInfo.InvariantCulture, $"<path class=\"{Class(strokes.Stroke)}\" d=\"{string.Concat(strokes.Lines.Select(l => $"M{N(l.From.X)} {N(l.From.Y)}L{N(l.To.X)} {N(l.To.Y)}"))}\"/>");
                break;
            case Trace trace:
                svg.Append(CultureInfo.InvariantCulture, $"<path class=\"{Class(trace)}\" stroke-width=\"{N(StrokeWidths.Of(trace.Stroke))}\" stroke-linejoin=\"round\" d=\"M{string.Join('L', trace.Corners.Select(c => $"{N(c.X)} {N(c.Y)}"))}{(trace.Closed ? "Z" : "")}\"/>");
                break;
            case Ring ring:
                svg.Append(CultureInfo.InvariantCulture, $"<circle class=\"{(ring.Filled ? Solid(ring.Of) : Class(ring.Stroke))}\" cx=\"{N(ring.Centre.X)}\" cy=\"{N(ring.Centre.Y)}\" r=\"{N(ring.Radius)}\"/>");
                break;
            case Label label:
                svg.Append(CultureInfo.InvariantCulture, $"<text class=\"{Class(label.Tone)}\" x=\"{N(label.At.X)}\" y=\"{N(label.At.Y)}\" text-anchor=\"{label.Anchor.ToString().ToLowerInvariant()}\">{Encode(label.Text)}</text>");
                break;
        }
    }

    private static string Class(Trace trace) => trace.Filled ? Solid(trace.Of) : Class(trace.Stroke);

    private static string Solid(string of) => of == "pipe" ? "solid" : "solid plain-solid";

    private static string Class(Stroke stroke) => stroke switch
    {
        Stroke.Pipe => "pipe",
        Stroke.Measure => "soft-line",
        Stroke.Hatch => "hatch",
        Stroke.Warn => "warn",
        _ => "ink",
    };

    private static string Class(Tone tone) => tone switch { Tone.Soft => "soft-text", Tone.Warn => "warn-text", _ => "" };

    private static string N(double value) => Math.Round(value, 1, MidpointRounding.AwayFromZero).ToString(CultureInfo.InvariantCulture);

    private static string Encode(string text) => HtmlEncoder.Default.Encode(text);
}
