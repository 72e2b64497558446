using MitigationOffice.Engineering.Air;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>The moist air at the foot of the outdoor run: soil gas and house air mixed, warmed by the fan.</summary>
internal readonly record struct StreamEntry(double DryKgPerS, double AirC, double Ratio, double FogRatio, double PressurePa)
{
    public static StreamEntry Mix(OutdoorRun run, StreamAssumptions air, double flowM3PerS)
    {
        var pressure = StandardAtmosphere.PressurePa(run.ElevationM);
        var (celsius, ratio) = Mixture(air, pressure);
        var dry = flowM3PerS * DryKgPerM3(celsius, ratio, pressure);
        var warmed = celsius + run.FanBeforeRunW / (dry * HeatCapacity(ratio, 0));
        return new StreamEntry(dry, warmed, ratio, 0, pressure).WithFogSettled();
    }

    public static double HeatCapacity(double ratio, double fog) =>
        AirTable.DryAirJPerKgK + ratio * AirTable.VapourJPerKgK + fog * AirTable.WaterJPerKgK;

    // Vapour and fog exchange until the air is saturated or the fog is gone; enthalpy and water stay what they were.
    public StreamEntry WithFogSettled()
    {
        var (celsius, ratio, fog) = Settle(AirC, Ratio, FogRatio, PressurePa);
        return this with { AirC = celsius, Ratio = ratio, FogRatio = fog };
    }

    public static (double AirC, double Ratio, double Fog) Settle(double airC, double ratio, double fog, double pressurePa)
    {
        var saturated = AirTable.SaturatedRatio(airC, pressurePa);
        if (ratio <= saturated && fog <= 0) return (airC, ratio, fog);
        var water = ratio + fog;
        var enthalpy = Enthalpy(airC, ratio, fog);
        var dry = DryOf(enthalpy, water);
        if (dry < AirTable.HighestC && water <= AirTable.SaturatedRatio(dry, pressurePa)) return (dry, water, 0);
        var settled = SaturatedTemperature(airC, enthalpy, water, pressurePa);
        var vapour = AirTable.SaturatedRatio(settled, pressurePa);
        return (settled, vapour, water - vapour);
    }

    public static double Enthalpy(double airC, double ratio, double fog) =>
        AirTable.DryAirJPerKgK * airC + ratio * AirTable.VapourJPerKg(airC) + fog * AirTable.WaterJPerKgK * airC;

    private static double DryOf(double enthalpy, double water) =>
        (enthalpy - water * AirTable.VapourAtZeroJPerKg) / HeatCapacity(water, 0);

    private static double SaturatedTemperature(double startC, double enthalpy, double water, double pressurePa)
    {
        var celsius = startC;
        for (var turn = 0; turn < 12; turn++)
        {
            var vapour = AirTable.SaturatedRatio(celsius, pressurePa);
            var miss = Enthalpy(celsius, vapour, water - vapour) - enthalpy;
            var slope = (AirTable.SaturatedRatio(celsius + 0.05, pressurePa) - AirTable.SaturatedRatio(celsius - 0.05, pressurePa)) / 0.1;
            var step = miss / (HeatCapacity(vapour, water - vapour) + slope * AirTable.VapourAtZeroJPerKg);
            celsius -= step;
            if (Math.Abs(step) < 1e-9) break;
        }
        return celsius;
    }

    private static (double AirC, double Ratio) Mixture(StreamAssumptions air, double pressure)
    {
        var soil = AirTable.SaturatedRatio(air.GroundC, pressure);
        var vapour = air.HouseHumidityPercent / 100 * AirTable.SaturationPa(air.HouseC);
        var house = 0.621945 * vapour / (pressure - vapour);
        var share = air.HouseAirShare;
        var ratio = share * house + (1 - share) * soil;
        var enthalpy = share * Enthalpy(air.HouseC, house, 0) + (1 - share) * Enthalpy(air.GroundC, soil, 0);
        return (DryOf(enthalpy, ratio), ratio);
    }

    private static double DryKgPerM3(double celsius, double ratio, double pressure) =>
        pressure / (287.042 * (celsius + 273.15) * (1 + 1.607858 * ratio));
}
