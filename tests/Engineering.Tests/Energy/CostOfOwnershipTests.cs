using CsCheck;
using MitigationOffice.Engineering.Energy;

namespace MitigationOffice.Engineering.Tests.Energy;

public sealed class CostOfOwnershipTests
{
    /// <summary>Source: Crane TP-410 Ex. 7.34, from a secondary text: 428 ft, 700 gpm, efficiencies 0.707 · 0.95 · 0.96, 8000 h at $0.12 → $83,970; 0.1 %.</summary>
    [Fact]
    public void Crane_example_7_34_pump_costs_83970_dollars()
    {
        const double gpm = 231 * 0.0254 * 0.0254 * 0.0254 / 60;
        var kW = 62.364 * 16.018463 * 9.80665 * 700 * gpm * 428 * 0.3048 / (0.707 * 0.95 * 0.96) / 1000;
        Assert.Equal(1, RunningCost.Dollars(kW * 8000, 12) / 83_970, 1e-3);
    }

    /// <summary>Source: arithmetic: 90 W over 8760 h is 788.4 kWh.</summary>
    [Fact]
    public void Ninety_watts_all_year_are_788_4_kWh() => Assert.Equal(788.4, RunningCost.FanKWhPerYear(90), 1e-9);

    /// <summary>Source: arithmetic: 5 W/ft on 12 ft for 1000 h is 60 kWh.</summary>
    [Fact]
    public void A_heat_cable_of_60_W_for_1000_h_uses_60_kWh() => Assert.Equal(60, RunningCost.HeatCableKWh(5 / 0.3048, 12 * 0.3048, 1000), 1e-9);

    /// <summary>Source: arithmetic: two fans at $280 and ten years at $40.</summary>
    [Theory]
    [InlineData(8, 960)]
    [InlineData(10, 680)]
    [InlineData(5, 960)]
    [InlineData(1, 3200)]
    public void A_fan_is_bought_anew_when_its_life_is_over(int years, double dollars) =>
        Assert.Equal(dollars, RunningCost.TenYearDollars(280, years, 40), 1e-9);

    [Fact]
    public void A_fan_that_lives_longer_never_costs_more() => Gen.Int[1, 40].Select(Gen.Double[10, 900], Gen.Double[0, 300]).Sample((years, price, running) =>
        RunningCost.TenYearDollars(price, years + 1, running) <= RunningCost.TenYearDollars(price, years, running));

    [Fact]
    public void House_air_costs_in_proportion_to_flow_cold_and_density() => Gen.Select(Gen.Double[0, 0.1], Gen.Double[100, 6000], Gen.Double[0.7, 1]).Sample((flow, cold, density) =>
        Math.Abs(RunningCost.HouseAirThermsPerYear(2 * flow, cold, 0.8, density) - 2 * RunningCost.HouseAirThermsPerYear(flow, cold, 0.8, density)) < 1e-9
        && Math.Abs(RunningCost.HouseAirThermsPerYear(flow, cold, 0.8, density) - density * RunningCost.HouseAirThermsPerYear(flow, cold, 0.8)) < 1e-9);

    [Fact]
    public void Numbers_out_of_range_are_refused_with_value_and_range()
    {
        Assert.Contains("lifeYears is 0 years", Assert.Throws<ArgumentOutOfRangeException>(() => RunningCost.TenYearDollars(1, 0, 1)).Message, StringComparison.Ordinal);
        Assert.Contains("hours is 9000 h", Assert.Throws<ArgumentOutOfRangeException>(() => RunningCost.HeatCableKWh(1, 1, 9000)).Message, StringComparison.Ordinal);
        Assert.Contains("watts is -1 W", Assert.Throws<ArgumentOutOfRangeException>(() => RunningCost.FanKWhPerYear(-1)).Message, StringComparison.Ordinal);
    }
}
