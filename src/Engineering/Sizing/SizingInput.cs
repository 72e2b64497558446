using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Sizing;

/// <summary>Everything a design is computed from.</summary>
/// <param name="Site">The place.</param>
/// <param name="Test">The PFE test.</param>
/// <param name="Route">Pieces in order from the pit to the mouth; one of them the fan.</param>
/// <param name="Fans">Candidates.</param>
public sealed record SizingInput(SizingSite Site, PfeTest Test, IReadOnlyList<RoutePiece> Route, IReadOnlyList<CandidateFan> Fans)
{
    /// <summary>Suction points beside the first, each with its own test and its own pipe into the route; twelve points in all at most.</summary>
    public IReadOnlyList<FurtherPoint> FurtherPoints { get; init; } = [];
}

/// <summary>A suction point beside the first.</summary>
/// <param name="Name">What people call it.</param>
/// <param name="Test">Its own PFE test, with suction at this point only. Holes of the same name are the same holes.</param>
/// <param name="Branch">Pieces from its pit to where it joins, the tee's loss with them.</param>
/// <param name="JoinsAfterPiece">How many pieces of the line it joins lie before the junction (count).</param>
/// <param name="JoinsInto">Name of the further point whose branch it joins; null for the route itself.</param>
public sealed record FurtherPoint(string Name, PfeTest Test, IReadOnlyList<RoutePiece> Branch, int JoinsAfterPiece, string? JoinsInto = null);

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
