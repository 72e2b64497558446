namespace MitigationOffice.Business.Design.Files;

/// <summary>What is assumed about the pipe outdoors and its air, wherever it is to differ from the program's own assumptions.</summary>
public sealed record FileOutdoorRun
{
    [Within(0, 30, "m/s")]
    public double? WindMPerS { get; init; }

    [Within(0, 10, "m/s")]
    public double? WindSpreadMPerS { get; init; }

    [Within(0, 0.5, "(share)")]
    public double? SkyShare { get; init; }

    [Within(0, 10, "K")]
    public double? GroundSpreadK { get; init; }

    /// <summary>Null takes the price list's share.</summary>
    [Within(0, 1, "(share)")]
    public double? HouseAirShare { get; init; }

    [Within(0, 0.5, "(share)")]
    public double? HouseAirShareSpread { get; init; }

    [Within(0, 35, "°C")]
    public double? HouseC { get; init; }

    [Within(0, 100, "%")]
    public double? HouseHumidityPercent { get; init; }

    [Within(0, 40, "%")]
    public double? HouseHumiditySpreadPercent { get; init; }

    [Within(200, 917, "kg/m³")]
    public double? IceKgPerM3 { get; init; }

    [Within(0, 400, "kg/m³")]
    public double? IceSpreadKgPerM3 { get; init; }

    [Within(0, 1, "(share)")]
    public double? FogCaughtShare { get; init; }

    [Within(0, 0.5, "(share)")]
    public double? FlowSpreadShare { get; init; }

    [Within(0.05, 400, "W/(m·K)")]
    public double? WallWPerMK { get; init; }

    /// <summary>Sizes on offer, rising.</summary>
    [Within(1, 20, "sizes")]
    public IReadOnlyList<double>? CableSizesWPerFt { get; init; }

    [Within(-10, 10, "°C")]
    public double? CableOnBelowC { get; init; }

    [Within(0, 100, "kg/day")]
    public double? BypassFromKgPerDay { get; init; }

    [Within(1, 60, "days")]
    public int? ColdSpellDays { get; init; }

    [Within(0, 30, "K")]
    public double? ColdSpellSwingK { get; init; }

    [Within(0, 1000, "(number)")]
    public int? Trials { get; init; }

    [Within(0, 1_000_000_000, "(number)")]
    public int? Seed { get; init; }

    [Within(0.6, 1, "(share)")]
    public double? MouthContraction { get; init; }

    /// <summary>Whether the report holds every day of the winter beside those of the cold spell.</summary>
    public bool WithDays { get; init; }
}
