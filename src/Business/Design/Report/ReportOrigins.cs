using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Engineering.Sizing;

namespace MitigationOffice.Business.Design.Report;

/// <summary>For every number that matters: the formula, what went in, and the source.</summary>
internal static class ReportOrigins
{
    public static IReadOnlyList<NumberOrigin> Of(DesignFile file, SizingInput input, SizingReport sizing, Engineering.Sizing.FanResult? shown)
    {
        var (ground, site) = (sizing.Ground, input.Site);
        var origins = new List<NumberOrigin>
        {
            new("Soil resistance", Say($"Q = {ground.Soil.ConductanceG:0.###e+0} · p^{ground.Soil.Exponent:0.00}"), "Q = G·pⁿ, fitted to the settings of the PFE test",
                [.. ground.Flows.Select(f => Say($"{f.Label}: {Flow(f.FlowM3PerS)} at {Inches(f.PitVacuumPa)} ({(f.Measured ? "measured" : "read off the fan’s curve")}, {Flow(f.LowM3PerS)} to {Flow(f.HighM3PerS)})"))],
                "Power law of leakage; flow read off a curve is common practice, no source"),
            new("Winter’s share", Say($"{Math.Max(0, sizing.StackWinterPa - sizing.StackTestDayPa):0.0} Pa"), "g·h·P/R·(1/To − 1/Ti), design winter less the day of the readings",
                [Say($"design winter {site.DesignWinterC:0.0} °C outdoors, {site.IndoorC:0.0} °C indoors: {sizing.StackWinterPa:0.0} Pa"), Say($"day of the readings {input.Test.OutdoorC:0.0} °C, {input.Test.IndoorC:0.0} °C: {sizing.StackTestDayPa:0.0} Pa"), Say($"h {site.NeutralPlaneM:0.0} m to the neutral plane (assumed)")],
                "Hydrostatics of two columns of air, arithmetic"),
        };
        if (shown?.Point is not { } point) return origins;
        origins.Add(new($"Flow with {shown.Name}", Flow(point.FlowM3PerS), "where the fan’s curve meets ground and pipe",
            [Say($"fan {point.FanPressurePa:0.0} Pa = ground {point.PitVacuumPa:0.0} Pa + pipe {point.PipeLossPa:0.0} Pa; left over {Math.Abs(point.ResidualPa):0.0e+0} Pa"), Say($"gas density {sizing.GasDensityKgPerM3:0.000} kg/m³ at {file.Site.ElevationM:0} m")],
            "Darcy–Weisbach with Colebrook’s friction factor; fittings by handbook coefficients; fan by its measured curve and the fan laws"));
        var weakest = shown.Holes.MinBy(h => h.WinterPa)!;
        var (transfer, pit) = From(sizing, point, weakest.Label);
        origins.Add(new($"Suction at {weakest.Label}", Say($"{weakest.NowPa:0.0} Pa now, {weakest.WinterPa:0.0} Pa in design winter"), "share of the pit’s suction × suction at the pit − fan-off reading (− winter’s share)",
            [Say($"share {transfer.Ratio * 100:0.00} % ({transfer.Low * 100:0.00} to {transfer.High * 100:0.00} % as the gauges can be read)"), Say($"pit {pit:0.0} Pa"), Say($"fan off {transfer.FanOffPa:0.0} Pa")],
            "Superposition under the slab; the share is taken to stay the same"));
        origins.Add(new("Electricity", Say($"${shown.ElectricityDollarsPerYear:0.00} a year"), "watts × 8760 h × price", [Say($"{point.Watts:0.0} W"), Say($"{site.ElectricityCentsPerKWh:0.##} ¢/kWh")], "Arithmetic; the price is the company’s"));
        origins.Add(new("Heated house air", Say($"${shown.HouseAirDollarsPerYear:0.00} a year"), "1.08·cfm·share·24·HDD/η × fuel price",
            [Say($"{site.IndoorAirShare * 100:0} % house air (assumed)"), Say($"{site.HeatingDegreeDaysC * 1.8:0} °F·days"), Say($"η {site.HeatingEfficiency:0.00}"), Say($"${site.FuelDollarsPerTherm:0.00} a therm")],
            "EPA/600/S8-91/200 family of formulas, numbers from memory"));
        origins.Add(new("Ten years", Say($"${shown.TenYearDollars:0}"), "fans bought in ten years + 10 × (electricity + heated house air)",
            [Say($"${file.Fans.First(f => f.Model == shown.Name).PriceDollars:0.00} a fan, {file.Fans.First(f => f.Model == shown.Name).ExpectedLifeYears} years each")], "Arithmetic; prices held as today"));
        return origins;
    }

    /// <summary>The suction point that brings most to a hole: its share there and its pit's suction.</summary>
    private static (Engineering.Slab.HoleTransfer Transfer, double PitPa) From(SizingReport sizing, OperatingPoint point, string label) =>
        sizing.FurtherGrounds.Prepend(sizing.Ground).Select((g, i) => (Transfer: g.Holes.FirstOrDefault(h => h.Label == label), PitPa: point.Points[i].PitVacuumPa))
            .Where(x => x.Transfer is not null).Select(x => (x.Transfer!, x.PitPa)).MaxBy(x => x.Item1.Ratio * x.PitPa - x.Item1.FanOffPa);

    private static string Flow(double m3PerS) => $"{Measures.Flow.Show(m3PerS)} ({Measures.Flow.Show(m3PerS, UnitSystem.SI)})";

    private static string Inches(double pa) => $"{Measures.GaugePressure.Show(pa)} ({Measures.GaugePressure.Show(pa, UnitSystem.SI)})";

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
