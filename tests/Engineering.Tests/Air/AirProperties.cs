using CsCheck;
using MitigationOffice.Engineering.Air;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Air;

public sealed class AirProperties
{
    private static readonly Gen<MoistAir> State = Gen.Select(Gen.Double[-40, 60], Gen.Double[0.05, 1], Gen.Double[0, 3000]).Select((t, rh, z) => MoistAir.At(t, rh, z));

    [Fact]
    public void Humidity_ratio_and_relative_humidity_go_round() => State.Sample(air =>
        Math.Abs(MoistAir.FromHumidityRatio(air.TemperatureC, air.HumidityRatio, air.PressurePa).RelativeHumidity - air.RelativeHumidity) < 1e-9);

    [Fact]
    public void Damp_air_is_lighter_than_dry_air() => State.Sample(air =>
        air.DensityKgPerM3 < new MoistAir(air.TemperatureC, 0, air.PressurePa).DensityKgPerM3);

    [Fact]
    public void The_dew_point_is_never_above_the_temperature() => State.Sample(air => air.DewPointC <= air.TemperatureC + 1e-6);

    [Fact]
    public void Saturation_rises_with_temperature() => Gen.Double[-60, 90].Select(Gen.Double[0.001, 10]).Sample((t, more) =>
        Saturation.PressurePa(t + more) > Saturation.PressurePa(t));

    [Fact]
    public void Saturation_temperature_undoes_saturation_pressure() => Gen.Double[-95, 150].Sample(t =>
        Math.Abs(Saturation.TemperatureC(Saturation.PressurePa(t)) - t) < 1e-4);

    [Fact]
    public void Pressure_falls_with_elevation() => Gen.Double[-400, 4000].Select(Gen.Double[0.1, 1000]).Sample((z, more) =>
        StandardAtmosphere.PressurePa(z + more) < StandardAtmosphere.PressurePa(z));

    [Fact]
    public void Stack_effect_changes_sign_with_the_season_and_grows_with_height() => Gen.Select(Gen.Double[-20, 19], Gen.Double[0.5, 10], Gen.Double[1.01, 3]).Sample((outdoor, h, more) =>
        StackEffect.PressurePa(outdoor, 20, h) > 0 && StackEffect.PressurePa(40 - outdoor, 20, h) < 0
        && StackEffect.PressurePa(outdoor, 20, h * more) > StackEffect.PressurePa(outdoor, 20, h));

    [Fact]
    public void Stack_effect_of_warming_in_two_steps_is_that_of_one() => Gen.Select(Gen.Double[-40, 30], Gen.Double[-40, 30], Gen.Double[-40, 30]).Sample((a, b, c) =>
        Math.Abs(StackEffect.PressurePa(a, b, 5) + StackEffect.PressurePa(b, c, 5) - StackEffect.PressurePa(a, c, 5)) < 1e-9);

    /// <summary>Source: ASHRAE Fundamentals 2017 ch. 1 example 1: 40 °C dry, 20 °C wet → W 0.0065, dew point 7 °C, RH 14 %, h 56.7 kJ/kg, v 0.896 m³/kg; 1–2 %.</summary>
    [Fact]
    public void ASHRAE_example_1_of_dry_and_wet_bulb()
    {
        var air = MoistAir.FromWetBulb(40, 20, 101325);
        Assert.Equal(0.0065, air.HumidityRatio, 0.0001);
        Assert.Equal(0.14, air.RelativeHumidity, 0.003);
        Assert.Equal(7, air.DewPointC, 0.5);
        Assert.Equal(1, air.EnthalpyJPerKg / 56_700, 0.01);
        Assert.Equal(1, (1 + air.HumidityRatio) / air.DensityKgPerM3 / 0.896, 0.01);
    }

    /// <summary>Source: ASHRAE's equations evaluated, arithmetic: saturation at 32, 50, 55, 60 °F over water and 0 °F over ice; 0.05 %.</summary>
    [Theory]
    [InlineData(32, 611.2, 0.003774)]
    [InlineData(50, 1228.0, 0.007630)]
    [InlineData(55, 1476.2, 0.009195)]
    [InlineData(60, 1767.4, 0.011041)]
    [InlineData(0, 127.6, 0.000784)]
    public void Saturated_air_at_Fahrenheit_steps(double f, double pa, double ratio)
    {
        var air = MoistAir.At((f - 32) / 1.8, 1);
        Assert.Equal(1, Saturation.PressurePa(air.TemperatureC) / pa, 1e-3);
        Assert.Equal(1, air.HumidityRatio / ratio, 1e-3);
    }

    [Fact]
    public void A_wet_bulb_below_freezing_stands_for_ice()
    {
        var air = MoistAir.FromWetBulb(-5, -5.5, 101325);
        Assert.InRange(air.RelativeHumidity, 0.5, 0.95);
        Assert.Equal(1, MoistAir.FromWetBulb(-5, -5, 101325).RelativeHumidity, 1e-9);
    }

    /// <summary>Source: US Standard Atmosphere 1976: 0.0253 W/(m·K) at 15 °C, 1.726e-5 Pa·s at 2000 m.</summary>
    [Fact]
    public void Conductivity_and_viscosity_are_the_published_ones()
    {
        Assert.Equal(0.0253, MoistAir.At(15, 0).ConductivityWPerMK, 5e-5);
        Assert.Equal(1.726e-5, MoistAir.At(StandardAtmosphere.TemperatureK(2000) - 273.15, 0, 2000).ViscosityPaS, 1e-8);
    }

    [Theory]
    [InlineData(30, 40, 101325, "wetBulbC is 40 °C")]
    [InlineData(40, 5, 101325, "humidityRatio is -0.0")]
    [InlineData(20, 10, 1000, "pressurePa is 1000 Pa")]
    public void A_wet_bulb_that_cannot_be_is_refused(double dry, double wet, double pa, string words) =>
        Assert.Contains(words, Assert.Throws<ArgumentOutOfRangeException>(() => MoistAir.FromWetBulb(dry, wet, pa)).Message, StringComparison.Ordinal);

    [Fact]
    public void Vapour_too_thin_for_any_dew_point_is_refused() =>
        Assert.Contains("vapourPa is 0 Pa", Assert.Throws<ArgumentOutOfRangeException>(() => MoistAir.At(20, 0).DewPointC).Message, StringComparison.Ordinal);
}
