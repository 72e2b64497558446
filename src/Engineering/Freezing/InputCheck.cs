using static MitigationOffice.Engineering.Require;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>The one place where the bounds of the freeze forecast's inputs are held.</summary>
internal static class InputCheck
{
    public static void Check(FreezeInput input)
    {
        Check(input.Run);
        Check(input.Assumptions);
        InRange(input.DesignC, -50, 5, "°C", "Design temperature");
        InRange(input.JanuaryMeanC, input.DesignC + 6, 15, "°C", "January mean");
        InRange(input.WinterDays, 60, 240, "days", "Length of the winter");
        InRange(input.ColdSpellDays, 1, 60, "days", "Days of the cold spell");
        InRange(input.ColdSpellSwingK, 0, 30, "K", "Swing within the cold spell");
        InRange(input.DollarsPerKWh, 0, 2, "dollars per kWh", "Price of electricity");
        InRange(input.CableOnBelowC, -10, 10, "°C", "Thermostat of the cable");
        InRange(input.BypassFromKgPerDay, 0, 100, "kg/day", "Water from which a bypass is advised");
        InRange(input.Trials, 0, 1000, "(number)", "Trials");
        foreach (var size in input.CableSizesWPerFt) InRange(size, 0.1, 50, "W/ft", "Heat cable size");
        input.System?.CheckAgainst(input.Run.FlowM3PerS, input.Run.BoreM);
    }

    public static void Check(OutdoorRun run)
    {
        InRange(run.BoreM, 0.03, 0.4, "m", "Bore");
        InRange(run.WallM, 0.0005, 0.03, "m", "Wall thickness");
        InRange(run.WallWPerMK, 0.05, 400, "W/(m·K)", "Conductivity of the wall");
        InRange(run.FlowM3PerS, 0.0005, 0.5, "m³/s", "Flow");
        InRange(run.FanBeforeRunW, 0, 500, "W", "Fan power before the run");
        InRange(run.ElevationM, -100, 4000, "m", "Elevation");
        InRange(run.Pieces.Count, 1, 50, "(number)", "Number of pieces of the run");
        foreach (var piece in run.Pieces) Check(piece);
    }

    public static void Check(StreamAssumptions air)
    {
        InRange(air.GroundC, -5, 30, "°C", "Soil gas temperature");
        InRange(air.GroundSpreadK, 0, 10, "K", "Spread of the soil gas temperature");
        InRange(air.HouseAirShare, 0, 1, "(number)", "Share of house air");
        InRange(air.HouseAirShareSpread, 0, 0.5, "(number)", "Spread of the share of house air");
        InRange(air.HouseC, 0, 35, "°C", "House temperature");
        InRange(air.HouseHumidityPercent, 0, 100, "%", "Humidity of the house");
        InRange(air.HouseHumiditySpreadPercent, 0, 40, "%", "Spread of the house's humidity");
        InRange(air.WindMPerS, 0, 30, "m/s", "Wind");
        InRange(air.WindSpreadMPerS, 0, 10, "m/s", "Spread of the wind");
        InRange(air.SkyShare, 0, 0.5, "(number)", "Share of clear sky");
        InRange(air.IceKgPerM3, 200, IceSleeve.ClearIceKgPerM3, "kg/m³", "Ice density");
        InRange(air.IceSpreadKgPerM3, 0, 400, "kg/m³", "Spread of the ice density");
        InRange(air.FogCaughtShare, 0, 1, "(number)", "Share of fog caught");
        InRange(air.FlowSpreadShare, 0, 0.5, "(number)", "Spread of the flow");
    }

    private static void Check(RunPiece piece)
    {
        InRange(piece.LengthM, 0.05, 60, "m", "Length of a piece");
        InRange(piece.InsulationM, 0, 0.15, "m", "Insulation thickness");
        InRange(piece.InsulationWPerMK, 0.015, 0.2, "W/(m·K)", "Insulation conductivity");
    }
}
