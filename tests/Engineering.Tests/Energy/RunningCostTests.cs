using MitigationOffice.Engineering.Energy;

namespace MitigationOffice.Engineering.Tests.Energy;

public sealed class RunningCostTests
{
    /// <summary>Source: prices of EIA Electric Power Annual 2023 (PA 18.10 ¢, MN 14.73 ¢); common practice for 11 ¢, no source.</summary>
    [Theory]
    [InlineData(60, 18.10, 95.13)]
    [InlineData(60, 14.73, 77.42)]
    [InlineData(42, 11, 40.47)]
    [InlineData(15.2, 11, 14.65)]
    public void A_fan_costs_this_much_a_year(double watts, double cents, double dollars) =>
        Assert.Equal(dollars, RunningCost.Dollars(RunningCost.FanKWhPerYear(watts), cents), 2);

    /// <summary>Source: arithmetic: 30 cfm, 5000 °F·days, 0.80 → 48.6 therms, 0.1 %.</summary>
    [Fact]
    public void House_air_of_30_cfm_burns_48_6_therms() =>
        Assert.Equal(48.6, RunningCost.HouseAirThermsPerYear(30 * 4.719474432e-4, 5000 / 1.8, 0.8), 0.05);
}
