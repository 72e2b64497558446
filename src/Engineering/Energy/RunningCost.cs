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
        var cfm = houseAirM3PerS / 4.719474432e-4;
        var degreeDaysF = Require.InRange(heatingDegreeDaysC, 0, 12_000, "°C·days") * 1.8;
        return 1.08 * cfm * 24 * degreeDaysF * densityRatio / Require.InRange(efficiency, 0.3, 5, "(efficiency)") / 100_000;
    }
}
