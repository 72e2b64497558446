using System.Globalization;
using MitigationOffice.Business.Documents.Charts;
using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Series;

namespace MitigationOffice.Business.Quotes.Sales;

/// <summary>How often each thing was taken of the times it was offered, as bars.</summary>
public static class SalesChart
{
    private const int Most = 10;

    /// <summary>A bar of nothing would have its label on the wrong side of the axis.</summary>
    private const double LeastDrawn = 0.01;

    public static string Draw(IReadOnlyList<SoldRow> rows, string id, string title)
    {
        var shown = rows.Where(r => r.Offered > 0).Take(Most).Reverse().ToList();
        return shown.Count == 0 ? "" : ChartFrame.Inline(() => Model(shown), id, title, WordsOf(rows));
    }

    /// <summary>The same in words.</summary>
    public static string WordsOf(IReadOnlyList<SoldRow> rows) => string.Join(' ', rows.Where(r => r.Offered > 0).Take(Most)
        .Select(r => string.Create(CultureInfo.InvariantCulture, $"{r.Name}: taken {r.Taken} of {r.Offered} times, {r.Percent} %.")));

    private static PlotModel Model(List<SoldRow> shown)
    {
        var model = ChartFrame.Blank("Share taken, %", "");
        model.Padding = new OxyThickness(20, 8, 8, 8);
        model.Axes.Clear();
        var across = ChartFrame.Axis(AxisPosition.Bottom, "Share taken, %");
        (across.Minimum, across.Maximum, across.MajorStep) = (0, 100, 25);
        model.Axes.Add(across);
        model.Axes.Add(new CategoryAxis { Position = AxisPosition.Left, ItemsSource = shown.ConvertAll(r => Short(r.Name)), FontSize = across.FontSize, TicklineColor = ChartFrame.Ink, GapWidth = 0.5, IsTickCentered = true });
        var bars = new BarSeries { FillColor = ChartFrame.Accent, StrokeThickness = 0, LabelPlacement = LabelPlacement.Outside, LabelFormatString = "{0:0} %", FontSize = across.FontSize };
        bars.Items.AddRange(shown.Select(r => new BarItem(Math.Max(r.Percent, LeastDrawn))));
        model.Series.Add(bars);
        return model;
    }

    private static string Short(string name) => name.Length <= 22 ? name : name[..21] + "…";
}
