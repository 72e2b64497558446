using MitigationOffice.Engineering.Fans;

namespace MitigationOffice.Engineering.Slab;

/// <summary>A pressure field extension (PFE) test at one suction point: what was drawn, and what the holes showed.</summary>
/// <param name="Settings">Fans or vacuums tried, one or more.</param>
/// <param name="Holes">Test holes, one or more.</param>
/// <param name="OutdoorC">Outdoor temperature that day, °C.</param>
/// <param name="IndoorC">Indoor temperature that day, °C.</param>
public sealed record PfeTest(IReadOnlyList<PfeSetting> Settings, IReadOnlyList<PfeHole> Holes, double OutdoorC, double IndoorC)
{
    /// <summary>Half the last digit of the micromanometer at the holes, Pa.</summary>
    public double HoleResolutionPa { get; init; } = 0.05;

    /// <summary>Half the last mark of the gauge at the pit, Pa (0.05 inWC marks).</summary>
    public double PitResolutionPa { get; init; } = 6.2;
}

/// <summary>One fan or vacuum at one setting.</summary>
/// <param name="Label">What it was.</param>
/// <param name="PitVacuumPa">Suction in the pipe above the pit, Pa, positive.</param>
/// <param name="FlowM3PerS">Measured flow, m³/s; null where it was not measured.</param>
/// <param name="Watts">Measured power, W; null where it was not.</param>
/// <param name="Curve">The tried fan's curve, where the fan is known.</param>
public sealed record PfeSetting(string Label, double PitVacuumPa, double? FlowM3PerS = null, double? Watts = null, FanCurve? Curve = null);

/// <summary>One test hole. Pressures are as the gauge shows them: suction under the slab is negative.</summary>
/// <param name="Label">Its name.</param>
/// <param name="DistanceM">Distance from the suction point, m; null where it is not known.</param>
/// <param name="FanOffPa">Reading with the fan off, Pa; null where it was not taken.</param>
/// <param name="FanOnPa">Reading at each setting, Pa; null where it was not taken. As many as there are settings.</param>
public sealed record PfeHole(string Label, double? DistanceM, double? FanOffPa, IReadOnlyList<double?> FanOnPa);
