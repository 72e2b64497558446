using static MitigationOffice.Engineering.Require;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>Geometry and heat resistance of an even sleeve of ice inside a round pipe.</summary>
public static class IceSleeve
{
    /// <summary>Density of clear ice at 0 °C, kg/m³.</summary>
    public const double ClearIceKgPerM3 = 917;

    /// <summary>Conductivity of clear ice near 0 °C, W/(m·K).</summary>
    public const double ClearIceWPerMK = 2.22;

    /// <summary>Conductivity of still air near 0 °C, W/(m·K).</summary>
    public const double StillAirWPerMK = 0.024;

    /// <summary>
    /// Share of the pipe's area that a sleeve of ice leaves open, dimensionless. Example: 5 mm in a 102.26 mm bore leaves 0.814.
    /// </summary>
    /// <param name="thicknessM">Ice thickness on the wall, m.</param>
    /// <param name="boreM">Inner diameter of the bare pipe, m.</param>
    /// <returns>Open share, 0 to 1, dimensionless.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below.</exception>
    /// <remarks>
    /// Range: bore 0.01 to 1 m, thickness 0 to half the bore.
    /// Source: area of a circle.
    /// </remarks>
    public static double OpenShare(double thicknessM, double boreM)
    {
        InRange(boreM, 0.01, 1, "m", "Bore");
        InRange(thicknessM, 0, boreM / 2, "m", "Ice thickness");
        var ratio = 1 - 2 * thicknessM / boreM;
        return ratio * ratio;
    }

    /// <summary>
    /// Ice thickness of a mass of ice per metre of pipe, m. Example: 1 kg/m at 917 kg/m³ in a 102.26 mm bore gives 3.5 mm.
    /// </summary>
    /// <param name="massKgPerM">Mass of ice per metre of pipe, kg/m.</param>
    /// <param name="densityKgPerM3">Density of the ice, kg/m³.</param>
    /// <param name="boreM">Inner diameter of the bare pipe, m.</param>
    /// <returns>Thickness, m; half the bore when the ice fills the pipe.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below, or the ice would not fit.</exception>
    /// <remarks>
    /// Range: density 50 to 917 kg/m³, bore 0.01 to 1 m, mass from 0 to what fills the bore.
    /// Source: area of a ring.
    /// </remarks>
    public static double ThicknessM(double massKgPerM, double densityKgPerM3, double boreM)
    {
        InRange(boreM, 0.01, 1, "m", "Bore");
        InRange(densityKgPerM3, 50, ClearIceKgPerM3, "kg/m³", "Ice density");
        var full = densityKgPerM3 * Math.PI * boreM * boreM / 4;
        InRange(massKgPerM, 0, full, "kg/m", "Mass of ice");
        return boreM / 2 * (1 - Math.Sqrt(1 - massKgPerM / full));
    }

    /// <summary>
    /// Conductivity of ice that holds air, W/(m·K). Example: 700 kg/m³ gives about 0.76; clear ice 2.22.
    /// </summary>
    /// <param name="densityKgPerM3">Density of the ice, kg/m³.</param>
    /// <returns>Conductivity, W/(m·K).</returns>
    /// <exception cref="ArgumentOutOfRangeException">The density lies outside the range below.</exception>
    /// <remarks>
    /// Range: 50 to 917 kg/m³.
    /// Source: geometric mean of clear ice (2.22) and still air (0.024) by volume share, a usual estimate for a mixed
    /// solid, from memory; real frost scatters by a factor of about two around any such line.
    /// </remarks>
    public static double ConductivityWPerMK(double densityKgPerM3)
    {
        var solid = InRange(densityKgPerM3, 50, ClearIceKgPerM3, "kg/m³", "Ice density") / ClearIceKgPerM3;
        return Math.Pow(ClearIceWPerMK, solid) * Math.Pow(StillAirWPerMK, 1 - solid);
    }
}
