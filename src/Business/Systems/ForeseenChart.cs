using MitigationOffice.Business.Documents.Charts;
using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Legends;
using OxyPlot.Series;

namespace MitigationOffice.Business.Systems;

/// <summary>Measured over foreseen, reading by reading in the order of the jobs; one is as foreseen.</summary>
public static class ForeseenChart
{
    public static PlotModel Model(IReadOnlyList<ForeseenAndMeasured> compared)
    {
        var model = ChartFrame.Blank("Job, oldest first", "Measured ÷ foreseen").WithLegend(LegendPosition.RightTop);
        var houses = compared.Select(c => (c.HouseId, c.On)).Distinct().ToList();
        (model.Axes[0].Minimum, model.Axes[0].Maximum) = (0, houses.Count + 1);
        ((LinearAxis)model.Axes[0]).MajorStep = Math.Max(1, Math.Ceiling(houses.Count / 10.0));
        (model.Axes[1].Minimum, model.Axes[1].Maximum) = (0, Math.Max(1.5, compared.Max(c => c.Ratio)) * 1.35);
        model.Series.Add(ChartFrame.Line("as foreseen", ChartFrame.Ink, 1.5, LineStyle.Dash, [new DataPoint(0, 1), new DataPoint(houses.Count + 1, 1)]));
        model.Series.Add(Points("suction at the gauge", MarkerType.Circle, ChartFrame.Accent, ForeseenNumber.StartUpSuction));
        model.Series.Add(Points("suction at the holes", MarkerType.Triangle, ChartFrame.Ink, ForeseenNumber.HoleSuction));
        model.Series.Add(Points("watts", MarkerType.Square, ChartFrame.Soft, ForeseenNumber.Watts));
        return model;

        ScatterSeries Points(string title, MarkerType marker, OxyColor colour, ForeseenNumber of)
        {
            var points = new ScatterSeries { Title = title, MarkerType = marker, MarkerSize = 5, MarkerFill = ChartFrame.Sheet, MarkerStroke = colour, MarkerStrokeThickness = 2 };
            points.Points.AddRange(compared.Where(c => c.Of == of).Select(c => new ScatterPoint(houses.IndexOf((c.HouseId, c.On)) + 1, c.Ratio)));
            return points;
        }
    }
}
