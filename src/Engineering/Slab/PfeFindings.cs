namespace MitigationOffice.Engineering.Slab;

/// <summary>How the ground under the slab resists: Q = G·pⁿ.</summary>
/// <param name="ConductanceG">G, m³/(s·Paⁿ).</param>
/// <param name="Exponent">n, dimensionless, 0.5 (turbulent) to 1 (laminar).</param>
/// <param name="ExponentAssumed">True where only one setting was measured and n = 1 was taken.</param>
public sealed record SoilResistance(double ConductanceG, double Exponent, bool ExponentAssumed)
{
    /// <summary>Suction needed in the pit for a flow, Pa. Example: G 1e-4, n 1, 0.02 m³/s → 200 Pa.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <remarks>Range: flow 0 and up. Source: power law of leakage, as for building envelopes (ASHRAE Fundamentals, from memory).</remarks>
    public double PitVacuumPa(double flowM3PerS) => flowM3PerS <= 0 ? 0 : Math.Pow(flowM3PerS / ConductanceG, 1 / Exponent);

    /// <summary>Flow drawn by a suction in the pit, m³/s.</summary>
    /// <param name="pitVacuumPa">Suction in the pit, Pa.</param>
    /// <remarks>Range: suction 0 and up. Source: the same law.</remarks>
    public double FlowM3PerS(double pitVacuumPa) => pitVacuumPa <= 0 ? 0 : ConductanceG * Math.Pow(pitVacuumPa, Exponent);
}

/// <summary>Flow at one setting and where it came from.</summary>
/// <param name="Label">The setting.</param>
/// <param name="PitVacuumPa">Suction in the pit, Pa.</param>
/// <param name="FlowM3PerS">Flow, m³/s.</param>
/// <param name="LowM3PerS">Least flow that the reading allows, m³/s.</param>
/// <param name="HighM3PerS">Greatest flow that the reading allows, m³/s.</param>
/// <param name="Measured">True where the flow was measured, false where it was read off the fan's curve.</param>
/// <param name="CurveWatts">Power the curve gives there, W; null without a curve.</param>
public sealed record SettingFlow(string Label, double PitVacuumPa, double FlowM3PerS, double LowM3PerS, double HighM3PerS, bool Measured, double? CurveWatts);

/// <summary>What share of the pit's suction reaches a hole.</summary>
/// <param name="Label">The hole.</param>
/// <param name="Ratio">Change at the hole over suction in the pit, dimensionless; mean over the settings.</param>
/// <param name="Low">Least ratio that readings and their resolution allow, dimensionless.</param>
/// <param name="High">Greatest such ratio, dimensionless.</param>
/// <param name="FanOffPa">Reading with the fan off, Pa; 0 where none was taken.</param>
public sealed record HoleTransfer(string Label, double Ratio, double Low, double High, double FanOffPa);

/// <summary>What a PFE test says about the ground.</summary>
/// <param name="Soil">Soil resistance of the suction point.</param>
/// <param name="Flows">Flow at each setting.</param>
/// <param name="Holes">Transfer to each hole.</param>
/// <param name="Assumptions">Sentences: what was taken for granted.</param>
/// <param name="Warnings">Sentences: what does not fit.</param>
public sealed record PfeFindings(
    SoilResistance Soil, IReadOnlyList<SettingFlow> Flows, IReadOnlyList<HoleTransfer> Holes, IReadOnlyList<string> Assumptions, IReadOnlyList<string> Warnings);
