namespace MitigationOffice.Engineering.Energy;

/// <summary>What a system uses in a year.</summary>
public static class RunningCost
{
    /// <summary>Hours of a year, h.</summary>
    public const double HoursPerYear = 8760;

    /// <summary>Electricity of a fan that never stops, kWh a year. Example: 60 W → 525.6 kWh.</summary>
    /// <param name="watts">Electrical power, W.</param>
    /// <remarks>Range: 0 to 100 000 W; refused outside. Source: arithmetic, 8760 h.</remarks>
    public static double FanKWhPerYear(double watts) => Require.InRange(watts, 0, 100_000, "W") * HoursPerYear / 1000;

    /// <summary>Cost of electricity, dollars. Example: 525.6 kWh at 18.10 ¢ → $95.13.</summary>
    /// <param name="kWh">Energy, kWh.</param>
    /// <param name="centsPerKWh">Price, cents per kWh.</param>
    /// <remarks>Range: price 0 to 500 cents; refused outside. Source: arithmetic.</remarks>
    public static double Dollars(double kWh, double centsPerKWh) => kWh * Require.InRange(centsPerKWh, 0, 500, "cents/kWh") / 100;

    /// <summary>Fuel burned to warm the house air that the system draws out, therms a year. Example: 30 cfm, 5000 °F·days, η 0.80 → 48.6 therms.</summary>
    /// <param name="houseAirM3PerS">House air in the exhaust, m³/s.</param>
    /// <param name="heatingDegreeDaysC">Heating degree days to 65 °F, °C·days.</param>
    /// <param name="efficiency">Useful heat over fuel, dimensionless.</param>
    /// <param name="densityRatio">Air density over standard density, dimensionless.</param>
    /// <remarks>Range: degree days 0 to 12 000 °C·days, efficiency 0.3 to 5; refused outside. Source: 1.08 Btu/(h·cfm·°F) from 0.075 lb/ft³ × 0.24 Btu/(lb·°F) × 60;
    /// formula family of EPA/600/S8-91/200, numbers from memory.</remarks>
    public static double HouseAirThermsPerYear(double houseAirM3PerS, double heatingDegreeDaysC, double efficiency, double densityRatio = 1)
    {
        var cfm = houseAirM3PerS / TradeUnits.M3PerSPerCfm;
        var degreeDaysF = Require.InRange(heatingDegreeDaysC, 0, 12_000, "°C·days") * 1.8;
        return 1.08 * cfm * 24 * degreeDaysF * densityRatio / Require.InRange(efficiency, 0.3, 5, "(efficiency)") / 100_000;
    }

    /// <summary>Electricity of a heat cable, kWh a winter. Example: 5 W/ft on 12 ft for 1000 h → 60 kWh.</summary>
    /// <param name="wattsPerM">Power of the cable, W/m.</param>
    /// <param name="lengthM">Length of cable, m.</param>
    /// <param name="hours">Hours it is on in a winter, h: an assumption unless a thermostat counted them.</param>
    /// <remarks>Range: 0 to 200 W/m, 0 to 100 m, 0 to 8760 h; refused outside. Source: arithmetic.</remarks>
    public static double HeatCableKWh(double wattsPerM, double lengthM, double hours) =>
        Require.InRange(wattsPerM, 0, 200, "W/m") * Require.InRange(lengthM, 0, 100, "m") * Require.InRange(hours, 0, HoursPerYear, "h") / 1000;

    /// <summary>Whole cost of a fan over ten years, dollars: bought anew whenever its life is over, and run. Example: $280, 8 years, $40 a year → $960.</summary>
    /// <param name="priceDollars">Price of the fan, dollars.</param>
    /// <param name="lifeYears">Expected life, years.</param>
    /// <param name="runningDollarsPerYear">Running cost, dollars a year.</param>
    /// <remarks>Range: price 0 to 100 000 dollars, life 1 to 100 years, running cost 0 to 100 000 dollars a year; refused outside. Source: arithmetic, without
    /// interest or rising prices.</remarks>
    public static double TenYearDollars(double priceDollars, int lifeYears, double runningDollarsPerYear) =>
        Math.Ceiling(10.0 / Require.InRange(lifeYears, 1, 100, "years")) * Require.InRange(priceDollars, 0, 100_000, "dollars")
            + 10 * Require.InRange(runningDollarsPerYear, 0, 100_000, "dollars a year");
}
