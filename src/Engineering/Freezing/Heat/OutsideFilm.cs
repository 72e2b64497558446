using static MitigationOffice.Engineering.Require;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>
/// How well the outside of a pipe gives its heat to the weather: wind, still air and long-wave radiation.
/// </summary>
public static class OutsideFilm
{
    /// <summary>Stefan–Boltzmann constant, W/(m²·K⁴).</summary>
    public const double StefanBoltzmannWPerM2K4 = 5.670374e-8;

    /// <summary>Long-wave emissivity taken for plastic pipe, painted metal and jacketed insulation, dimensionless.</summary>
    public const double Emissivity = 0.90;

    /// <summary>
    /// Nusselt number of a round pipe in cross-flow (wind), dimensionless. Example: Reynolds 6071, Prandtl 0.70 gives 40.6.
    /// </summary>
    /// <param name="reynolds">Reynolds number on the outer diameter, dimensionless.</param>
    /// <param name="prandtl">Prandtl number of the air, dimensionless.</param>
    /// <returns>The mean Nusselt number around the pipe, dimensionless.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below.</exception>
    /// <remarks>
    /// Range: Reynolds 0 to 10 000 000, Prandtl 0.5 to 2 000; the authors ask that their product be 0.2 or more.
    /// Source: Churchill and Bernstein, Journal of Heat Transfer 99 (1977) 300; checked against the worked example of
    /// Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, Ex. 7.4.
    /// </remarks>
    public static double CrossFlowNusselt(double reynolds, double prandtl)
    {
        InRange(reynolds, 0, 1e7, "(number)", "Reynolds number");
        InRange(prandtl, 0.5, 2000, "(number)", "Prandtl number");
        var basis = 0.62 * Math.Sqrt(reynolds) * Math.Cbrt(prandtl)
            / Math.Pow(1 + Math.Pow(0.4 / prandtl, 2.0 / 3), 0.25);
        return 0.3 + basis * Math.Pow(1 + Math.Pow(reynolds / 282_000, 0.625), 0.8);
    }

    /// <summary>
    /// Nusselt number of a round pipe in still air, dimensionless. Example: Rayleigh 5.073e6, Prandtl 0.697 gives about 23.3.
    /// </summary>
    /// <param name="rayleigh">Rayleigh number on the outer diameter, dimensionless.</param>
    /// <param name="prandtl">Prandtl number of the air, dimensionless.</param>
    /// <returns>The mean Nusselt number around the pipe, dimensionless.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below.</exception>
    /// <remarks>
    /// Range: Rayleigh 0 to 1e12, Prandtl 0.5 to 2 000. Derived for a level pipe; used here for upright runs too, where
    /// the figure is of the same size.
    /// Source: Churchill and Chu (1975) for a long horizontal cylinder, from memory; the example is Incropera and DeWitt,
    /// Ex. 9.4, from memory.
    /// </remarks>
    public static double StillAirNusselt(double rayleigh, double prandtl)
    {
        InRange(rayleigh, 0, 1e12, "(number)", "Rayleigh number");
        InRange(prandtl, 0.5, 2000, "(number)", "Prandtl number");
        var shape = Math.Pow(1 + Math.Pow(0.559 / prandtl, 9.0 / 16), 8.0 / 27);
        var root = 0.60 + 0.387 * Math.Pow(rayleigh, 1.0 / 6) / shape;
        return root * root;
    }

    /// <summary>
    /// Long-wave coefficient between a surface and surroundings, in W/(m²·K). Example: both at 0 °C gives 4.16.
    /// </summary>
    /// <param name="surfaceC">Surface temperature, °C.</param>
    /// <param name="surroundingsC">Temperature of what the surface sees, °C.</param>
    /// <returns>Coefficient to be multiplied by the temperature difference, W/(m²·K).</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below.</exception>
    /// <remarks>
    /// Range: both temperatures −120 to 120 °C.
    /// Source: Stefan–Boltzmann law, factored: εσ(a² + b²)(a + b), absolute temperatures; emissivity 0.90.
    /// </remarks>
    public static double LongWaveWPerM2K(double surfaceC, double surroundingsC)
    {
        var a = InRange(surfaceC, -120, 120, "°C", "Surface temperature") + 273.15;
        var b = InRange(surroundingsC, -120, 120, "°C", "Temperature of the surroundings") + 273.15;
        return Emissivity * StefanBoltzmannWPerM2K4 * (a * a + b * b) * (a + b);
    }

    /// <summary>
    /// Temperature of a clear night sky as a black surface, °C. Example: air at 0 °C gives about −24 °C.
    /// </summary>
    /// <param name="airC">Outdoor air temperature, °C.</param>
    /// <returns>Sky temperature, °C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The air temperature lies outside the range below.</exception>
    /// <remarks>
    /// Range: −60 to 50 °C.
    /// Source: Swinbank (1963), T_sky = 0.0552·T_air^1.5 in kelvin, from memory.
    /// </remarks>
    public static double ClearSkyC(double airC)
    {
        var kelvin = InRange(airC, -60, 50, "°C", "Outdoor temperature") + 273.15;
        return 0.0552 * kelvin * Math.Sqrt(kelvin) - 273.15;
    }
}
