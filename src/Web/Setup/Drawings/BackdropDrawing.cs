using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Html;
using MitigationOffice.Business.Houses;

namespace MitigationOffice.Web.Setup.Drawings;

/// <summary>The picture by itself, with rulers in its own units and the two points of its scale, as inline SVG.</summary>
public static class BackdropDrawing
{
    private const double Longest = 460;
    private const double Left = 34;
    private const double Top = 20;

    public static IHtmlContent Of(PlanBackdrop b, string? from, string? to)
    {
        var scale = Longest / Math.Max(b.WidthPx, b.HeightPx);
        var (width, height) = (b.WidthPx * scale, b.HeightPx * scale);
        var svg = new StringBuilder();
        Add($"<svg class=\"drawing plan backdrop-drawing\" id=\"backdrop\" viewBox=\"0 0 {N(width + Left + 1)} {N(height + Top + 6)}\" role=\"img\" aria-labelledby=\"backdrop-title\" data-x=\"{N(Left)}\" data-y=\"{N(Top)}\" data-scale=\"{scale:0.######}\">");
        Add($"<title id=\"backdrop-title\">The picture with rulers along its upper and left edge; first point at {Said(from)}, second point at {Said(to)}</title>");
        Add($"<image href=\"{PlanPicture.AddressOf(b)}\" x=\"{N(Left)}\" y=\"{N(Top)}\" width=\"{N(width)}\" height=\"{N(height)}\"/>");
        var step = new[] { 10, 20, 50, 100, 200, 500, 1000 }.First(s => Math.Max(b.WidthPx, b.HeightPx) / (double)s <= 9 || s == 1000);
        var ticks = new StringBuilder();
        for (var x = 0; x <= b.WidthPx; x += step)
        {
            ticks.Append(CultureInfo.InvariantCulture, $"M{N(Left + x * scale)} {N(Top)}v-4");
            Add($"<text class=\"axis\" x=\"{N(Left + x * scale)}\" y=\"{N(Top - 6)}\" text-anchor=\"{(x == 0 ? "start" : width - x * scale < 16 ? "end" : "middle")}\">{x}</text>");
        }

        for (var y = step; y <= b.HeightPx; y += step)
        {
            ticks.Append(CultureInfo.InvariantCulture, $"M{N(Left)} {N(Top + y * scale)}h-4");
            Add($"<text class=\"axis\" x=\"{N(Left - 5)}\" y=\"{N(Top + y * scale)}\" dy=\".35em\" text-anchor=\"end\">{y}</text>");
        }

        Add($"<path class=\"tick\" d=\"{ticks}\"/>");
        svg.Append(Point("first", from, scale)).Append(Point("second", to, scale));
        return new HtmlString(svg.Append("</svg>").ToString());

        void Add(FormattableString text) => svg.Append(text.ToString(CultureInfo.InvariantCulture));
    }

    /// <summary>What cannot be read is not drawn; the form refuses it beside its field.</summary>
    private static string Point(string name, string? typed, double scale)
    {
        var read = (typed ?? "").Split([',', ';', ' '], StringSplitOptions.RemoveEmptyEntries).Select(t => double.TryParse(t, NumberStyles.Float, CultureInfo.InvariantCulture, out var n) ? n : double.NaN).ToList();
        var at = read is [var x, var y] && double.IsFinite(x + y) ? string.Create(CultureInfo.InvariantCulture, $" transform=\"translate({N(Left + x * scale)} {N(Top + y * scale)})\"") : " visibility=\"hidden\"";
        return $"<g class=\"scale-point\" data-point=\"{name}\"{at}><path class=\"halo\" d=\"M-9 0H9M0-9V9\"/><path d=\"M-9 0H9M0-9V9\"/><text x=\"5\" y=\"-5\">{(name == "first" ? 1 : 2)}</text></g>";
    }

    private static string Said(string? typed) => System.Text.Encodings.Web.HtmlEncoder.Default.Encode(string.IsNullOrWhiteSpace(typed) ? "no place" : typed.Trim());

    private static string N(double value) => Math.Round(value, 2, MidpointRounding.AwayFromZero).ToString(CultureInfo.InvariantCulture);
}
