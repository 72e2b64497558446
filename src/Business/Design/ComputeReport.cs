using System.Globalization;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Freezing;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Sizing;
using MitigationOffice.Engineering.Slab;
using FanResult = MitigationOffice.Business.Design.Report.FanResult;
using Piece = MitigationOffice.Engineering.Piping.RoutePiece;

namespace MitigationOffice.Business.Design;

/// <summary>From a design file to its report: the one computation behind the sheet, the quote and the verb. Pure.</summary>
public static class ComputeReport
{
    private const double StoreyM = 2.7;
    private const double BasementM = 2.4;
    private const int ChartSteps = 40;

    /// <param name="file">All that goes in.</param>
    /// <param name="quick">Leaves out the winter's ice and the slab's map, for the editor's quick look.</param>
    /// <exception cref="DesignRefused">The design cannot be computed; the message says what to do.</exception>
    public static DesignReport Of(DesignFile file, bool quick = false)
    {
        if (file.Fans.Count == 0) throw new DesignRefused("The catalogue holds no fan. Put fans with their measured curves into the shop’s catalogue first.") { Path = "fans" };
        foreach (var words in RouteRules.Problems([.. file.Route.Select(p => new RoutePiece { Kind = p.Kind, Count = p.Count })])) throw new DesignRefused(words) { Path = "route" };
        try
        {
            var (curves, broken) = Curves(file);
            var input = Input(file, curves);
            return Report(file, input, SystemSizing.Compute(input), broken, quick);
        }
        catch (ArgumentException e)
        {
            throw FindFault.Of(file, e);
        }
    }

    /// <summary>The whole freeze forecast for the fan the report is about, or why there is none.</summary>
    public static (FreezeReport? Forecast, string? WhyNone) Winter(DesignFile file, string? shownFan)
    {
        try
        {
            var input = Input(file, Curves(file).Curves);
            var sizing = SystemSizing.Compute(input);
            return sizing.Fans.FirstOrDefault(f => f.Name == shownFan) is { Point: { } at } fan
                ? ForeseeFreezing.Forecast(file, input, sizing, at, input.Fans.First(c => c.Id == fan.FanId).Curve)
                : (null, "There is no fan to foresee it for.");
        }
        catch (Exception e) when (e is ArgumentException or DesignRefused)
        {
            return (null, e.Message.Split(" (Parameter", 2)[0]);
        }
    }

    /// <summary>From the slab to half the heated height: an assumption.</summary>
    public static double NeutralPlaneM(FileSite site) => site.NeutralPlaneM ?? (site.Storeys * StoreyM + (site.Basement ? BasementM : 0)) / 2;

    internal static (Dictionary<string, FanCurve> Curves, List<FanResult> Broken) Curves(DesignFile file)
    {
        var curves = new Dictionary<string, FanCurve>(StringComparer.Ordinal);
        var broken = new List<FanResult>();
        foreach (var fan in file.Fans)
        {
            if (curves.ContainsKey(fan.Model)) throw new DesignRefused($"Two fans are called {fan.Model}; give each its own name.") { Path = "fans" };
            try
            {
                curves[fan.Model] = new FanCurve(fan.Points.Select(p => new FanPoint(p.FlowM3PerS, p.StaticPressurePa, p.Watts)));
            }
            catch (ArgumentException e)
            {
                broken.Add(new FanResult { Model = fan.Model, Holds = false, OnCurve = false, Why = e.Message.Split(" (Parameter", 2)[0] });
            }
        }

        return (curves, broken);
    }

    private static SizingInput Input(DesignFile file, Dictionary<string, FanCurve> curves)
    {
        var (site, prices) = (file.Site, file.Prices);
        return new SizingInput(
            new SizingSite(site.ElevationM, site.DesignWinterC, site.IndoorC, site.GroundC ?? site.MeanAnnualC, NeutralPlaneM(site), file.TargetPa, prices.ElectricityCentsPerKWh,
                site.HeatingDegreeDaysC, prices.HeatingEfficiency, prices.FuelDollarsPerTherm, prices.IndoorAirShare),
            Test(file.Test, curves),
            Pieces(file.Route),
            [.. file.Fans.Select((f, i) => (f, i)).Where(x => curves.ContainsKey(x.f.Model)).Select(x => new CandidateFan(x.i, x.f.Model, curves[x.f.Model], x.f.PriceDollars, x.f.ExpectedLifeYears, x.f.NoiseDbA))])
        {
            FurtherPoints = [.. (file.FurtherPoints ?? []).Select(p => new FurtherPoint(p.Name, Test(p.Test, curves), Pieces(p.Branch), p.JoinsAfterPiece, p.JoinsInto))],
        };
    }

    private static List<Piece> Pieces(IEnumerable<FilePiece> pieces) =>
        [.. pieces.Select(p => new Piece(Enum.Parse<Engineering.Piping.PieceKind>(p.Kind.ToString()), PipeSize.Of(p.Size), p.LengthM, p.Count, p.Place == PiecePlace.Outdoors, p.RiseM, p.LossK))];

    internal static PfeTest Test(FileTest test, Dictionary<string, FanCurve> curves)
    {
        var pfe = new PfeTest(
            [.. test.Settings.Select(s => new PfeSetting(s.Label, s.PitVacuumPa, s.FlowM3PerS, s.Watts, s.Fan is { } fan ? curves.GetValueOrDefault(fan) : null))],
            [.. test.Holes.Select(h => new PfeHole(h.Label, h.DistanceM, h.FanOffPa, h.FanOnPa))],
            test.OutdoorC, test.IndoorC);
        return pfe with { HoleResolutionPa = test.HoleResolutionPa ?? pfe.HoleResolutionPa, PitResolutionPa = test.PitResolutionPa ?? pfe.PitResolutionPa };
    }

    private static DesignReport Report(DesignFile file, SizingInput input, SizingReport sizing, List<FanResult> broken, bool quick)
    {
        var shownName = file.ChosenFan is { } chosen && file.Fans.Any(f => f.Model == chosen) ? chosen : sizing.Recommended?.Name ?? sizing.Fans.FirstOrDefault(f => f.Point is not null)?.Name;
        var system = SystemCurve.For(sizing.Ground.Soil, input.Route, input.Site);
        var shown = sizing.Fans.FirstOrDefault(f => f.Name == shownName);
        var (freeze, whyNone) = quick ? (null, null) : shown?.Point is { } at ? ForeseeFreezing.Of(file, input, sizing, at, input.Fans.First(c => c.Id == shown.FanId).Curve) : (null, "There is no fan to foresee it for.");
        List<FanResult> fans = [.. sizing.Fans.Select(f => Fan(f, input.Fans.First(c => c.Id == f.FanId), system, sizing)), .. broken];
        var soil = ReportSoil.Of(file.Test, sizing.Ground);
        var winterLoss = Math.Max(0, sizing.StackWinterPa - sizing.StackTestDayPa);
        var greatest = input.Fans.Select(f => f.Curve.GreatestFlowM3PerS).DefaultIfEmpty(0.05).Max();
        return new DesignReport
        {
            EngineVersion = Engineering.Engine.Version, Recommendation = string.Join(' ', [sizing.Why, .. sizing.WouldHelp]), RecommendedFan = sizing.Recommended?.Name,
            ShownFan = shownName, TargetPa = file.TargetPa, DesignWinterC = file.Site.DesignWinterC, WinterLossPa = winterLoss,
            Soil = soil, FurtherSoils = [.. sizing.FurtherGrounds.Zip(file.FurtherPoints ?? [], (ground, p) => new FurtherSoil(p.Name, ReportSoil.Of(p.Test, ground)))], Fans = fans,
            Losses = shown?.Point is { } point ? ReportLosses.Of(file, input, system, point) : [],
            SystemCurve = quick ? [] : Needed(input, sizing, system, greatest),
            Freeze = freeze, WhyNoFreeze = whyNone, Siting = JudgeSiting.Of(file), Coverage = quick ? null : FitSlab.Of(file, soil, fans.FirstOrDefault(f => f.Model == shownName), winterLoss),
            Assumptions = [.. sizing.Assumptions, .. Assumed(file)], Warnings = [.. sizing.Warnings, .. Warned(file)], Origins = ReportOrigins.Of(file, input, sizing, shown),
        };
    }

    /// <summary>What the fan must give at rising flows: with further points the whole tree balanced at each.</summary>
    private static List<SystemPoint> Needed(SizingInput input, SizingReport sizing, SystemCurve system, double greatest) => input.FurtherPoints.Count > 0
        ? [.. SystemSizing.Curve(input, sizing, Math.Clamp(greatest, 1e-6, 5), ChartSteps).Select(p => new SystemPoint(p.FlowM3PerS, p.PressurePa))]
        : [.. Enumerable.Range(0, ChartSteps + 1).Select(i => greatest * i / ChartSteps).Select(q => new SystemPoint(q, system.NeededPa(q)))];

    private static IEnumerable<string> Warned(DesignFile file)
    {
        foreach (var point in (file.FurtherPoints ?? []).Where(p => p.Branch.Any(x => x is { Place: PiecePlace.Outdoors, Kind: PieceKind.Pipe, LengthM: > 0 })))
            yield return $"The branch of {point.Name} runs outdoors; ice is foretold for the route’s own outdoor pipe only. Slope the branch back to its pit and insulate it, or lead it indoors.";
    }

    private static IEnumerable<string> Assumed(DesignFile file)
    {
        if (file.FurtherPoints is { Count: > 0 }) yield return "As ice closes the mouth, all suction points are taken to lose flow alike; the gauge is that above the first pit.";

        if (file.Site.NeutralPlaneM is null) yield return string.Create(CultureInfo.InvariantCulture, $"The neutral plane is taken at half the heated height, {NeutralPlaneM(file.Site):0.0} m over the slab.");
        if (file.Site.GroundC is null) yield return "The soil gas is taken at the mean temperature of the year.";
    }

    private static FanResult Fan(Engineering.Sizing.FanResult f, CandidateFan fan, SystemCurve system, SizingReport sizing)
    {
        var curve = fan.Curve;
        var drawn = Enumerable.Range(0, 33).Select(i => curve.LeastFlowM3PerS + (curve.GreatestFlowM3PerS - curve.LeastFlowM3PerS) * Math.Min(1, i / 32.0))
            .Select(q => new SystemPoint(q, curve.PressurePa(Math.Min(q, curve.GreatestFlowM3PerS), system.DensityKgPerM3))).ToList();
        var result = new FanResult { Model = f.Name, Holds = f.Holds, Why = f.Because, OnCurve = f.Point is not null, Curve = drawn, NoiseDbA = f.NoiseDbA };
        if (f.Point is not { } point) return result;
        var weakest = f.Holes.MinBy(h => h.WinterPa)!;
        return result with
        {
            FlowM3PerS = point.FlowM3PerS,
            FanPressurePa = point.FanPressurePa,
            PitVacuumPa = point.PitVacuumPa,
            Watts = point.Watts,
            FanInletVacuumPa = point.FanInletVacuumPa,
            Points = [.. point.Points.Select(p => new PointResult(p.Name, p.FlowM3PerS, p.PitVacuumPa))],
            WeakestHole = f.WeakestHole,
            WeakestNowPa = f.WeakestNowPa,
            WeakestWinterPa = f.WeakestWinterPa,
            WeakestWinterLowPa = weakest.WinterLowPa,
            WeakestWinterHighPa = weakest.WinterHighPa,
            FastestMPerS = point.FastestMPerS,
            SpeedWords = Speed(point.Velocity),
            ElectricityDollarsPerYear = f.ElectricityDollarsPerYear,
            HouseAirDollarsPerYear = f.HouseAirDollarsPerYear,
            TenYearDollars = f.TenYearDollars,
            Holes = [.. f.Holes.Select(h => new HolePressure(h.Label, h.NowPa, h.WinterPa, h.WinterLowPa, h.WinterHighPa) { From = From(h.Label, sizing, point) })],
        };
    }

    private static string? Speed(VelocityFlag flag) => flag switch
    {
        VelocityFlag.Noisy => "may be heard",
        VelocityFlag.TooFast => "too fast for water to run back",
        _ => null,
    };

    /// <summary>Which suction point brings most to a hole: 0 for the first; null where there is only one.</summary>
    private static int? From(string label, SizingReport sizing, OperatingPoint point) => sizing.FurtherGrounds.Count == 0 ? null
        : sizing.FurtherGrounds.Prepend(sizing.Ground).Select((g, i) => (At: i, Hole: g.Holes.FirstOrDefault(h => h.Label == label)))
            .Where(x => x.Hole is not null).MaxBy(x => x.Hole!.Ratio * point.Points[x.At].PitVacuumPa - x.Hole.FanOffPa).At;
}
