using static MitigationOffice.Engineering.Allowed;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>The one place where the bounds of the freeze forecast's inputs are held.</summary>
internal static class InputCheck
{
    public static void Check(FreezeInput input)
    {
        Check(input.Run);
        Check(input.Assumptions);
        Within(input.DesignC, -50, 5, "Design temperature", "°C");
        Within(input.JanuaryMeanC, input.DesignC + 6, 15, "January mean", "°C");
        Within(input.WinterDays, 60, 240, "Length of the winter", "days");
        Within(input.ColdSpellDays, 1, 60, "Days of the cold spell", "days");
        Within(input.ColdSpellSwingK, 0, 30, "Swing within the cold spell", "K");
        Within(input.DollarsPerKWh, 0, 2, "Price of electricity", "dollars per kWh");
        Within(input.CableOnBelowC, -10, 10, "Thermostat of the cable", "°C");
        Within(input.BypassFromKgPerDay, 0, 100, "Water from which a bypass is advised", "kg/day");
        Within(input.Trials, 0, 1000, "Trials", "");
        foreach (var size in input.CableSizesWPerFt) Within(size, 0.1, 50, "Heat cable size", "W/ft");
        input.System?.CheckAgainst(input.Run.FlowM3PerS, input.Run.BoreM);
    }

    public static void Check(OutdoorRun run)
    {
        Within(run.BoreM, 0.03, 0.4, "Bore", "m");
        Within(run.WallM, 0.0005, 0.03, "Wall thickness", "m");
        Within(run.WallWPerMK, 0.05, 400, "Conductivity of the wall", "W/(m·K)");
        Within(run.FlowM3PerS, 0.0005, 0.5, "Flow", "m³/s");
        Within(run.FanBeforeRunW, 0, 500, "Fan power before the run", "W");
        Within(run.ElevationM, -100, 4000, "Elevation", "m");
        Within(run.Pieces.Count, 1, 50, "Number of pieces of the run", "");
        foreach (var piece in run.Pieces) Check(piece);
    }

    public static void Check(StreamAssumptions air)
    {
        Within(air.GroundC, -5, 30, "Soil gas temperature", "°C");
        Within(air.GroundSpreadK, 0, 10, "Spread of the soil gas temperature", "K");
        Within(air.HouseAirShare, 0, 1, "Share of house air", "");
        Within(air.HouseAirShareSpread, 0, 0.5, "Spread of the share of house air", "");
        Within(air.HouseC, 0, 35, "House temperature", "°C");
        Within(air.HouseHumidityPercent, 0, 100, "Humidity of the house", "%");
        Within(air.HouseHumiditySpreadPercent, 0, 40, "Spread of the house's humidity", "%");
        Within(air.WindMPerS, 0, 30, "Wind", "m/s");
        Within(air.WindSpreadMPerS, 0, 10, "Spread of the wind", "m/s");
        Within(air.SkyShare, 0, 0.5, "Share of clear sky", "");
        Within(air.IceKgPerM3, 200, IceSleeve.ClearIceKgPerM3, "Ice density", "kg/m³");
        Within(air.IceSpreadKgPerM3, 0, 400, "Spread of the ice density", "kg/m³");
        Within(air.FogCaughtShare, 0, 1, "Share of fog caught", "");
        Within(air.FlowSpreadShare, 0, 0.5, "Spread of the flow", "");
    }

    private static void Check(RunPiece piece)
    {
        Within(piece.LengthM, 0.05, 60, "Length of a piece", "m");
        Within(piece.InsulationM, 0, 0.15, "Insulation thickness", "m");
        Within(piece.InsulationWPerMK, 0.015, 0.2, "Insulation conductivity", "W/(m·K)");
    }
}
