using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Html;
using MitigationOffice.Business.Houses;

namespace MitigationOffice.Web.Setup.Drawings;

/// <summary>The picture by itself, with rulers in its own units and the two points of its scale, as inline SVG.</summary>
public static class BackdropDrawing
{
    public static IHtmlContent Of(PlanBackdrop b, string? from, string? to)
    {
        // All sizes in the picture's units, so that the drawing looks alike for a large picture and a small one.
        var unit = Math.Max(b.WidthPx, b.HeightPx) / 460.0;
        var (left, top) = (30 * unit, 16 * unit);
        var svg = new StringBuilder();
        Add($"<svg class=\"drawing plan backdrop-drawing\" id=\"backdrop\" viewBox=\"0 0 {N(b.WidthPx + left + unit)} {N(b.HeightPx + top + unit)}\" role=\"img\" aria-labelledby=\"backdrop-title\" data-x=\"{N(left)}\" data-y=\"{N(top)}\" data-unit=\"{unit:0.###}\">");
        Add($"<title id=\"backdrop-title\">The picture with rulers along its upper and left edge; first point at {Said(from)}, second point at {Said(to)}</title>");
        Add($"<image href=\"{PlanPicture.AddressOf(b)}\" x=\"{N(left)}\" y=\"{N(top)}\" width=\"{b.WidthPx}\" height=\"{b.HeightPx}\"/>");
        var step = new[] { 10, 20, 50, 100, 200, 500, 1000 }.First(s => Math.Max(b.WidthPx, b.HeightPx) / (double)s <= 16 || s == 1000);
        var ticks = new StringBuilder();
        for (var x = 0; x <= b.WidthPx; x += step)
        {
            ticks.Append(CultureInfo.InvariantCulture, $"M{N(left + x)} {N(top)}v{N(-4 * unit)}");
            Add($"<text class=\"axis\" x=\"{N(left + x)}\" y=\"{N(top - 6 * unit)}\" font-size=\"{N(8 * unit)}\" text-anchor=\"{(x == 0 ? "start" : "middle")}\">{x}</text>");
        }

        for (var y = 0; y <= b.HeightPx; y += step)
        {
            ticks.Append(CultureInfo.InvariantCulture, $"M{N(left)} {N(top + y)}h{N(-4 * unit)}");
            Add($"<text class=\"axis\" x=\"{N(left - 6 * unit)}\" y=\"{N(top + y)}\" dy=\".35em\" font-size=\"{N(8 * unit)}\" text-anchor=\"end\">{y}</text>");
        }

        Add($"<path class=\"tick\" stroke-width=\"{N(unit)}\" d=\"{ticks}\"/>");
        svg.Append(Point("first", from, left, top, unit)).Append(Point("second", to, left, top, unit));
        return new HtmlString(svg.Append("</svg>").ToString());

        void Add(FormattableString text) => svg.Append(text.ToString(CultureInfo.InvariantCulture));
    }

    /// <summary>What cannot be read is not drawn; the form refuses it beside its field.</summary>
    private static string Point(string name, string? typed, double left, double top, double unit)
    {
        var read = (typed ?? "").Split([',', ';', ' '], StringSplitOptions.RemoveEmptyEntries).Select(t => double.TryParse(t, NumberStyles.Float, CultureInfo.InvariantCulture, out var n) ? n : double.NaN).ToList();
        var at = read is [var x, var y] && double.IsFinite(x + y) ? string.Create(CultureInfo.InvariantCulture, $" transform=\"translate({N(left + x)} {N(top + y)})\"") : " visibility=\"hidden\"";
        var arm = N(9 * unit);
        return string.Create(CultureInfo.InvariantCulture, $"<g class=\"scale-point\" data-point=\"{name}\"{at}><path class=\"halo\" stroke-width=\"{N(4 * unit)}\" d=\"M-{arm} 0H{arm}M0-{arm}V{arm}\"/><path stroke-width=\"{N(1.6 * unit)}\" d=\"M-{arm} 0H{arm}M0-{arm}V{arm}\"/><text x=\"{N(5 * unit)}\" y=\"{N(-5 * unit)}\" font-size=\"{N(12 * unit)}\">{(name == "first" ? 1 : 2)}</text></g>");
    }

    private static string Said(string? typed) => System.Text.Encodings.Web.HtmlEncoder.Default.Encode(string.IsNullOrWhiteSpace(typed) ? "no place" : typed.Trim());

    private static string N(double value) => Math.Round(value, 2, MidpointRounding.AwayFromZero).ToString(CultureInfo.InvariantCulture);
}
