namespace MitigationOffice.Engineering.Fans;

/// <summary>One measured point of a fan at standard air.</summary>
/// <param name="FlowM3PerS">Flow, m³/s.</param>
/// <param name="StaticPressurePa">Static pressure, Pa.</param>
/// <param name="Watts">Electrical power, W.</param>
public readonly record struct FanPoint(double FlowM3PerS, double StaticPressurePa, double Watts);
