namespace MitigationOffice.Engineering.Air;

/// <summary>Still air of the US Standard Atmosphere 1976, its lowest layer: what a place at some elevation has on an average day.</summary>
public static class StandardAtmosphere
{
    /// <summary>Pressure at sea level, Pa.</summary>
    public const double SeaLevelPa = 101_325;

    /// <summary>Density to which fan curves refer (0.075 lb/ft³), kg/m³. Source: AMCA/ASHRAE standard air, from memory.</summary>
    public const double FanCurveKgPerM3 = 1.2014;

    /// <summary>Air pressure at an elevation, Pa. Example: 2000 m → 79 501 Pa.</summary>
    /// <param name="elevationM">Elevation above sea level, m.</param>
    /// <remarks>Range: −430 to 11 000 m; refused outside. Source: US Standard Atmosphere 1976, layer with lapse 6.5 K/km.</remarks>
    public static double PressurePa(double elevationM) =>
        SeaLevelPa * Math.Pow(TemperatureK(elevationM) / 288.15, 9.80665 * 0.0289644 / (8.31432 * 0.0065));

    /// <summary>Air temperature at an elevation, K. Example: 2000 m → 275.15 K.</summary>
    /// <param name="elevationM">Elevation above sea level, m.</param>
    /// <remarks>Range: −430 to 11 000 m; refused outside. Source: US Standard Atmosphere 1976.</remarks>
    public static double TemperatureK(double elevationM) => 288.15 - 0.0065 * Require.InRange(elevationM, -430, 11_000, "m");

    /// <summary>Density of dry standard air at an elevation, kg/m³. Example: 2000 m → 1.0066 kg/m³.</summary>
    /// <param name="elevationM">Elevation above sea level, m.</param>
    /// <remarks>Range: −430 to 11 000 m; refused outside. Source: US Standard Atmosphere 1976, ideal gas with R 287.053 J/(kg·K).</remarks>
    public static double DensityKgPerM3(double elevationM) =>
        PressurePa(elevationM) / (287.0528 * TemperatureK(elevationM));
}
