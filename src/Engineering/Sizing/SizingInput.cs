using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Sizing;

/// <summary>Everything a design is computed from.</summary>
/// <param name="Site">The place.</param>
/// <param name="Test">The PFE test.</param>
/// <param name="Route">Pieces in order from the pit to the mouth; one of them the fan.</param>
/// <param name="Fans">Candidates.</param>
public sealed record SizingInput(SizingSite Site, PfeTest Test, IReadOnlyList<RoutePiece> Route, IReadOnlyList<CandidateFan> Fans);

/// <summary>The place a system stands in, and what things cost there.</summary>
/// <param name="ElevationM">Elevation above sea level, m.</param>
/// <param name="DesignWinterC">Design winter temperature, °C.</param>
/// <param name="IndoorC">Indoor temperature in winter, °C.</param>
/// <param name="GroundC">Temperature of the soil gas, °C.</param>
/// <param name="NeutralPlaneM">Height from the slab to the neutral plane, m.</param>
/// <param name="TargetPa">Suction wanted at the weakest hole in design winter, Pa: a house rule, not from a standard.</param>
/// <param name="ElectricityCentsPerKWh">Price of electricity, cents per kWh.</param>
/// <param name="HeatingDegreeDaysC">Heating degree days to 65 °F, °C·days.</param>
/// <param name="HeatingEfficiency">Useful heat over fuel, dimensionless.</param>
/// <param name="FuelDollarsPerTherm">Price of heating fuel, dollars per therm.</param>
/// <param name="IndoorAirShare">Share of the exhaust that is house air, dimensionless: an assumption.</param>
public sealed record SizingSite(
    double ElevationM, double DesignWinterC, double IndoorC, double GroundC, double NeutralPlaneM, double TargetPa, double ElectricityCentsPerKWh,
    double HeatingDegreeDaysC, double HeatingEfficiency, double FuelDollarsPerTherm, double IndoorAirShare);

/// <summary>A fan that might be fitted.</summary>
/// <param name="Id">The caller's number for it.</param>
/// <param name="Name">What people call it.</param>
/// <param name="Curve">Its measured curve.</param>
/// <param name="PriceDollars">Price, dollars.</param>
/// <param name="LifeYears">Expected life, years.</param>
/// <param name="NoiseDbA">Noise, dB(A); null where it is not known.</param>
public sealed record CandidateFan(int Id, string Name, FanCurve Curve, double PriceDollars, int LifeYears = 8, double? NoiseDbA = null);
