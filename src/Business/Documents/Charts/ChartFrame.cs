using System.Globalization;
using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Legends;
using OxyPlot.Series;

namespace MitigationOffice.Business.Documents.Charts;

/// <summary>The look all charts share: the roles of the builder's drawing, plain axes, and SVG without style attributes.</summary>
public static partial class ChartFrame
{
    public static readonly OxyColor Ink = OxyColor.FromRgb(0x1d, 0x29, 0x33);
    public static readonly OxyColor Soft = OxyColor.FromRgb(0x5a, 0x66, 0x70);
    public static readonly OxyColor Rule = OxyColor.FromRgb(0xc8, 0xcd, 0xc8);
    public static readonly OxyColor Accent = OxyColor.FromRgb(0x1f, 0x5f, 0x6b);
    public static readonly OxyColor Caution = OxyColor.FromRgb(0x8a, 0x4b, 0x00);
    public static readonly OxyColor Sheet = OxyColor.FromRgb(0xfe, 0xff, 0xfe);

    private static readonly (OxyColor Colour, string Role)[] Roles = [(Ink, "ink"), (Soft, "soft"), (Rule, "rule"), (Accent, "accent"), (Caution, "caution"), (Sheet, "sheet")];

    public static PlotModel Blank(string across, string up)
    {
        var model = new PlotModel { Background = OxyColors.Undefined, TextColor = Ink, PlotAreaBorderColor = Ink, DefaultFont = "Arial", Culture = CultureInfo.InvariantCulture };
        model.Axes.Add(Axis(AxisPosition.Bottom, across));
        model.Axes.Add(Axis(AxisPosition.Left, up));
        return model;
    }

    public static PlotModel WithLegend(this PlotModel model, LegendPosition where = LegendPosition.RightTop)
    {
        model.Legends.Add(new Legend { LegendPosition = where, LegendPlacement = LegendPlacement.Inside, LegendFontSize = 13, LegendBackground = Sheet, LegendBorder = Rule, LegendPadding = 10, LegendSymbolLength = 28 });
        return model;
    }

    public static LineSeries Line(string title, OxyColor colour, double thickness, LineStyle style, IEnumerable<DataPoint> points)
    {
        var line = new LineSeries { Title = title, Color = colour, StrokeThickness = thickness, LineStyle = style };
        line.Points.AddRange(points);
        return line;
    }

    public static LinearAxis Axis(AxisPosition position, string title) => new()
    {
        Position = position,
        Title = title,
        MajorGridlineStyle = LineStyle.Solid,
        MajorGridlineColor = Rule,
        TicklineColor = Ink,
        FontSize = 13,
        TitleFontSize = 13,
    };

    /// <summary>An image of its own, black on white.</summary>
    public static string Alone(PlotModel model, int width = 720, int height = 400)
    {
        model.Background = OxyColors.White;
        return Bare(Export(model, width, height));
    }

    /// <summary>The chart for a page, twice: wide and narrow; the style sheet shows the one that fits, and its colours follow the
    /// page's light or dark set.</summary>
    public static string Inline(Func<PlotModel> model, string id, string title, string words) =>
        Inline(model(), id, title, words, 720, 400, "wide-drawing") + Inline(model(), id + "-narrow", title, words, 360, 340, "narrow-drawing");

    private static string Inline(PlotModel model, string id, string title, string words, int width, int height, string look)
    {
        var bare = Bare(Export(model, width, height));
        var drawn = bare[bare.IndexOf('>', bare.IndexOf("<svg", StringComparison.Ordinal))..][1..];
        foreach (var (colour, role) in Roles) drawn = drawn.Replace($"\"#{colour.R:x2}{colour.G:x2}{colour.B:x2}\"", $"\"var(--{role})\"", StringComparison.OrdinalIgnoreCase);
        drawn = drawn.Replace("clipPath", "clipPath" + id, StringComparison.Ordinal).Replace("<clipPath" + id, "<clipPath", StringComparison.Ordinal).Replace("</clipPath" + id, "</clipPath", StringComparison.Ordinal);
        return string.Create(CultureInfo.InvariantCulture, $"<svg class=\"chart {look}\" viewBox=\"0 0 {width} {height}\" role=\"img\" aria-labelledby=\"{id}-title {id}-words\" xmlns=\"http://www.w3.org/2000/svg\">")
            + $"<title id=\"{id}-title\">{WebUtility.HtmlEncode(title)}</title><desc id=\"{id}-words\">{WebUtility.HtmlEncode(words)}</desc>{drawn}";
    }

    private static string Export(PlotModel model, int width, int height)
    {
        using var stream = new MemoryStream();
        new SvgExporter { Width = width, Height = height, UseVerticalTextAlignmentWorkaround = true }.Export(model, stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    /// <summary>Style attributes as plain attributes: a strict content policy lets only those through.</summary>
    private static string Bare(string svg) => StyleAttribute().Replace(svg, style => string.Join(' ', style.Groups["rules"].Value
        .Split(';', StringSplitOptions.RemoveEmptyEntries).Select(rule => rule.Split(':', 2)).Where(pair => pair.Length == 2).Select(pair => $"{pair[0].Trim()}=\"{pair[1].Trim()}\"")));

    [GeneratedRegex("style=\"(?<rules>[^\"]*)\"", RegexOptions.CultureInvariant)]
    private static partial Regex StyleAttribute();
}
