using System.Globalization;
using MitigationOffice.Business.Data;
using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Legends;
using OxyPlot.Series;

namespace MitigationOffice.Business.Design.Report;

/// <summary>Static pressure over flow: each fan's curve, what the system needs, and where they meet.</summary>
public static class FanChart
{
    private static readonly OxyColor Ink = OxyColor.FromRgb(0x1d, 0x29, 0x33);
    private static readonly OxyColor Soft = OxyColor.FromRgb(0x5a, 0x66, 0x70);
    private static readonly OxyColor Rule = OxyColor.FromRgb(0xc8, 0xcd, 0xc8);
    private static readonly OxyColor Accent = OxyColor.FromRgb(0x1f, 0x5f, 0x6b);
    private static readonly LineStyle[] Dashes = [LineStyle.Solid, LineStyle.Dash, LineStyle.DashDot, LineStyle.Dot, LineStyle.LongDash];

    public static string Svg(DesignReport report, UnitSystem units)
    {
        using var stream = new MemoryStream();
        var exporter = new SvgExporter { Width = 860, Height = 430, UseVerticalTextAlignmentWorkaround = true };
        exporter.Export(Model(report, units), stream);
        return System.Text.Encoding.UTF8.GetString(stream.ToArray());
    }

    public static PlotModel Model(DesignReport report, UnitSystem units)
    {
        var model = new PlotModel { Background = OxyColors.White, TextColor = Ink, PlotAreaBorderColor = Ink, DefaultFont = "sans-serif", Culture = CultureInfo.InvariantCulture };
        model.Legends.Add(new Legend { LegendPosition = LegendPosition.RightTop, LegendPlacement = LegendPlacement.Outside, LegendFontSize = 12, LegendMaxWidth = 200 });
        model.Axes.Add(Axis(AxisPosition.Bottom, $"Flow, {Measures.Flow.UnitIn(units)}"));
        model.Axes.Add(Axis(AxisPosition.Left, $"Static pressure, {Measures.GaugePressure.UnitIn(units)}"));
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
        var line = new LineSeries { Title = "this route and ground", Color = Ink, StrokeThickness = 2 };
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
        Position = position, Title = title, Minimum = 0, MajorGridlineStyle = LineStyle.Solid, MajorGridlineColor = Rule, TicklineColor = Ink, FontSize = 12, TitleFontSize = 12,
    };
}
