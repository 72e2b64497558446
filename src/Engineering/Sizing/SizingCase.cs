using MitigationOffice.Engineering.Air;
using MitigationOffice.Engineering.Energy;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Network;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Sizing;

/// <summary>One route over one ground, made ready so that any fan can be held against it.</summary>
internal sealed class SizingCase
{
    private readonly SizingInput _input;
    private readonly MoistAir _gas;
    private readonly RouteTree _tree;
    private readonly Scenario _nominal;
    private readonly Scenario[] _others;
    private readonly double[] _extraStackPa;

    internal SizingCase(SizingInput input, double leakageFactor = 1)
    {
        _input = input;
        _gas = MoistAir.At(input.Site.GroundC, 1, input.Site.ElevationM);
        PfeTest[] tests = [input.Test, .. input.FurtherPoints.Select(point => point.Test)];
        Grounds = [.. tests.Select(test => PfeAnalysis.Of(test, _gas.DensityKgPerM3))];
        _extraStackPa = [.. tests.Select(ExtraStackPa)];
        _tree = Tree(Grounds, leakageFactor);
        _nominal = new(Grounds, Network(_tree, 1));
        _others = [.. MisreadPits(tests, leakageFactor), new(Grounds, Network(_tree, 0.5)), new(Grounds, Network(_tree, 2))];
    }

    /// <summary>What each suction point's test says, the first point first.</summary>
    internal IReadOnlyList<PfeFindings> Grounds { get; }

    internal double StackWinterPa => StackPa(_input.Site.DesignWinterC, _input.Site.IndoorC);

    internal double StackTestDayPa => StackPa(_input.Test.OutdoorC, _input.Test.IndoorC);

    internal double DensityKgPerM3 => _gas.DensityKgPerM3;

    internal FanResult Judge(CandidateFan fan)
    {
        var solution = _nominal.Network.Solve(fan.Curve);
        if (!solution.OnCurve) return OffCurve(fan, solution.FlowM3PerS);
        var point = _tree.PointOf(solution);
        var holes = Holes(fan.Curve, point);
        var weakest = holes.MinBy(hole => hole.WinterPa)!;
        var holds = weakest.WinterPa >= _input.Site.TargetPa && point.Velocity != VelocityFlag.TooFast;
        return WithCost(fan, point, new(
            fan.Id, fan.Name, point, holes, weakest.Label, weakest.NowPa, weakest.WinterPa, holds, Verdict.Because(point, weakest, _input.Site.TargetPa), 0, 0, 0, 0, fan.NoiseDbA));
    }

    private FanResult WithCost(CandidateFan fan, OperatingPoint point, FanResult result)
    {
        var site = _input.Site;
        var kWh = RunningCost.FanKWhPerYear(point.Watts);
        var electricity = RunningCost.Dollars(kWh, site.ElectricityCentsPerKWh);
        var houseAir = site.FuelDollarsPerTherm * RunningCost.HouseAirThermsPerYear(
            point.FlowM3PerS * site.IndoorAirShare, site.HeatingDegreeDaysC, site.HeatingEfficiency, _gas.DensityKgPerM3 / StandardAtmosphere.FanCurveKgPerM3);
        var tenYears = RunningCost.TenYearDollars(fan.PriceDollars, fan.LifeYears, electricity + houseAir);
        return result with { KWhPerYear = kWh, ElectricityDollarsPerYear = electricity, HouseAirDollarsPerYear = houseAir, TenYearDollars = tenYears };
    }

    /// <summary>Every hole that any test read, under this fan, with the range that readings and fittings allow.</summary>
    private List<HoleSuction> Holes(FanCurve fan, OperatingPoint point)
    {
        var pits = point.Points.Select(p => p.PitVacuumPa).ToArray();
        var labels = Grounds.SelectMany(ground => ground.Holes).Select(hole => hole.Label).Distinct().ToArray();
        var others = _others.Select(other => (other.Grounds, Pits: PitsOf(other, fan))).Where(other => other.Pits.Length > 0).ToArray();
        var holes = new List<HoleSuction>(labels.Length);
        foreach (var label in labels)
        {
            var now = Suction(Grounds, pits, label, hole => hole.Ratio, winter: false);
            var winter = Suction(Grounds, pits, label, hole => hole.Ratio, winter: true);
            var low = others.Select(other => Suction(other.Grounds, other.Pits, label, hole => hole.Low, winter: true)).Append(winter).Min();
            var high = others.Select(other => Suction(other.Grounds, other.Pits, label, hole => hole.High, winter: true)).Append(winter).Max();
            holes.Add(new(label, now, winter, low, high));
        }

        return holes;
    }

    /// <summary>The most that any one suction point brings to the hole: the others can only add to it.</summary>
    private double Suction(IReadOnlyList<PfeFindings> grounds, double[] pits, string label, Func<HoleTransfer, double> share, bool winter)
    {
        var most = double.NegativeInfinity;
        for (var i = 0; i < grounds.Count; i++)
        {
            if (grounds[i].Holes.FirstOrDefault(hole => hole.Label == label) is not { } hole) continue;
            most = Math.Max(most, share(hole) * pits[i] - hole.FanOffPa - (winter ? _extraStackPa[i] : 0));
        }

        return most;
    }

    /// <summary>Suction at every pit; none where the fan's curve does not reach.</summary>
    private static double[] PitsOf(Scenario scenario, FanCurve fan)
    {
        if (!fan.Covers(scenario.Network.SolveFlowM3PerS(fan))) return [];
        return [.. scenario.Grounds.Select((_, i) => scenario.Network.LastPitVacuumPa(i))];
    }

    private static FanResult OffCurve(CandidateFan fan, double flow) => new(fan.Id, fan.Name, null, [], "", 0, OffCurvePa, false, flow > fan.Curve.GreatestFlowM3PerS
        ? "It would move more air here than its curve was measured for; nothing is guessed beyond the curve."
        : "It is too weak for this ground and route: the suction needed is above its curve.", 0, 0, 0, 0, fan.NoiseDbA);

    /// <summary>Sorts a fan without an operating point behind all others; JSON cannot hold minus infinity.</summary>
    private const double OffCurvePa = -1e9;

    /// <summary>The ground as it would be if the gauge at the pit stood half a mark too low or too high, and a measured flow were a tenth off.</summary>
    private IEnumerable<Scenario> MisreadPits(PfeTest[] tests, double leakageFactor)
    {
        double[] flowFactors = tests.Any(test => test.Settings.Any(setting => setting.FlowM3PerS is not null)) ? [1 - PfeAnalysis.FlowMeterShare, 1 + PfeAnalysis.FlowMeterShare] : [1];
        foreach (var side in (double[])[-1, 1])
            foreach (var factor in flowFactors)
            {
                PfeFindings[] grounds = [.. tests.Select(test => PfeAnalysis.Misread(test, side, factor, _gas.DensityKgPerM3))];
                yield return new(grounds, Network(Tree(grounds, leakageFactor), 1));
            }
    }

    private RouteTree Tree(IReadOnlyList<PfeFindings> grounds, double leakageFactor)
    {
        var soils = grounds.Select(ground => ground.Soil with { ConductanceG = ground.Soil.ConductanceG * leakageFactor }).ToArray();
        return RouteTree.Of(_input.Route, soils[0], _input.FurtherPoints, soils[1..]);
    }

    private AirNetwork Network(RouteTree tree, double fittingFactor) =>
        new(tree.Branches, tree.Discharge, _gas.DensityKgPerM3, _gas.ViscosityPaS, fittingFactor: fittingFactor);

    private double ExtraStackPa(PfeTest test) => Math.Max(0, StackWinterPa - StackPa(test.OutdoorC, test.IndoorC));

    private double StackPa(double outdoorC, double indoorC) => StackEffect.PressurePa(outdoorC, indoorC, _input.Site.NeutralPlaneM, _gas.PressurePa);

    private sealed record Scenario(IReadOnlyList<PfeFindings> Grounds, AirNetwork Network);
}
