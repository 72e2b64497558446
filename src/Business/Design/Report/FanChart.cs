using System.Globalization;
using System.Text.RegularExpressions;
using MitigationOffice.Business.Data;
using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Legends;
using OxyPlot.Series;

namespace MitigationOffice.Business.Design.Report;

/// <summary>Static pressure over flow: each fan's curve, what the system needs, and where they meet.</summary>
public static partial class FanChart
{
    private static readonly OxyColor Ink = OxyColor.FromRgb(0x1d, 0x29, 0x33);
    private static readonly OxyColor Soft = OxyColor.FromRgb(0x5a, 0x66, 0x70);
    private static readonly OxyColor Rule = OxyColor.FromRgb(0xc8, 0xcd, 0xc8);
    private static readonly OxyColor Accent = OxyColor.FromRgb(0x1f, 0x5f, 0x6b);
    private static readonly LineStyle[] Dashes = [LineStyle.Solid, LineStyle.Dash, LineStyle.DashDot, LineStyle.Dot, LineStyle.LongDash];

    public static string Svg(DesignReport report, UnitSystem units)
    {
        using var stream = new MemoryStream();
        var exporter = new SvgExporter { Width = 720, Height = 400, UseVerticalTextAlignmentWorkaround = true };
        exporter.Export(Model(report, units), stream);
        return Bare(System.Text.Encoding.UTF8.GetString(stream.ToArray()));
    }

    /// <summary>Style attributes as plain attributes: a strict content policy lets only those through when the image is opened by itself.</summary>
    private static string Bare(string svg) => StyleAttribute().Replace(svg, style => string.Join(' ', style.Groups["rules"].Value
        .Split(';', StringSplitOptions.RemoveEmptyEntries).Select(rule => rule.Split(':', 2)).Where(pair => pair.Length == 2).Select(pair => $"{pair[0].Trim()}=\"{pair[1].Trim()}\"")));

    [GeneratedRegex("style=\"(?<rules>[^\"]*)\"", RegexOptions.CultureInvariant)]
    private static partial Regex StyleAttribute();

    public static PlotModel Model(DesignReport report, UnitSystem units)
    {
        var model = new PlotModel { Background = OxyColors.White, TextColor = Ink, PlotAreaBorderColor = Ink, DefaultFont = "Arial", Culture = CultureInfo.InvariantCulture };
        model.Legends.Add(new Legend { LegendPosition = LegendPosition.RightTop, LegendPlacement = LegendPlacement.Outside, LegendFontSize = 13, LegendMaxWidth = 200 });
        model.Axes.Add(Axis(AxisPosition.Bottom, $"Flow, {Measures.Flow.UnitIn(units)}"));
        var pressure = Axis(AxisPosition.Left, $"Static pressure, {Measures.GaugePressure.UnitIn(units)}");
        if (report.Fans.SelectMany(f => f.Curve).Select(p => p.PressurePa).DefaultIfEmpty().Max() is > 0 and var top) pressure.Maximum = Measures.GaugePressure.In(top * 1.1, units);
        model.Axes.Add(pressure);
        var nth = 0;
        foreach (var fan in report.Fans.Where(f => f.Curve.Count > 1)) model.Series.Add(Curve(fan, report, units, Dashes[nth++ % Dashes.Length]));
        model.Series.Add(Needed(report, units));
        foreach (var fan in report.Fans.Where(f => f.OnCurve)) model.Series.Add(Point(fan, report, units));
        return model;
    }

    private static LineSeries Curve(FanResult fan, DesignReport report, UnitSystem units, LineStyle dash)
    {
        var line = new LineSeries { Title = fan.Model, Color = fan.Model == report.ShownFan ? Accent : Soft, StrokeThickness = fan.Model == report.ShownFan ? 3 : 1.5, LineStyle = fan.Model == report.ShownFan ? LineStyle.Solid : dash };
        line.Points.AddRange(fan.Curve.Select(p => At(p.FlowM3PerS, p.PressurePa, units)));
        return line;
    }

    private static LineSeries Needed(DesignReport report, UnitSystem units)
    {
        var line = new LineSeries { Title = "needed here", Color = Ink, StrokeThickness = 2 };
        line.Points.AddRange(report.SystemCurve.Select(p => At(p.FlowM3PerS, p.PressurePa, units)));
        return line;
    }

    private static ScatterSeries Point(FanResult fan, DesignReport report, UnitSystem units)
    {
        var at = At(fan.FlowM3PerS, fan.FanPressurePa, units);
        var point = new ScatterSeries { MarkerType = MarkerType.Circle, MarkerSize = fan.Model == report.ShownFan ? 6 : 4, MarkerFill = OxyColors.White, MarkerStroke = fan.Model == report.ShownFan ? Accent : Ink, MarkerStrokeThickness = 2 };
        point.Points.Add(new ScatterPoint(at.X, at.Y));
        return point;
    }

    private static DataPoint At(double flow, double pa, UnitSystem units) => new(Measures.Flow.In(flow, units), Measures.GaugePressure.In(pa, units));

    private static LinearAxis Axis(AxisPosition position, string title) => new()
    {
        Position = position, Title = title, Minimum = 0, MajorGridlineStyle = LineStyle.Solid, MajorGridlineColor = Rule, TicklineColor = Ink, FontSize = 13, TitleFontSize = 13,
    };
}
