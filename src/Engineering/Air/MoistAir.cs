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
