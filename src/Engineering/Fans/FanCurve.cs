using System.Globalization;
using MitigationOffice.Engineering.Air;

namespace MitigationOffice.Engineering.Fans;

/// <summary>A fan's measured curve: a cubic between the points that keeps their order (Fritsch and Carlson 1980), and nothing beyond them.</summary>
public sealed class FanCurve
{
    private readonly FanPoint[] _points;
    private readonly MonotoneCubic _pressure;
    private readonly MonotoneCubic _watts;

    /// <summary>A curve from three or more points; pressure must fall as flow rises, watts must be positive.</summary>
    /// <param name="points">Measured points in any order.</param>
    /// <exception cref="ArgumentException">Says which point is wrong and why.</exception>
    public FanCurve(IEnumerable<FanPoint> points)
    {
        var sorted = points.OrderBy(p => p.FlowM3PerS).ToArray();
        if (sorted.Length < 3) throw new ArgumentException("A fan curve needs at least three measured points.", nameof(points));
        for (var i = 0; i < sorted.Length; i++) Check(sorted, i);
        _points = sorted;
        double[] flow = [.. sorted.Select(p => p.FlowM3PerS)];
        _pressure = new(flow, [.. sorted.Select(p => p.StaticPressurePa)]);
        _watts = new(flow, [.. sorted.Select(p => p.Watts)]);
    }

    /// <summary>Least flow of the measured points, m³/s.</summary>
    public double LeastFlowM3PerS => _points[0].FlowM3PerS;

    /// <summary>Greatest flow of the measured points, m³/s.</summary>
    public double GreatestFlowM3PerS => _points[^1].FlowM3PerS;

    /// <summary>Greatest static pressure of the measured points at standard air, Pa.</summary>
    public double GreatestPressurePa => _points[0].StaticPressurePa;

    /// <summary>Least static pressure of the measured points at standard air, Pa.</summary>
    public double LeastPressurePa => _points[^1].StaticPressurePa;

    /// <summary>The measured points at standard air, least flow first.</summary>
    public IReadOnlyList<FanPoint> Points => _points;

    /// <summary>Whether a flow lies between the measured points.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <remarks>Range: any flow. Source: definition.</remarks>
    public bool Covers(double flowM3PerS) => flowM3PerS >= LeastFlowM3PerS && flowM3PerS <= GreatestFlowM3PerS;

    /// <summary>Slope of the static pressure over the flow, Pa·s/m³, for gas of a density: how far off a flow is when the pressure was misread.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <param name="densityKgPerM3">Density of the gas, kg/m³.</param>
    /// <exception cref="OffFanCurveException">The flow lies outside the measured points.</exception>
    /// <remarks>Range: between the measured points; refused outside. Source: derivative of the cubic. Example: straight from 500 Pa to 0 Pa over 0.1 m³/s → −5000 Pa·s/m³.</remarks>
    public double SlopePaSPerM3(double flowM3PerS, double densityKgPerM3 = StandardAtmosphere.FanCurveKgPerM3) =>
        _pressure.At(OnCurve(flowM3PerS)).Slope * densityKgPerM3 / StandardAtmosphere.FanCurveKgPerM3;

    /// <summary>Static pressure at a flow, Pa, for gas of a density.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <param name="densityKgPerM3">Density of the gas, kg/m³.</param>
    /// <exception cref="OffFanCurveException">The flow lies outside the measured points.</exception>
    /// <remarks>Range: between the measured points; refused outside. Source: fan laws, pressure in proportion to density (AMCA/ASHRAE, from memory).</remarks>
    public double PressurePa(double flowM3PerS, double densityKgPerM3 = StandardAtmosphere.FanCurveKgPerM3) =>
        _pressure.At(OnCurve(flowM3PerS)).Value * densityKgPerM3 / StandardAtmosphere.FanCurveKgPerM3;

    /// <summary>Electrical power at a flow, W, for gas of a density.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <param name="densityKgPerM3">Density of the gas, kg/m³.</param>
    /// <exception cref="OffFanCurveException">The flow lies outside the measured points.</exception>
    /// <remarks>Range: between the measured points; refused outside. Source: fan laws, power in proportion to density (AMCA/ASHRAE, from memory).</remarks>
    public double WattsAt(double flowM3PerS, double densityKgPerM3 = StandardAtmosphere.FanCurveKgPerM3) =>
        _watts.At(OnCurve(flowM3PerS)).Value * densityKgPerM3 / StandardAtmosphere.FanCurveKgPerM3;

    /// <summary>The flow at which the fan holds a static pressure, m³/s; null where the pressure is off the curve.</summary>
    /// <param name="staticPressurePa">Static pressure, Pa.</param>
    /// <param name="densityKgPerM3">Density of the gas, kg/m³.</param>
    /// <remarks>Range: pressures of the curve. Source: the measured curve, inverted by bisection to 1e-9 m³/s.</remarks>
    public double? FlowAt(double staticPressurePa, double densityKgPerM3 = StandardAtmosphere.FanCurveKgPerM3)
    {
        var wanted = staticPressurePa * StandardAtmosphere.FanCurveKgPerM3 / densityKgPerM3;
        if (wanted > _points[0].StaticPressurePa || wanted < _points[^1].StaticPressurePa) return null;
        var (low, high) = (_points[0].FlowM3PerS, _points[^1].FlowM3PerS);
        while (high - low > 1e-9)
        {
            var middle = (low + high) / 2;
            if (_pressure.At(middle).Value > wanted) low = middle;
            else high = middle;
        }

        return (low + high) / 2;
    }

    /// <summary>The same fan turned at another speed.</summary>
    /// <param name="ratio">New speed over old, dimensionless.</param>
    /// <remarks>Range: 0.2 to 2; refused outside. Source: affinity laws, flow × ratio, pressure × ratio², power × ratio³ (from memory).</remarks>
    public FanCurve AtSpeed(double ratio)
    {
        Require.InRange(ratio, 0.2, 2, "(speed ratio)");
        return new(_points.Select(p => new FanPoint(p.FlowM3PerS * ratio, p.StaticPressurePa * ratio * ratio, p.Watts * ratio * ratio * ratio)));
    }

    private static void Check(FanPoint[] sorted, int i)
    {
        var p = sorted[i];
        var where = string.Create(CultureInfo.InvariantCulture, $"{p.FlowM3PerS * 1000:0.##} L/s");
        if (!double.IsFinite(p.FlowM3PerS) || !double.IsFinite(p.StaticPressurePa) || !double.IsFinite(p.Watts) || p.FlowM3PerS < 0 || p.StaticPressurePa < 0)
            throw new ArgumentException($"The fan's point at {where} has a negative or missing number.", nameof(sorted));
        if (p.Watts <= 0) throw new ArgumentException($"The fan's point at {where} needs its watts.", nameof(sorted));
        if (i == 0) return;
        if (p.FlowM3PerS <= sorted[i - 1].FlowM3PerS) throw new ArgumentException($"Two of the fan's points stand at the same flow, {where}.", nameof(sorted));
        if (p.StaticPressurePa >= sorted[i - 1].StaticPressurePa) throw new ArgumentException($"The fan's static pressure must fall as the flow rises; it does not at {where}.", nameof(sorted));
    }

    /// <summary>Pressure at standard air and its slope, carried on in a straight line beyond the points so that a search can pass there;
    /// what it finds is held against <see cref="Covers"/> afterwards.</summary>
    internal (double Pa, double Slope) ForSearch(double flowM3PerS) => _pressure.At(flowM3PerS);

    private double OnCurve(double flowM3PerS) => Covers(flowM3PerS)
        ? flowM3PerS
        : throw new OffFanCurveException(nameof(flowM3PerS), flowM3PerS, string.Create(CultureInfo.InvariantCulture,
            $"A flow of {flowM3PerS * 1000:0.##} L/s is off the fan's curve, which was measured from {LeastFlowM3PerS * 1000:0.##} to {GreatestFlowM3PerS * 1000:0.##} L/s."));
}
