namespace MitigationOffice.Engineering.Freezing;

/// <summary>
/// What is assumed about the air that enters the pipe and about the weather, each with the range that the repeated trials
/// draw from. None of these is measured; each is shown as an assumption wherever a result is shown.
/// </summary>
public sealed record StreamAssumptions
{
    /// <summary>Temperature of the soil gas, about the mean annual air temperature, °C (−5 to 30).</summary>
    public double GroundC { get; init; } = 10;

    /// <summary>Half width of the range tried for the soil gas temperature, K (0 to 10).</summary>
    public double GroundSpreadK { get; init; } = 2;

    /// <summary>Share of house air in the stream by dry mass, dimensionless (0 to 1).</summary>
    public double HouseAirShare { get; init; } = 0.5;

    /// <summary>Half width of the range tried for the share of house air, dimensionless (0 to 0.5).</summary>
    public double HouseAirShareSpread { get; init; } = 0.25;

    /// <summary>Temperature of the house air drawn through the slab, °C (0 to 35).</summary>
    public double HouseC { get; init; } = 18;

    /// <summary>Relative humidity of the house air, percent (0 to 100).</summary>
    public double HouseHumidityPercent { get; init; } = 40;

    /// <summary>Half width of the range tried for the house air's relative humidity, percentage points (0 to 40).</summary>
    public double HouseHumiditySpreadPercent { get; init; } = 10;

    /// <summary>Mean wind at the pipe, m/s (0 to 30).</summary>
    public double WindMPerS { get; init; } = 3;

    /// <summary>Half width of the range tried for the wind, m/s (0 to 10).</summary>
    public double WindSpreadMPerS { get; init; } = 1.5;

    /// <summary>Share of its surroundings that the pipe sees as clear sky, dimensionless (0 to 0.5); a wall hides half or more.</summary>
    public double SkyShare { get; init; } = 0.2;

    /// <summary>Density of the ice that grows, kg/m³ (200 to 917).</summary>
    public double IceKgPerM3 { get; init; } = 650;

    /// <summary>Half width of the range tried for the density of the ice, kg/m³ (0 to 400).</summary>
    public double IceSpreadKgPerM3 { get; init; } = 200;

    /// <summary>Share of the fog formed in the pipe that the wall catches, dimensionless (0 to 1); the rest leaves the mouth.</summary>
    public double FogCaughtShare { get; init; } = 0.5;

    /// <summary>Half width of the range tried for the flow, as a share of the flow, dimensionless (0 to 0.5).</summary>
    public double FlowSpreadShare { get; init; } = 0.1;

    /// <summary>The single values in one sentence each, for showing beside a result.</summary>
    public IReadOnlyList<string> Sentences =>
    [
        Words.Say($"Soil gas saturated at {GroundC:0.#} °C (about the mean annual air temperature); assumed."),
        Words.Say($"{HouseAirShare * 100:0} % of the stream is house air of {HouseC:0.#} °C and {HouseHumidityPercent:0} % humidity; assumed."),
        Words.Say($"Wind {WindMPerS:0.#} m/s across the pipe, {SkyShare * 100:0} % of its surroundings clear sky; assumed."),
        Words.Say($"Ice of {IceKgPerM3:0} kg/m³; the wall catches {FogCaughtShare * 100:0} % of the fog; assumed."),
    ];
}
