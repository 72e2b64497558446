using System.Globalization;
using MitigationOffice.Engineering.Air;
using MitigationOffice.Engineering.Network;
using MitigationOffice.Engineering.Piping;

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

    /// <summary>The whole report. Cost: fans × (pieces + suction points cubed) × about seven Newton steps × the seven cases behind the range.</summary>
    /// <param name="input">What is known.</param>
    /// <exception cref="ArgumentException">Says what is missing or out of range.</exception>
    /// <remarks>Range: see the parts; target 0 to 100 Pa, 1 to 12 suction points. Source: the chapters named in the report.</remarks>
    public static SizingReport Compute(SizingInput input)
    {
        CheckInput(input);
        var here = new SizingCase(input);
        if (here.Grounds.All(ground => ground.Holes.Count == 0)) throw new ArgumentException("No test hole has a reading with a fan on.", nameof(input));
        var ranked = Rank(input.Fans.Select(here.Judge));
        var best = ranked.FirstOrDefault(result => result.Holds);
        return new(
            here.Grounds[0], ranked, best?.FanId, Verdict.Why(ranked, input.Site.TargetPa), best is null ? WaysOut.Of(input, here, ranked) : [],
            here.StackTestDayPa, here.StackWinterPa, here.DensityKgPerM3, [.. here.Grounds.SelectMany(ground => ground.Assumptions), .. Assumed(input, here)],
            [.. here.Grounds.SelectMany(ground => ground.Warnings)], From)
        { FurtherGrounds = [.. here.Grounds.Skip(1)] };
    }

    /// <summary>What the fan must give at rising flows, with every suction point drawing: pairs of flow, m³/s, and pressure, Pa, from rest
    /// to a flow. Cost: one balance of the tree a point, and about a dozen more to find where the curve ends.</summary>
    /// <param name="input">What is known.</param>
    /// <param name="sized">Its report.</param>
    /// <param name="toFlowM3PerS">Where the curve ends, m³/s.</param>
    /// <param name="steps">How many points beyond the one at rest (count).</param>
    /// <exception cref="ArgumentException">Says what is out of range.</exception>
    /// <remarks>Range: flow 1e-6 to 5 m³/s, 1 to 1000 steps; the curve ends early where it would need more than 50 kPa.
    /// Source: the balance of <see cref="AirNetwork"/> at held pressures, spaced by the square so that the flows lie about evenly.
    /// Example: every fan's operating point in the report lies on this curve.</remarks>
    public static IReadOnlyList<(double FlowM3PerS, double PressurePa)> Curve(SizingInput input, SizingReport sized, double toFlowM3PerS, int steps)
    {
        Require.InRange(toFlowM3PerS, 1e-6, 5, "m³/s");
        Require.InRange(steps, 1, 1000, "(steps)");
        var gas = MoistAir.At(input.Site.GroundC, 1, input.Site.ElevationM);
        var tree = RouteTree.Of(input.Route, sized.Ground.Soil, input.FurtherPoints, [.. sized.FurtherGrounds.Select(ground => ground.Soil)]);
        var network = new AirNetwork(tree.Branches, tree.Discharge, gas.DensityKgPerM3, gas.ViscosityPaS);
        var end = EndPa(network, toFlowM3PerS);
        return [(0, 0), .. Enumerable.Range(1, steps).Select(i => end * i * i / steps / steps).Select(pa => (network.SolveFlowM3PerS(pa), pa))];
    }

    /// <summary>The pressure at which the tree takes a flow, by doubling and then halving to a thousandth.</summary>
    private static double EndPa(AirNetwork network, double flow)
    {
        const double MostPa = 50_000;
        var high = 100.0;
        while (high < MostPa && network.SolveFlowM3PerS(high) < flow) high *= 2;
        if (high >= MostPa) return MostPa;
        for (var low = 0.0; high - low > 1e-3 * high;)
        {
            var middle = (low + high) / 2;
            if (network.SolveFlowM3PerS(middle) < flow) low = middle;
            else high = middle;
        }

        return high;
    }

    /// <summary>Those that hold by whole cost, then the others by what they leave at the weakest hole.</summary>
    internal static List<FanResult> Rank(IEnumerable<FanResult> results) =>
        [.. results.OrderByDescending(r => r.Holds).ThenBy(r => r.Holds ? r.TenYearDollars : -r.WeakestWinterPa)];

    private static void CheckInput(SizingInput input)
    {
        if (input.Fans.Count == 0) throw new ArgumentException("There is no fan to compare. Put fans with their curves into the catalogue first.", nameof(input));
        if (!input.Route.Any(p => p.Kind == PieceKind.Pipe && p.LengthM > 0)) throw new ArgumentException("The route has no pipe. Write its pieces from the pit to the mouth.", nameof(input));
        if (input.Route.Count(p => p.Kind == PieceKind.Fan) != 1) throw new ArgumentException("The route needs exactly one fan among its pieces.", nameof(input));
        if (input.Route[^1].Kind == PieceKind.Fan) throw new ArgumentException("The route ends at the fan. Add the pipe from the fan to the mouth.", nameof(input));
        Require.InRange(input.Site.TargetPa, 0, 100, "Pa");
        Require.InRange(input.Site.IndoorAirShare, 0, 1, "(share)");
        foreach (var piece in input.Route.Concat(input.FurtherPoints.SelectMany(point => point.Branch))) CheckPiece(piece);
    }

    private static void CheckPiece(RoutePiece piece)
    {
        Require.InRange(piece.LengthM, 0, 300, "m");
        Require.InRange(piece.Count, 1, 100, "pieces");
        Require.InRange(piece.K, 0, 50, "(loss coefficient)");
    }

    private static IEnumerable<string> Assumed(SizingInput input, SizingCase here)
    {
        yield return string.Create(CultureInfo.InvariantCulture, $"{input.Site.IndoorAirShare * 100:0} % of the exhaust is taken to be house air.");
        yield return string.Create(CultureInfo.InvariantCulture, $"Stack effect rises from {here.StackTestDayPa:0.0} Pa on the day of the test to {here.StackWinterPa:0.0} Pa in design winter; the difference is taken off every hole.");
        if (here.StackTestDayPa > here.StackWinterPa) yield return "The test's day pulled harder than design winter will; nothing is added back for that.";
        yield return "The soil gas is taken saturated, at the ground's temperature; draft of the warm stack is not counted as help.";
        yield return "Every hole's share of the pit's suction is taken to stay the same when the pit's suction changes.";
        if (input.FurtherPoints.Count > 0) yield return "At each hole the suction point that brings most is counted alone; the others can only add to it.";
        yield return "The range of a hole's suction is what half a mark at the gauges, the spread between settings and fittings from half to double their handbook loss allow, each at its worst.";
    }
}
