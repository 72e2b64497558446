using MitigationOffice.Business.Documents.Charts;
using MitigationOffice.Engineering.Radon;
using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Legends;
using OxyPlot.Series;

namespace MitigationOffice.Business.Tests.Monitor;

/// <summary>A monitor's record hour by hour: what counts, what was dropped, the average and the action level.</summary>
public static class HoursChart
{
    public static PlotModel Model(HoursFinding finding, bool inBq)
    {
        var times = (double)(inBq ? RadonConcentration.BqPerM3InOnePciPerL : 1m);
        var hours = finding.Near;
        var begin = hours.FirstOrDefault(h => h.Why != JudgeHours.Before)?.FromUtc ?? hours[0].FromUtc;
        var model = ChartFrame.Blank("Hours since the first hour of the test", inBq ? "Radon, Bq/m³" : "Radon, pCi/L").WithLegend(LegendPosition.RightTop);
        var most = Math.Max(4.8, hours.Max(h => (double)(h.PCiL ?? 0)));
        (model.Axes[0].Minimum, model.Axes[0].Maximum) = (At(hours[0].FromUtc), Math.Max(At(hours[^1].FromUtc.AddHours(1)), At(hours[0].FromUtc) + 4));
        (model.Axes[1].Minimum, model.Axes[1].Maximum) = (0, most * times * 1.4);
        var span = model.Axes[0].Maximum - model.Axes[0].Minimum;
        ((LinearAxis)model.Axes[0]).MajorStep = span <= 60 ? 12 : span <= 200 ? 24 : Math.Ceiling(span / 8 / 24) * 24;
        foreach (var (from, to) in Dropped(hours))
            model.Annotations.Add(new RectangleAnnotation { MinimumX = At(from), MaximumX = At(to), MinimumY = 0, MaximumY = model.Axes[1].Maximum, Fill = ChartFrame.Rule, Layer = AnnotationLayer.BelowSeries });
        model.Series.Add(ChartFrame.Line("action level", ChartFrame.Caution, 1.5, LineStyle.Dash, [new(model.Axes[0].Minimum, 4 * times), new(model.Axes[0].Maximum, 4 * times)]));
        model.Series.Add(Steps("dropped (grey ground)", ChartFrame.Soft, 1.5, LineStyle.Dot, h => !h.Counts && h.PCiL is not null));
        model.Series.Add(Steps("counts", ChartFrame.Accent, 2, LineStyle.Solid, h => h.Counts));
        if (finding.Engine is { Average: { } average, UsedFrom: { } used, UsedTo: { } end })
            model.Series.Add(ChartFrame.Line("average", ChartFrame.Ink, 2, LineStyle.LongDash, [new(At(used.UtcDateTime), (double)average.PciPerL * times), new(At(end.UtcDateTime), (double)average.PciPerL * times)]));
        return model;

        double At(DateTime utc) => (utc - begin).TotalHours;

        LineSeries Steps(string title, OxyColor colour, double thick, LineStyle style, Func<ShownHour, bool> which) =>
            ChartFrame.Line(title, colour, thick, style, hours.SelectMany(h => which(h)
                ? [new DataPoint(At(h.FromUtc), (double)h.PCiL! * times), new DataPoint(At(h.FromUtc) + 1, (double)h.PCiL! * times)]
                : new[] { DataPoint.Undefined }));
    }

    /// <summary>Hours next to each other that do not count, as stretches.</summary>
    public static IEnumerable<(DateTime From, DateTime To)> Dropped(IReadOnlyList<ShownHour> hours)
    {
        for (var i = 0; i < hours.Count; i++)
        {
            if (hours[i].Counts) continue;
            var last = i;
            while (last + 1 < hours.Count && !hours[last + 1].Counts) last++;
            yield return (hours[i].FromUtc, hours[last].FromUtc.AddHours(1));
            i = last;
        }
    }
}
