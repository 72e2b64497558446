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

    /// <summary>The library measures text in points and writes it in pixels: it is told a larger size, and the page gets this one.</summary>
    private const double FontPx = 13;
    private const double ToldSize = FontPx * 96 / 72;

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
        model.Legends.Add(new Legend { LegendPosition = where, LegendPlacement = LegendPlacement.Inside, LegendFontSize = ToldSize, LegendBackground = Sheet, LegendBorder = Rule, LegendPadding = 10, LegendSymbolLength = 28 });
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
        FontSize = ToldSize,
        TitleFontSize = ToldSize,
        MinorTickSize = 0,
        AxisTitleDistance = 8,
    };

    public static DateTimeAxis Days() => new()
    {
        Position = AxisPosition.Bottom,
        StringFormat = "MMM d",
        IntervalType = DateTimeIntervalType.Months,
        MinorIntervalType = DateTimeIntervalType.Months,
        MajorGridlineStyle = LineStyle.Solid,
        MajorGridlineColor = Rule,
        TicklineColor = Ink,
        FontSize = ToldSize,
        MinorTickSize = 0,
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
        foreach (var (colour, role) in Roles) drawn = drawn.Replace(string.Create(CultureInfo.InvariantCulture, $"\"rgb({colour.R},{colour.G},{colour.B})\""), $"\"var(--{role})\"", StringComparison.Ordinal);
        drawn = drawn.Replace("clipPath", "clipPath" + id, StringComparison.Ordinal).Replace("<clipPath" + id, "<clipPath", StringComparison.Ordinal).Replace("</clipPath" + id, "</clipPath", StringComparison.Ordinal);
        return string.Create(CultureInfo.InvariantCulture, $"<svg class=\"chart {look}\" viewBox=\"0 0 {width} {height}\" role=\"img\" aria-labelledby=\"{id}-title {id}-words\" xmlns=\"http://www.w3.org/2000/svg\">")
            + $"<title id=\"{id}-title\">{WebUtility.HtmlEncode(title)}</title><desc id=\"{id}-words\">{WebUtility.HtmlEncode(words)}</desc>{drawn}";
    }

    private static string Export(PlotModel model, int width, int height)
    {
        using var stream = new MemoryStream();
        model.DefaultFontSize = ToldSize;
        new SvgExporter { Width = width, Height = height, UseVerticalTextAlignmentWorkaround = true }.Export(model, stream);
        return FontSize().Replace(Digits().Replace(Gaps().Replace(Encoding.UTF8.GetString(stream.ToArray()), "><"), "$1"), string.Create(CultureInfo.InvariantCulture, $"font-size=\"{FontPx}\""));
    }

    /// <summary>Style attributes as plain attributes: a strict content policy lets only those through.</summary>
    private static string Bare(string svg) => StyleAttribute().Replace(svg, style => string.Join(' ', style.Groups["rules"].Value
        .Split(';', StringSplitOptions.RemoveEmptyEntries).Select(rule => rule.Split(':', 2)).Where(pair => pair.Length == 2).Select(pair => $"{pair[0].Trim()}=\"{pair[1].Trim()}\"")));

    /// <summary>A tenth of a pixel is enough.</summary>
    [GeneratedRegex(@"(\d+\.\d)\d+", RegexOptions.CultureInvariant)]
    private static partial Regex Digits();

    [GeneratedRegex(@">\s+<", RegexOptions.CultureInvariant)]
    private static partial Regex Gaps();

    [GeneratedRegex("font-size=\"17[^\"]*\"", RegexOptions.CultureInvariant)]
    private static partial Regex FontSize();

    [GeneratedRegex("style=\"(?<rules>[^\"]*)\"", RegexOptions.CultureInvariant)]
    private static partial Regex StyleAttribute();
}
