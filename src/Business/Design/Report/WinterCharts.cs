using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents.Charts;
using MitigationOffice.Engineering.Freezing;
using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Legends;

namespace MitigationOffice.Business.Design.Report;

/// <summary>What the winter page draws: temperatures and water along the outdoor run, ice day by day, and the gauge as ice closes.</summary>
public static class WinterCharts
{
    /// <summary>Small lengths of ice, as people measure them.</summary>
    public static readonly Measure Ice = Measures.Length with { Name = "ice", UsUnit = "in", SiUnit = "mm", UsDecimals = 2, SiDecimals = 0 };

    public static PlotModel Temperatures(FreezeReport report, UnitSystem units)
    {
        var model = ChartFrame.Blank(Along(units), $"Temperature, {Measures.Temperature.UnitIn(units)}").WithLegend(LegendPosition.RightTop);
        var (cold, january) = (report.AtDesign, report.AtJanuaryMean);
        model.Series.Add(ChartFrame.Line("air, January mean", ChartFrame.Soft, 2, LineStyle.LongDash, Temperature(january, s => s.AirC, units)));
        model.Series.Add(ChartFrame.Line("inner wall, January mean", ChartFrame.Soft, 2, LineStyle.Dot, Temperature(january, s => s.WallC, units)));
        model.Series.Add(ChartFrame.Line("air, design cold", ChartFrame.Accent, 2, LineStyle.DashDot, Temperature(cold, s => s.AirC, units)));
        model.Series.Add(ChartFrame.Line("inner wall, design cold", ChartFrame.Accent, 3, LineStyle.Solid, Temperature(cold, s => s.WallC, units)));
        model.Series.Add(ChartFrame.Line("freezing", ChartFrame.Caution, 1.5, LineStyle.Dash, Flat(report, Measures.Temperature.In(0, units), units)));
        var highest = report.AtDesign.Stations.Concat(january.Stations).Max(s => s.AirC);
        model.Axes[1].Maximum = Measures.Temperature.In(Math.Max(highest, 0) + 14, units);
        return model;
    }

    public static PlotModel Water(FreezeReport report, UnitSystem units)
    {
        var model = ChartFrame.Blank(Along(units), $"{(units == UnitSystem.US ? "lb" : "kg")} a day on each {(units == UnitSystem.US ? "foot" : "metre")}").WithLegend();
        var runs = new[] { PerLength(report.AtJanuaryMean, s => s.CondensateKgPerDay, units), PerLength(report.AtDesign, s => s.CondensateKgPerDay, units), PerLength(report.AtJanuaryMean, s => s.FrostKgPerDay, units), PerLength(report.AtDesign, s => s.FrostKgPerDay, units) };
        (model.Axes[1].Minimum, model.Axes[1].Maximum) = (0, Math.Max(0.01, runs.SelectMany(r => r).Max(p => p.Y) * 1.6));
        model.Series.Add(ChartFrame.Line("runs off, January mean", ChartFrame.Soft, 2, LineStyle.Dot, runs[0]));
        model.Series.Add(ChartFrame.Line("runs off, design cold", ChartFrame.Accent, 2, LineStyle.DashDot, runs[1]));
        model.Series.Add(ChartFrame.Line("frost, January mean", ChartFrame.Soft, 2, LineStyle.LongDash, runs[2]));
        model.Series.Add(ChartFrame.Line("frost, design cold", ChartFrame.Accent, 3, LineStyle.Solid, runs[3]));
        return model;
    }

    public static PlotModel IceDays(FreezeReport report, UnitSystem units)
    {
        var model = ChartFrame.Blank("", $"Thickest ice, {Ice.UnitIn(units)}").WithLegend(LegendPosition.LeftTop);
        model.Axes[0] = ChartFrame.Days();
        var days = report.Winter.Days;
        var half = Ice.In(HalfClosedM(report), units);
        model.Axes[1].Minimum = 0;
        model.Axes[1].Maximum = Math.Max(half, days.Max(d => Ice.In(d.ThickestIceM, units))) * 1.6;
        model.Series.Add(ChartFrame.Line("ice", ChartFrame.Accent, 2.5, LineStyle.Solid, days.Select(d => new DataPoint(At(d.Day), Ice.In(d.ThickestIceM, units)))));
        model.Series.Add(ChartFrame.Line("half the pipe closed", ChartFrame.Caution, 1.5, LineStyle.LongDash, [new DataPoint(At(days[0].Day), half), new DataPoint(At(days[^1].Day), half)]));
        return model;
    }

    public static PlotModel Gauge(FreezeReport report, SuctionSystem system, UnitSystem units)
    {
        var model = ChartFrame.Blank("Open share of the pipe, %", $"Gauge shows, {Measures.GaugePressure.UnitIn(units)}");
        (model.Axes[0].StartPosition, model.Axes[0].EndPosition, model.Axes[0].Minimum, model.Axes[0].Maximum, model.Axes[1].Minimum) = (1, 0, 0, 100, 0);
        model.Axes[1].Maximum = Measures.GaugePressure.In(system.OpenGaugePa * 1.15, units);
        model.Series.Add(ChartFrame.Line("gauge", ChartFrame.Accent, 3, LineStyle.Solid, Enumerable.Range(0, 51).Select(i => new DataPoint(i * 2, Measures.GaugePressure.In(GaugePa(report, system, i / 50.0), units)))));
        return model;
    }

    /// <summary>What the gauge shows when ice leaves a share of the pipe open.</summary>
    public static double GaugePa(FreezeReport report, SuctionSystem system, double openShare)
    {
        var run = report.Input.Run;
        return system.GaugePa(system.FlowM3PerS(openShare, run.FlowM3PerS, run.BoreM), run.FlowM3PerS);
    }

    /// <summary>Thickness of an even sleeve of ice that leaves half the area open.</summary>
    public static double HalfClosedM(FreezeReport report) => report.Input.Run.BoreM / 2 * (1 - Math.Sqrt(0.5));

    private static string Along(UnitSystem units) => $"Along the outdoor pipe, {Measures.Length.UnitIn(units)}";

    private static double At(DateOnly day) => DateTimeAxis.ToDouble(day.ToDateTime(TimeOnly.MinValue));

    private static IEnumerable<DataPoint> Temperature(RunProfile profile, Func<RunStation, double> of, UnitSystem units) =>
        profile.Stations.Select(s => new DataPoint(Measures.Length.In(s.DistanceM, units), Measures.Temperature.In(of(s), units)));

    private static IEnumerable<DataPoint> Flat(FreezeReport report, double value, UnitSystem units) =>
        [new DataPoint(0, value), new DataPoint(Measures.Length.In(report.Input.Run.LengthM, units), value)];

    private static IEnumerable<DataPoint> PerLength(RunProfile profile, Func<RunStation, double> of, UnitSystem units)
    {
        const double kgPerLb = 0.45359237;
        var before = 0.0;
        foreach (var s in profile.Stations)
        {
            var cell = 2 * (s.DistanceM - before);
            before += cell;
            var perMetre = of(s) / cell;
            yield return new DataPoint(Measures.Length.In(s.DistanceM, units), units == UnitSystem.US ? perMetre / kgPerLb * 0.3048 : perMetre);
        }
    }
}
