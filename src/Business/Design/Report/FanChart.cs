using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents.Charts;
using OxyPlot;
using OxyPlot.Series;

namespace MitigationOffice.Business.Design.Report;

/// <summary>Static pressure over flow: each fan's curve, what the system needs, and where they meet.</summary>
public static class FanChart
{
    private static readonly LineStyle[] Dashes = [LineStyle.Solid, LineStyle.Dash, LineStyle.DashDot, LineStyle.Dot, LineStyle.LongDash];

    public static string Svg(DesignReport report, UnitSystem units) => ChartFrame.Alone(Model(report, units));

    public static PlotModel Model(DesignReport report, UnitSystem units)
    {
        var model = ChartFrame.Blank($"Flow, {Measures.Flow.UnitIn(units)}", $"Static pressure, {Measures.GaugePressure.UnitIn(units)}").WithLegend();
        foreach (var axis in model.Axes) axis.Minimum = 0;
        if (report.Fans.SelectMany(f => f.Curve).Select(p => p.PressurePa).DefaultIfEmpty().Max() is > 0 and var top) model.Axes[1].Maximum = Measures.GaugePressure.In(top * 1.1, units);
        var nth = 0;
        foreach (var fan in report.Fans.Where(f => f.Curve.Count > 1)) model.Series.Add(Curve(fan, fan.Model == report.ShownFan, units, Dashes[nth++ % Dashes.Length]));
        model.Series.Add(ChartFrame.Line("needed here", ChartFrame.Ink, 2, LineStyle.Solid, report.SystemCurve.Select(p => At(p.FlowM3PerS, p.PressurePa, units))));
        foreach (var fan in report.Fans.Where(f => f.OnCurve)) model.Series.Add(Point(fan, fan.Model == report.ShownFan, units));
        return model;
    }

    private static LineSeries Curve(FanResult fan, bool shown, UnitSystem units, LineStyle dash) => ChartFrame.Line(
        fan.Model, shown ? ChartFrame.Accent : ChartFrame.Soft, shown ? 3 : 1.5, shown ? LineStyle.Solid : dash, fan.Curve.Select(p => At(p.FlowM3PerS, p.PressurePa, units)));

    private static ScatterSeries Point(FanResult fan, bool shown, UnitSystem units)
    {
        var at = At(fan.FlowM3PerS, fan.FanPressurePa, units);
        var point = new ScatterSeries { MarkerType = MarkerType.Circle, MarkerSize = shown ? 6 : 4, MarkerFill = ChartFrame.Sheet, MarkerStroke = shown ? ChartFrame.Accent : ChartFrame.Ink, MarkerStrokeThickness = 2 };
        point.Points.Add(new ScatterPoint(at.X, at.Y));
        return point;
    }

    private static DataPoint At(double flow, double pa, UnitSystem units) => new(Measures.Flow.In(flow, units), Measures.GaugePressure.In(pa, units));
}
