namespace MitigationOffice.Engineering.Air;

/// <summary>A state of moist air: what flows through the pipe.</summary>
/// <param name="TemperatureC">Dry-bulb temperature, °C.</param>
/// <param name="RelativeHumidity">Relative humidity, dimensionless, 0 to 1.</param>
/// <param name="PressurePa">Absolute pressure, Pa.</param>
public readonly record struct MoistAir(double TemperatureC, double RelativeHumidity, double PressurePa)
{
    private const double DryGasConstant = 287.042;
    private const double MassRatio = 0.621945;

    /// <summary>Air of a temperature and humidity at a place's average pressure.</summary>
    /// <param name="temperatureC">Dry-bulb temperature, °C.</param>
    /// <param name="relativeHumidity">Relative humidity, dimensionless, 0 to 1.</param>
    /// <param name="elevationM">Elevation above sea level, m.</param>
    /// <remarks>Range: −60 to 100 °C, humidity 0 to 1, −430 to 5000 m; refused outside. Source: US Standard Atmosphere 1976 for the pressure.</remarks>
    public static MoistAir At(double temperatureC, double relativeHumidity, double elevationM = 0) => new(
        Require.InRange(temperatureC, -60, 100, "°C"), Require.InRange(relativeHumidity, 0, 1, "(share)"),
        StandardAtmosphere.PressurePa(Require.InRange(elevationM, -430, 5000, "m")));

    /// <summary>Air of a temperature and humidity ratio at a pressure. Example: 40 °C, 0.0065, 101 325 Pa → relative humidity 0.14.</summary>
    /// <param name="temperatureC">Dry-bulb temperature, °C.</param>
    /// <param name="humidityRatio">Humidity ratio, kg of water per kg of dry air (dimensionless).</param>
    /// <param name="pressurePa">Absolute pressure, Pa.</param>
    /// <remarks>Range: −60 to 100 °C, 0 to 0.5, 40 000 to 120 000 Pa; refused outside. A relative humidity above 1 in the result means fog.
    /// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 20.</remarks>
    public static MoistAir FromHumidityRatio(double temperatureC, double humidityRatio, double pressurePa)
    {
        var saturationPa = Saturation.PressurePa(Require.InRange(temperatureC, -60, 100, "°C"));
        var ratio = Require.InRange(humidityRatio, 0, 0.5, "kg/kg");
        return new(temperatureC, Require.InRange(pressurePa, 40_000, 120_000, "Pa") * ratio / (MassRatio + ratio) / saturationPa, pressurePa);
    }

    /// <summary>Air whose dry and wet thermometers were read. Example: 40 °C and 20 °C at 101 325 Pa → humidity ratio 0.0065 (ASHRAE's example 1).</summary>
    /// <param name="temperatureC">Dry-bulb temperature, °C.</param>
    /// <param name="wetBulbC">Wet-bulb temperature, °C.</param>
    /// <param name="pressurePa">Absolute pressure, Pa.</param>
    /// <remarks>Range: wet bulb from −40 °C to the dry bulb, and such that some vapour is left; refused outside.
    /// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 33 and 35.</remarks>
    public static MoistAir FromWetBulb(double temperatureC, double wetBulbC, double pressurePa)
    {
        Require.InRange(wetBulbC, -40, temperatureC, "°C");
        Require.InRange(pressurePa, 40_000, 120_000, "Pa");
        var saturated = new MoistAir(wetBulbC, 1, pressurePa).HumidityRatio;
        var humidityRatio = wetBulbC >= 0
            ? ((2501 - 2.326 * wetBulbC) * saturated - 1.006 * (temperatureC - wetBulbC)) / (2501 + 1.86 * temperatureC - 4.186 * wetBulbC)
            : ((2830 - 0.24 * wetBulbC) * saturated - 1.006 * (temperatureC - wetBulbC)) / (2830 + 1.86 * temperatureC - 2.1 * wetBulbC);
        return FromHumidityRatio(temperatureC, humidityRatio, pressurePa);
    }

    /// <summary>Enthalpy, J per kg of dry air (J/kg), zero for dry air at 0 °C. Example: 40 °C, humidity ratio 0.0065 → 57 kJ/kg.
    /// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 30.</summary>
    public double EnthalpyJPerKg => 1006 * TemperatureC + HumidityRatio * (2_501_000 + 1860 * TemperatureC);

    /// <summary>Temperature to which the air can cool before water or frost forms, °C. Example: 40 °C, relative humidity 0.14 → 7 °C.
    /// Source: the saturation curve inverted by bisection. Refused for air so dry that it lies below −100 °C.</summary>
    public double DewPointC => Saturation.TemperatureC(VapourPa);

    /// <summary>Partial pressure of the water vapour, Pa.</summary>
    public double VapourPa => RelativeHumidity * Saturation.PressurePa(TemperatureC);

    /// <summary>Humidity ratio, kg of water per kg of dry air (dimensionless). Example: saturated 25 °C at 101 325 Pa → 0.0201
    /// as an ideal mixture (the tabulated real one is 0.020173). Source: ASHRAE Fundamentals 2017 ch. 1 eq. 20.</summary>
    public double HumidityRatio => MassRatio * VapourPa / (PressurePa - VapourPa);

    /// <summary>Density of the mixture, kg/m³. Example: dry 15 °C at 101 325 Pa → 1.225 kg/m³. Source: ideal mixture, ASHRAE Fundamentals 2017 ch. 1.</summary>
    public double DensityKgPerM3 =>
        ((PressurePa - VapourPa) + MassRatio * VapourPa) / (DryGasConstant * (TemperatureC + 273.15));

    /// <summary>Dynamic viscosity, Pa·s, taken as that of dry air. Example: 15 °C → 1.789e-5. Source: Sutherland's law with the
    /// constants of the US Standard Atmosphere 1976.</summary>
    public double ViscosityPaS
    {
        get
        {
            var t = TemperatureC + 273.15;
            return 1.458e-6 * Math.Pow(t, 1.5) / (t + 110.4);
        }
    }

    /// <summary>Heat conductivity, W/(m·K), taken as that of dry air. Example: 15 °C → 0.0253. Source: US Standard Atmosphere 1976.</summary>
    public double ConductivityWPerMK
    {
        get
        {
            var t = TemperatureC + 273.15;
            return 2.64638e-3 * Math.Pow(t, 1.5) / (t + 245.4 * Math.Pow(10, -12 / t));
        }
    }
}
