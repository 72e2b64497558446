using MitigationOffice.Business.Documents.Charts;
using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Legends;
using OxyPlot.Series;

namespace MitigationOffice.Business.Quality;

/// <summary>A control chart: the checks in the order of their days, and the lines they are held against.</summary>
public static class QualityChart
{
    /// <param name="values">What each check shows, oldest first.</param>
    /// <param name="lines">Lines across: name, height, and whether it is the control limit.</param>
    public static PlotModel Model(string up, IReadOnlyList<double> values, IReadOnlyList<(string Name, double At, bool Control)> lines)
    {
        var model = ChartFrame.Blank("Check, oldest first", up).WithLegend(LegendPosition.LeftTop);
        (model.Axes[0].Minimum, model.Axes[0].Maximum) = (0, values.Count + 1);
        ((LinearAxis)model.Axes[0]).MajorStep = Math.Max(1, Math.Ceiling(values.Count / 10.0));
        var least = Math.Min(0, Math.Min(values.DefaultIfEmpty(0).Min(), lines.Min(l => l.At)));
        var most = Math.Max(values.DefaultIfEmpty(0).Max(), lines.Max(l => l.At));
        (model.Axes[1].Minimum, model.Axes[1].Maximum) = (least * 1.2, most * 1.7);
        foreach (var (name, at, control) in lines)
            model.Series.Add(ChartFrame.Line(name, control ? ChartFrame.Caution : ChartFrame.Soft, control ? 2 : 1.5, control ? LineStyle.Solid : LineStyle.Dash, [new(0, at), new(values.Count + 1, at)]));
        model.Series.Add(ChartFrame.Line("", ChartFrame.Rule, 1.5, LineStyle.Solid, values.Select((v, i) => new DataPoint(i + 1, v))));
        var marks = new ScatterSeries { Title = "checks", MarkerType = MarkerType.Circle, MarkerSize = 5, MarkerFill = ChartFrame.Sheet, MarkerStroke = ChartFrame.Accent, MarkerStrokeThickness = 2 };
        marks.Points.AddRange(values.Select((v, i) => new ScatterPoint(i + 1, v)));
        model.Series.Add(marks);
        return model;
    }
}
