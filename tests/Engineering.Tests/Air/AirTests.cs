using MitigationOffice.Engineering.Air;

namespace MitigationOffice.Engineering.Tests.Air;

public sealed class AirTests
{
    /// <summary>Source: ASHRAE Fundamentals 2017 ch. 1 tables, tolerance 0.03 %.</summary>
    [Theory]
    [InlineData(-20, 103.24)]
    [InlineData(-5, 401.74)]
    [InlineData(5, 872.6)]
    [InlineData(25, 3169.7)]
    [InlineData(50, 12351.3)]
    [InlineData(100, 101418.0)]
    public void Saturation_pressure_is_that_of_the_ASHRAE_table(double temperatureC, double expectedPa) =>
        Assert.Equal(1, Saturation.PressurePa(temperatureC) / expectedPa, 3e-4);

    /// <summary>Source: ASHRAE Fundamentals 2017 ch. 1 tables at 101 325 Pa, tolerance 0.5 % (the table is of real air, ours an ideal mixture).</summary>
    [Theory]
    [InlineData(-20, 0.0006373)]
    [InlineData(-5, 0.0024863)]
    [InlineData(5, 0.005425)]
    [InlineData(25, 0.020173)]
    public void Saturated_humidity_ratio_is_that_of_the_ASHRAE_table(double temperatureC, double expected) =>
        Assert.Equal(1, MoistAir.At(temperatureC, 1).HumidityRatio / expected, 5e-3);

    /// <summary>Source: US Standard Atmosphere 1976, tolerance 0.05 %.</summary>
    [Theory]
    [InlineData(0, 101325, 1.2250)]
    [InlineData(1000, 89876, 1.1117)]
    [InlineData(2000, 79501, 1.0066)]
    public void Standard_atmosphere_is_the_published_one(double elevationM, double pa, double kgPerM3)
    {
        Assert.Equal(1, StandardAtmosphere.PressurePa(elevationM) / pa, 5e-4);
        Assert.Equal(1, StandardAtmosphere.DensityKgPerM3(elevationM) / kgPerM3, 5e-4);
    }

    /// <summary>Source: US Standard Atmosphere 1976: 1.7894e-5 Pa·s at 15 °C.</summary>
    [Fact]
    public void Viscosity_at_15_C_is_the_published_one() => Assert.Equal(1.7894e-5, MoistAir.At(15, 0).ViscosityPaS, 1e-8);

    /// <summary>Source: arithmetic on the standard atmosphere: a mile up the density ratio is 0.854.</summary>
    [Fact]
    public void A_mile_up_air_has_854_thousandths_of_its_density() =>
        Assert.Equal(0.854, StandardAtmosphere.DensityKgPerM3(5280 * 0.3048) / StandardAtmosphere.DensityKgPerM3(0), 3e-3);

    [Fact]
    public void A_temperature_out_of_range_is_refused_with_value_and_range()
    {
        var refused = Assert.Throws<ArgumentOutOfRangeException>(() => MoistAir.At(900, 0.5));
        Assert.Contains("900 °C; it must lie from -60 to 100 °C", refused.Message, StringComparison.Ordinal);
    }
}
