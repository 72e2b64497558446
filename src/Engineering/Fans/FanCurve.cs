using System.Globalization;
using MitigationOffice.Engineering.Air;

namespace MitigationOffice.Engineering.Fans;

/// <summary>One measured point of a fan at standard air.</summary>
/// <param name="FlowM3PerS">Flow, m³/s.</param>
/// <param name="StaticPressurePa">Static pressure, Pa.</param>
/// <param name="Watts">Electrical power, W.</param>
public readonly record struct FanPoint(double FlowM3PerS, double StaticPressurePa, double Watts);

/// <summary>A fan's measured curve: a cubic between the points that keeps their order (Fritsch and Carlson 1980), and nothing beyond them.</summary>
public sealed class FanCurve
{
    private readonly double[] _flow;
    private readonly double[] _pressure;
    private readonly double[] _watts;
    private readonly double[] _pressureSlope;
    private readonly double[] _wattsSlope;

    /// <summary>A curve from three or more points; pressure must fall as flow rises, watts must be positive.</summary>
    /// <param name="points">Measured points in any order.</param>
    /// <exception cref="ArgumentException">Says which point is wrong and why.</exception>
    public FanCurve(IEnumerable<FanPoint> points)
    {
        var sorted = points.OrderBy(p => p.FlowM3PerS).ToArray();
        if (sorted.Length < 3) throw new ArgumentException("A fan curve needs at least three measured points.", nameof(points));
        for (var i = 0; i < sorted.Length; i++) Check(sorted, i);
        (_flow, _pressure, _watts) = ([.. sorted.Select(p => p.FlowM3PerS)], [.. sorted.Select(p => p.StaticPressurePa)], [.. sorted.Select(p => p.Watts)]);
        (_pressureSlope, _wattsSlope) = (Slopes(_flow, _pressure), Slopes(_flow, _watts));
    }

    /// <summary>Least flow of the measured points, m³/s.</summary>
    public double LeastFlowM3PerS => _flow[0];

    /// <summary>Greatest flow of the measured points, m³/s.</summary>
    public double GreatestFlowM3PerS => _flow[^1];

    /// <summary>Greatest static pressure of the measured points at standard air, Pa.</summary>
    public double GreatestPressurePa => _pressure[0];

    /// <summary>Least static pressure of the measured points at standard air, Pa.</summary>
    public double LeastPressurePa => _pressure[^1];

    /// <summary>Static pressure at a flow, Pa, for gas of a density.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <param name="densityKgPerM3">Density of the gas, kg/m³.</param>
    /// <remarks>Range: between the measured points; refused outside. Source: fan laws, pressure in proportion to density (AMCA/ASHRAE, from memory).</remarks>
    public double PressurePa(double flowM3PerS, double densityKgPerM3 = StandardAtmosphere.FanCurveKgPerM3) =>
        Between(flowM3PerS, _pressure, _pressureSlope) * densityKgPerM3 / StandardAtmosphere.FanCurveKgPerM3;

    /// <summary>Electrical power at a flow, W, for gas of a density.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <param name="densityKgPerM3">Density of the gas, kg/m³.</param>
    /// <remarks>Range: between the measured points; refused outside. Source: fan laws, power in proportion to density (AMCA/ASHRAE, from memory).</remarks>
    public double WattsAt(double flowM3PerS, double densityKgPerM3 = StandardAtmosphere.FanCurveKgPerM3) =>
        Between(flowM3PerS, _watts, _wattsSlope) * densityKgPerM3 / StandardAtmosphere.FanCurveKgPerM3;

    /// <summary>The flow at which the fan holds a static pressure, m³/s; null where the pressure is off the curve.</summary>
    /// <param name="staticPressurePa">Static pressure, Pa.</param>
    /// <param name="densityKgPerM3">Density of the gas, kg/m³.</param>
    /// <remarks>Range: pressures of the curve. Source: the measured curve, inverted by bisection to 1e-9 m³/s.</remarks>
    public double? FlowAt(double staticPressurePa, double densityKgPerM3 = StandardAtmosphere.FanCurveKgPerM3)
    {
        var wanted = staticPressurePa * StandardAtmosphere.FanCurveKgPerM3 / densityKgPerM3;
        if (wanted > _pressure[0] || wanted < _pressure[^1]) return null;
        var (low, high) = (_flow[0], _flow[^1]);
        while (high - low > 1e-9)
        {
            var middle = (low + high) / 2;
            if (Between(middle, _pressure, _pressureSlope) > wanted) low = middle;
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
        return new(_flow.Select((q, i) => new FanPoint(q * ratio, _pressure[i] * ratio * ratio, _watts[i] * ratio * ratio * ratio)));
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

    private double Between(double flow, double[] values, double[] slopes)
    {
        if (flow < _flow[0] || flow > _flow[^1])
            throw new ArgumentOutOfRangeException(nameof(flow), flow, string.Create(CultureInfo.InvariantCulture,
                $"A flow of {flow * 1000:0.##} L/s is off the fan's curve, which was measured from {_flow[0] * 1000:0.##} to {_flow[^1] * 1000:0.##} L/s."));
        var i = Array.BinarySearch(_flow, flow);
        if (i >= 0) return values[i];
        i = ~i - 1;
        var width = _flow[i + 1] - _flow[i];
        var t = (flow - _flow[i]) / width;
        var (t2, t3) = (t * t, t * t * t);
        return (2 * t3 - 3 * t2 + 1) * values[i] + (t3 - 2 * t2 + t) * width * slopes[i] + (3 * t2 - 2 * t3) * values[i + 1] + (t3 - t2) * width * slopes[i + 1];
    }

    private static double[] Slopes(double[] x, double[] y)
    {
        var n = x.Length;
        var chord = new double[n - 1];
        for (var i = 0; i < n - 1; i++) chord[i] = (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
        var slope = new double[n];
        (slope[0], slope[^1]) = (chord[0], chord[^1]);
        for (var i = 1; i < n - 1; i++) slope[i] = chord[i - 1] * chord[i] <= 0 ? 0 : Harmonic(chord[i - 1], chord[i], x[i] - x[i - 1], x[i + 1] - x[i]);
        for (var i = 0; i < n - 1; i++) Limit(slope, chord, i);
        return slope;
    }

    private static double Harmonic(double before, double after, double widthBefore, double widthAfter)
    {
        var (w1, w2) = (2 * widthAfter + widthBefore, widthAfter + 2 * widthBefore);
        return (w1 + w2) / (w1 / before + w2 / after);
    }

    private static void Limit(double[] slope, double[] chord, int i)
    {
        if (chord[i] == 0)
        {
            (slope[i], slope[i + 1]) = (0, 0);
            return;
        }

        var (a, b) = (slope[i] / chord[i], slope[i + 1] / chord[i]);
        var length = a * a + b * b;
        if (length <= 9) return;
        var scale = 3 / Math.Sqrt(length);
        (slope[i], slope[i + 1]) = (scale * a * chord[i], scale * b * chord[i]);
    }
}
