using MitigationOffice.Engineering.Fans;
using static MitigationOffice.Engineering.Require;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>One point of a fan's measured curve.</summary>
public readonly record struct CurvePoint
{
    /// <summary>Makes a point. Example: 0.0104 m³/s at 250 Pa.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <param name="staticPa">Static pressure, Pa.</param>
    /// <remarks>Range: 0 or more in both. Source: the fan's data sheet or a measurement.</remarks>
    public CurvePoint(double flowM3PerS, double staticPa) => (FlowM3PerS, StaticPa) = (flowM3PerS, staticPa);

    /// <summary>Flow, m³/s.</summary>
    public double FlowM3PerS { get; }

    /// <summary>Static pressure, Pa.</summary>
    public double StaticPa { get; }
}

/// <summary>
/// Fan and suction side of the system, as far as a closing mouth matters: it says what flow is left and what the U-tube on
/// the suction side shows.
/// </summary>
public sealed record SuctionSystem
{
    /// <summary>The fan's curve, from no flow to at least the open flow, pressures not rising.</summary>
    public required IReadOnlyList<CurvePoint> Curve { get; init; }

    /// <summary>Vacuum that the U-tube shows with the mouth open, Pa.</summary>
    public required double OpenGaugePa { get; init; }

    /// <summary>
    /// Exponent with which the suction side's loss grows with flow, dimensionless (1 to 2): 1 is tight soil, 2 is pipe.
    /// </summary>
    public double SuctionExponent { get; init; } = 1.3;

    /// <summary>Contraction of the stream through the iced mouth, dimensionless (0.6 to 1); an assumption.</summary>
    public double MouthContraction { get; init; } = 0.8;

    /// <summary>Whether the fan was measured from no flow on; where it was not, its pressure is held below its first measured flow.</summary>
    public bool CurveFromNoFlow { get; init; } = true;

    /// <summary>
    /// The system of a fan at its operating point. A curve measured only from some flow on is held at its first pressure down
    /// to no flow, since a closing mouth leads there: an assumption, on the low side for a fan whose pressure still rises.
    /// Example: a fan that gives 300 Pa at no flow and 240 Pa at 0.0104 m³/s, with 230 Pa on the gauge.
    /// </summary>
    /// <param name="fan">The fan's measured curve, at standard air.</param>
    /// <param name="densityKgPerM3">Density of the gas, kg/m³.</param>
    /// <param name="openFlowM3PerS">Flow with the mouth open, m³/s.</param>
    /// <param name="openGaugePa">Vacuum that the U-tube shows with the mouth open, Pa.</param>
    /// <param name="suctionExponent">Exponent of the suction side's loss over flow, dimensionless.</param>
    /// <returns>The system, ready for a forecast.</returns>
    /// <exception cref="OffFanCurveException">The open flow lies off the fan's measured curve.</exception>
    /// <remarks>Range: open flow on the measured curve; gauge from 0 to the fan's pressure there, exponent 1 to 2, both checked where
    /// the system is used. Source: the fan's measurement, fan laws for density; straight lines between 33 points of the curve.</remarks>
    public static SuctionSystem Of(FanCurve fan, double densityKgPerM3, double openFlowM3PerS, double openGaugePa, double suctionExponent)
    {
        const int steps = 32;
        var span = fan.GreatestFlowM3PerS - fan.LeastFlowM3PerS;
        var flows = Enumerable.Range(0, steps + 1).Select(step => step == steps ? fan.GreatestFlowM3PerS : fan.LeastFlowM3PerS + span * step / steps);
        var points = flows.Append(openFlowM3PerS).Distinct().Order().Select(flow => new CurvePoint(flow, fan.PressurePa(flow, densityKgPerM3))).ToList();
        var whole = fan.LeastFlowM3PerS == 0;
        if (!whole) points.Insert(0, new CurvePoint(0, points[0].StaticPa));
        return new SuctionSystem { Curve = points, OpenGaugePa = openGaugePa, SuctionExponent = suctionExponent, CurveFromNoFlow = whole };
    }

    /// <summary>
    /// Flow that is left when ice leaves a share of the mouth open, m³/s. Example: share 1 gives the open flow, share 0 gives 0.
    /// </summary>
    /// <param name="openShare">Open share of the mouth, dimensionless.</param>
    /// <param name="openFlowM3PerS">Flow with the mouth open, m³/s.</param>
    /// <param name="boreM">Inner diameter of the bare pipe, m.</param>
    /// <returns>Flow, m³/s.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below, or the curve does not reach.</exception>
    /// <remarks>
    /// Range: open share 0 to 1, flow 0.0005 to 0.5 m³/s, bore 0.03 to 0.4 m. The curve must start at no flow and reach the
    /// open flow; it must give at least the open gauge reading there.
    /// Source: the mouth's added loss is that of a narrowing, ½ρv²(1/s² − 1)/c² on the pipe's velocity (continuity and
    /// Bernoulli); the rest is the balance of fan and losses.
    /// </remarks>
    public double FlowM3PerS(double openShare, double openFlowM3PerS, double boreM)
    {
        InRange(openShare, 0, 1, "(number)", "Open share");
        CheckAgainst(openFlowM3PerS, boreM);
        if (openShare <= RunMarch.ShutOpenShare) return 0;
        var (low, high) = (0.0, openFlowM3PerS);
        for (var turn = 0; turn < 50; turn++)
        {
            var flow = (low + high) / 2;
            if (SparePa(flow, openShare, openFlowM3PerS, boreM) > 0) low = flow;
            else high = flow;
        }
        return (low + high) / 2;
    }

    /// <summary>
    /// Vacuum that the U-tube shows at a flow, Pa. Example: at the open flow it is the open reading; at no flow 0.
    /// </summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <param name="openFlowM3PerS">Flow with the mouth open, m³/s.</param>
    /// <returns>Vacuum on the suction side, Pa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below.</exception>
    /// <remarks>
    /// Range: open flow 0.0005 to 0.5 m³/s; flow from 0 to twice the open flow.
    /// Source: power law through the open reading; that a closing mouth lowers the gauge is common practice, no source.
    /// </remarks>
    public double GaugePa(double flowM3PerS, double openFlowM3PerS)
    {
        InRange(openFlowM3PerS, 0.0005, 0.5, "m³/s", "Open flow");
        InRange(flowM3PerS, 0, 2 * openFlowM3PerS, "m³/s", "Flow");
        return OpenGaugePa * Math.Pow(flowM3PerS / openFlowM3PerS, SuctionExponent);
    }

    internal void CheckAgainst(double openFlowM3PerS, double boreM)
    {
        InRange(openFlowM3PerS, 0.0005, 0.5, "m³/s", "Open flow");
        InRange(boreM, 0.03, 0.4, "m", "Bore");
        InRange(SuctionExponent, 1, 2, "(number)", "Exponent of the suction side");
        InRange(MouthContraction, 0.6, 1, "(number)", "Contraction of the mouth");
        if (Curve.Count < 2) throw Words.Refusal("Fan curve", "The fan curve needs at least two points.");
        InRange(Curve[0].FlowM3PerS, 0, 0, "m³/s", "First flow of the fan curve");
        InRange(openFlowM3PerS, 0, Curve[^1].FlowM3PerS, "m³/s", "Open flow against the end of the fan curve");
        for (var at = 1; at < Curve.Count; at++) CheckStep(Curve[at - 1], Curve[at]);
        InRange(OpenGaugePa, 0, FanPa(openFlowM3PerS), "Pa", "Open gauge reading against the fan's pressure");
    }

    private static void CheckStep(CurvePoint before, CurvePoint after)
    {
        if (after.FlowM3PerS <= before.FlowM3PerS)
            throw Words.Refusal("Fan curve", Words.Say($"Flows of the fan curve must rise; {after.FlowM3PerS:G4} m³/s follows {before.FlowM3PerS:G4} m³/s."));
        if (after.StaticPa > before.StaticPa)
            throw Words.Refusal("Fan curve", Words.Say($"Pressures of the fan curve must not rise with flow; {after.StaticPa:G4} Pa follows {before.StaticPa:G4} Pa."));
    }

    private double SparePa(double flow, double openShare, double openFlow, double boreM)
    {
        const double airKgPerM3 = 1.25;
        var speed = flow / (Math.PI * boreM * boreM / 4);
        var mouth = 0.5 * airKgPerM3 * speed * speed * (1 / (openShare * openShare) - 1) / (MouthContraction * MouthContraction);
        var share = flow / openFlow;
        var discharge = (FanPa(openFlow) - OpenGaugePa) * share * share;
        return FanPa(flow) - OpenGaugePa * Math.Pow(share, SuctionExponent) - discharge - mouth;
    }

    internal double FanPa(double flow)
    {
        var at = 1;
        while (at < Curve.Count - 1 && Curve[at].FlowM3PerS < flow) at++;
        var (a, b) = (Curve[at - 1], Curve[at]);
        return a.StaticPa + (flow - a.FlowM3PerS) / (b.FlowM3PerS - a.FlowM3PerS) * (b.StaticPa - a.StaticPa);
    }
}
