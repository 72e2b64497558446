using System.Globalization;
using MitigationOffice.Engineering.Air;
using MitigationOffice.Engineering.Energy;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Sizing;

/// <summary>Puts the chapters together: every candidate fan on the real route over the measured ground, in design winter.</summary>
public static class SystemSizing
{
    private static readonly string[] From =
    [
        "Pipe: Darcy–Weisbach with Colebrook's friction factor; minor losses by handbook coefficients.",
        "Fans: measured curves, density by the fan laws.",
        "Ground: Q = G·pⁿ and the share of the pit's suction that reaches each hole, from the PFE test.",
        "Winter: stack effect g·h·P/R·(1/To − 1/Ti), the difference between the test's day and the design temperature.",
        "Velocity: ANSI/AARST SGM-SF 2017 §6.3.8.",
        "Target suction: a house rule, not from a standard.",
    ];

    /// <summary>The whole report. Cost: fans × pieces × about 80 steps of bisection.</summary>
    /// <param name="input">What is known.</param>
    /// <exception cref="ArgumentException">Says what is missing or out of range.</exception>
    /// <remarks>Range: see the parts; target 0 to 100 Pa. Source: the chapters named in the report.</remarks>
    public static SizingReport Compute(SizingInput input)
    {
        CheckRoute(input);
        var site = input.Site;
        var gas = MoistAir.At(site.GroundC, 1, site.ElevationM);
        var ground = PfeAnalysis.Of(input.Test, gas.DensityKgPerM3);
        if (ground.Holes.Count == 0) throw new ArgumentException("No test hole has a reading with a fan on.", nameof(input));
        var pressure = gas.PressurePa;
        var testDay = StackEffect.PressurePa(input.Test.OutdoorC, input.Test.IndoorC, site.NeutralPlaneM, pressure);
        var winter = StackEffect.PressurePa(site.DesignWinterC, site.IndoorC, site.NeutralPlaneM, pressure);
        var system = SystemCurve.For(ground.Soil, input.Route, site);
        var results = input.Fans.Select(f => OneFan(f, system, ground, site, Math.Max(0, winter - testDay))).ToList();
        var ranked = results.OrderByDescending(r => r.Holds).ThenBy(r => r.Holds ? r.TenYearDollars : -r.WeakestWinterPa).ToList();
        var best = ranked.FirstOrDefault(r => r.Holds);
        return new(
            ground, ranked, best?.FanId, Verdict.Why(ranked, site.TargetPa), best is null ? Verdict.WouldHelp(input, ground, Math.Max(0, winter - testDay)) : [],
            testDay, winter, gas.DensityKgPerM3, [.. ground.Assumptions, .. Assumed(site, winter, testDay)], ground.Warnings, From);
    }

    internal static FanResult OneFan(CandidateFan fan, SystemCurve system, PfeFindings ground, SizingSite site, double extraStackPa)
    {
        if (system.Meet(fan.Curve) is not { } point) return OffCurve(fan, system);
        var holes = ground.Holes.Select(h => At(h, point.PitVacuumPa, extraStackPa)).ToList();
        var weakest = holes.MinBy(h => h.WinterPa)!;
        var holds = weakest.WinterPa >= site.TargetPa && point.Velocity != VelocityFlag.TooFast;
        var kWh = RunningCost.FanKWhPerYear(point.Watts);
        var electricity = RunningCost.Dollars(kWh, site.ElectricityCentsPerKWh);
        var houseAir = site.FuelDollarsPerTherm * RunningCost.HouseAirThermsPerYear(
            point.FlowM3PerS * site.IndoorAirShare, site.HeatingDegreeDaysC, site.HeatingEfficiency, system.DensityKgPerM3 / StandardAtmosphere.FanCurveKgPerM3);
        var fansInTenYears = Math.Ceiling(10.0 / Math.Max(1, fan.LifeYears));
        return new(
            fan.Id, fan.Name, point, holes, weakest.Label, weakest.NowPa, weakest.WinterPa, holds, Verdict.Because(point, weakest, site.TargetPa),
            kWh, electricity, houseAir, fansInTenYears * fan.PriceDollars + 10 * (electricity + houseAir), fan.NoiseDbA);
    }

    private static HoleSuction At(HoleTransfer hole, double pitVacuumPa, double extraStackPa)
    {
        double Suction(double ratio) => ratio * pitVacuumPa - hole.FanOffPa;
        return new(hole.Label, Suction(hole.Ratio), Suction(hole.Ratio) - extraStackPa, Suction(hole.Low) - extraStackPa, Suction(hole.High) - extraStackPa);
    }

    /// <summary>Sorts a fan without an operating point behind all others; JSON cannot hold minus infinity.</summary>
    private const double OffCurvePa = -1e9;

    private static FanResult OffCurve(CandidateFan fan, SystemCurve system)
    {
        var tooMuch = fan.Curve.PressurePa(fan.Curve.GreatestFlowM3PerS, system.DensityKgPerM3) > system.NeededPa(fan.Curve.GreatestFlowM3PerS);
        return new(fan.Id, fan.Name, null, [], "", 0, OffCurvePa, false, tooMuch
            ? "It would move more air here than its curve was measured for; nothing is guessed beyond the curve."
            : "It is too weak for this ground and route: the suction needed is above its curve.", 0, 0, 0, 0, fan.NoiseDbA);
    }

    private static void CheckRoute(SizingInput input)
    {
        if (input.Fans.Count == 0) throw new ArgumentException("There is no fan to compare. Put fans with their curves into the catalogue first.", nameof(input));
        if (!input.Route.Any(p => p.Kind == PieceKind.Pipe && p.LengthM > 0)) throw new ArgumentException("The route has no pipe. Write its pieces from the pit to the mouth.", nameof(input));
        if (input.Route.Count(p => p.Kind == PieceKind.Fan) != 1) throw new ArgumentException("The route needs exactly one fan among its pieces.", nameof(input));
        if (input.Route[^1].Kind == PieceKind.Fan) throw new ArgumentException("The route ends at the fan. Add the pipe from the fan to the mouth.", nameof(input));
        Require.InRange(input.Site.TargetPa, 0, 100, "Pa");
        Require.InRange(input.Site.IndoorAirShare, 0, 1, "(share)");
        foreach (var piece in input.Route)
        {
            Require.InRange(piece.LengthM, 0, 300, "m");
            Require.InRange(piece.Count, 1, 100, "pieces");
            Require.InRange(piece.K, 0, 50, "(loss coefficient)");
        }
    }

    private static IEnumerable<string> Assumed(SizingSite site, double winterPa, double testDayPa)
    {
        yield return string.Create(CultureInfo.InvariantCulture, $"{site.IndoorAirShare * 100:0} % of the exhaust is taken to be house air.");
        yield return string.Create(CultureInfo.InvariantCulture, $"Stack effect rises from {testDayPa:0.0} Pa on the day of the test to {winterPa:0.0} Pa in design winter; the difference is taken off every hole.");
        yield return "The soil gas is taken saturated, at the ground's temperature; draft of the warm stack is not counted as help.";
        yield return "Every hole's share of the pit's suction is taken to stay the same when the pit's suction changes.";
    }
}
