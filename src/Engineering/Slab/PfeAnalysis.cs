using System.Globalization;
using MitigationOffice.Engineering.Air;
using MitigationOffice.Engineering.Fans;

namespace MitigationOffice.Engineering.Slab;

/// <summary>Reads a PFE test: flow, soil resistance and the transfer to every hole.</summary>
public static class PfeAnalysis
{
    /// <summary>What a measured flow is taken to be off by at most, as a share (dimensionless): a tenth, common practice, no source.</summary>
    public const double FlowMeterShare = 0.1;

    /// <summary>What the test says. A setting without a flow, measured or from its fan's curve, is left out of the soil fit; one must remain.</summary>
    /// <param name="test">The test.</param>
    /// <param name="densityKgPerM3">Density of the gas that day, kg/m³.</param>
    /// <exception cref="ArgumentException">Says which reading is missing or makes no sense.</exception>
    /// <remarks>Range: pit suction 1 to 20 000 Pa, readings −5000 to 5000 Pa. Source: power law of leakage; common practice for reading flow off a curve, no source.</remarks>
    public static PfeFindings Of(PfeTest test, double densityKgPerM3 = StandardAtmosphere.FanCurveKgPerM3)
    {
        if (test.Settings.Count == 0) throw new ArgumentException("The test needs one fan or vacuum that was tried, with the suction in the pit.", nameof(test));
        if (test.Holes.Count == 0) throw new ArgumentException("The test needs at least one test hole.", nameof(test));
        foreach (var setting in test.Settings) Require.InRange(setting.PitVacuumPa, 1, 20_000, "Pa");
        var (assumptions, warnings) = (new List<string>(), new List<string>());
        var flows = test.Settings.Select(s => FlowOf(s, test.PitResolutionPa, densityKgPerM3, assumptions, warnings)).OfType<SettingFlow>().ToList();
        if (flows.Count == 0)
            throw new ArgumentException("No flow is known: measure it, or say which fan of the catalogue was tried so that it can be read off the curve.", nameof(test));
        var soil = SoilOf(flows, assumptions);
        return new(soil, flows, [.. test.Holes.Select(h => TransferOf(h, test, assumptions, warnings)).OfType<HoleTransfer>()], assumptions, warnings);
    }

    /// <summary>The same test with the gauge at the pit read half a mark too low (side −1) or too high (side 1) throughout, and measured flows off by a factor.</summary>
    internal static PfeFindings Misread(PfeTest test, double side, double flowFactor, double densityKgPerM3)
    {
        var shift = side * test.PitResolutionPa;
        return Of(test with { Settings = [.. test.Settings.Select(s => Misread(s, shift, flowFactor, densityKgPerM3))], PitResolutionPa = 0 }, densityKgPerM3);
    }

    /// <summary>A reading at the edge of the fan's curve is moved no further than just before the edge: the fan did run.</summary>
    private static PfeSetting Misread(PfeSetting setting, double shiftPa, double flowFactor, double density)
    {
        var vacuum = Math.Max(1, setting.PitVacuumPa + shiftPa);
        if (setting.Curve is { } curve && curve.FlowAt(setting.PitVacuumPa, density) is not null)
            vacuum = Math.Clamp(vacuum, Math.Min(setting.PitVacuumPa, PressureAlong(curve, 0.99, density)), Math.Max(setting.PitVacuumPa, PressureAlong(curve, 0.01, density)));
        return setting with { PitVacuumPa = vacuum, FlowM3PerS = setting.FlowM3PerS * flowFactor, Watts = null };
    }

    private static double PressureAlong(FanCurve curve, double share, double density) =>
        curve.PressurePa(curve.LeastFlowM3PerS + share * (curve.GreatestFlowM3PerS - curve.LeastFlowM3PerS), density);

    private static SettingFlow? FlowOf(PfeSetting s, double resolution, double density, List<string> assumptions, List<string> warnings)
    {
        var read = s.Curve?.FlowAt(s.PitVacuumPa, density);
        var curveWatts = read is { } q ? s.Curve!.WattsAt(q, density) : (double?)null;
        if (s.Curve is not null && read is null)
            warnings.Add(Say($"{s.Label}: {s.PitVacuumPa / TradeUnits.PaPerInWC:0.00} inWC is off this fan's curve ({s.Curve.LeastPressurePa / TradeUnits.PaPerInWC:0.00} to {s.Curve.GreatestPressurePa / TradeUnits.PaPerInWC:0.00} inWC). Wrong fan, wrong reading, or a blocked pipe."));
        if (s.Watts is { } watts && curveWatts is { } expected && Math.Abs(watts - expected) > Math.Max(0.15 * expected, 2))
            warnings.Add(Say($"{s.Label}: {watts:0.#} W were measured where its curve gives {expected:0.#} W at that suction. Wrong fan, wrong reading, or a blocked pipe."));
        if (s.FlowM3PerS is { } measured && measured > 0)
        {
            if (read is { } fromCurve && Math.Abs(fromCurve - measured) > 0.3 * measured)
                warnings.Add(Say($"{s.Label}: the measured flow and the fan's curve differ by more than 30 %. The measured one is used."));
            return new(s.Label, s.PitVacuumPa, measured, measured * (1 - FlowMeterShare), measured * (1 + FlowMeterShare), true, curveWatts);
        }

        if (read is not { } flow || flow <= 0) return null;
        assumptions.Add($"{s.Label}: flow read off the fan's curve at the measured static pressure.");
        var low = s.Curve!.FlowAt(Math.Min(s.PitVacuumPa + resolution, s.Curve.GreatestPressurePa * density / StandardAtmosphere.FanCurveKgPerM3), density) ?? flow;
        var high = s.Curve.FlowAt(Math.Max(s.PitVacuumPa - resolution, s.Curve.LeastPressurePa * density / StandardAtmosphere.FanCurveKgPerM3), density) ?? flow;
        return new(s.Label, s.PitVacuumPa, flow, low, high, false, curveWatts);
    }

    /// <summary>n by least squares on logarithms where the settings differ enough, held to 0.5…1; else 1.</summary>
    private static SoilResistance SoilOf(List<SettingFlow> flows, List<string> assumptions)
    {
        var spread = flows.Max(f => f.PitVacuumPa) / flows.Min(f => f.PitVacuumPa);
        var x = flows.ConvertAll(f => Math.Log(f.PitVacuumPa));
        var y = flows.ConvertAll(f => Math.Log(f.FlowM3PerS));
        var (mx, my) = (x.Average(), y.Average());
        if (flows.Count < 2 || spread < 1.15)
        {
            assumptions.Add(flows.Count < 2 ? "Soil exponent assumed 1: only one setting gave a flow." : "Soil exponent assumed 1: the settings lie too close together to fit it.");
            return new(Math.Exp(my - mx), 1, true);
        }

        var fitted = x.Zip(y, (a, b) => (a - mx) * (b - my)).Sum() / x.Sum(a => (a - mx) * (a - mx));
        var n = Math.Clamp(fitted, 0.5, 1);
        if (n != fitted) assumptions.Add(Say($"The settings fit a soil exponent of {fitted:0.00}; {n:0.0} is used, the nearest that flow through soil can have."));
        return new(Math.Exp(my - n * mx), n, false);
    }

    private static HoleTransfer? TransferOf(PfeHole hole, PfeTest test, List<string> assumptions, List<string> warnings)
    {
        if (hole.FanOnPa.Count != test.Settings.Count) throw new ArgumentException($"Hole {hole.Label} has {hole.FanOnPa.Count} readings for {test.Settings.Count} settings.", nameof(hole));
        var off = hole.FanOffPa ?? 0;
        Require.InRange(off, -5000, 5000, "Pa");
        if (hole.FanOffPa is null) assumptions.Add($"Hole {hole.Label}: no reading with the fan off; 0 Pa taken.");
        var ratios = new List<(double Ratio, double Slack)>();
        foreach (var (setting, on) in test.Settings.Zip(hole.FanOnPa))
        {
            if (on is not { } reading) continue;
            var change = off - Require.InRange(reading, -5000, 5000, "Pa");
            if (change < -2 * test.HoleResolutionPa) warnings.Add(Say($"Hole {hole.Label}: with {setting.Label} the pressure rose by {-change:0.0} Pa where it should fall. Look at the sign or the wind; 0 is used."));
            if (change > setting.PitVacuumPa) warnings.Add(Say($"Hole {hole.Label}: with {setting.Label} it shows more suction than the pit itself."));
            var ratio = Math.Clamp(change / setting.PitVacuumPa, 0, 1);
            ratios.Add((ratio, Math.Sqrt(2) * test.HoleResolutionPa / setting.PitVacuumPa + ratio * test.PitResolutionPa / setting.PitVacuumPa));
        }

        if (ratios.Count == 0)
        {
            warnings.Add($"Hole {hole.Label} has no reading with a fan on; it is left out.");
            return null;
        }

        var mean = ratios.Average(r => r.Ratio);
        return new(hole.Label, mean, Math.Max(0, ratios.Min(r => r.Ratio - r.Slack)), Math.Min(1, ratios.Max(r => r.Ratio + r.Slack)), off);
    }

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
