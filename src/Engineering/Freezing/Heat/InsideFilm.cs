using static MitigationOffice.Engineering.Require;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>
/// How well moving air gives its heat to the inside of a round pipe: the Nusselt number and the film coefficient.
/// </summary>
public static class InsideFilm
{
    /// <summary>Reynolds number up to which the flow is taken as laminar, dimensionless.</summary>
    public const double LaminarUpToReynolds = 2300;

    /// <summary>Reynolds number from which the flow is taken as fully turbulent, dimensionless.</summary>
    public const double TurbulentFromReynolds = 4000;

    /// <summary>Nusselt number of developed laminar flow with a wall of even temperature, dimensionless.</summary>
    public const double LaminarNusselt = 3.66;

    /// <summary>
    /// Nusselt number inside a smooth round pipe, dimensionless. Example: Reynolds 20 384, Prandtl 0.70 gives about 53.
    /// </summary>
    /// <param name="reynolds">Reynolds number on the inner diameter, dimensionless.</param>
    /// <param name="prandtl">Prandtl number of the gas, dimensionless.</param>
    /// <returns>The Nusselt number on the inner diameter, dimensionless.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below.</exception>
    /// <remarks>
    /// Range: Reynolds 0 to 1 000 000, Prandtl 0.5 to 2 000.
    /// Source: laminar 3.66 (any heat transfer text, for example Incropera, Fundamentals of Heat and Mass Transfer,
    /// ch. 8); turbulent Gnielinski (1976) with the Petukhov smooth friction factor; between 2300 and 4000 a straight
    /// line in Reynolds joins the two, as Gnielinski (2013) proposes; all three from memory.
    /// </remarks>
    public static double Nusselt(double reynolds, double prandtl)
    {
        InRange(reynolds, 0, 1e6, "(number)", "Reynolds number");
        InRange(prandtl, 0.5, 2000, "(number)", "Prandtl number");
        return NusseltUnchecked(reynolds, prandtl);
    }

    /// <summary>
    /// Film coefficient inside the pipe in W/(m²·K). Example: Nusselt 57.9, conductivity 0.030, diameter 0.15 m gives 11.6.
    /// </summary>
    /// <param name="nusselt">Nusselt number on the diameter, dimensionless.</param>
    /// <param name="conductivityWPerMK">Conductivity of the gas, W/(m·K).</param>
    /// <param name="diameterM">Inner diameter, m.</param>
    /// <returns>Film coefficient, W/(m²·K).</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below.</exception>
    /// <remarks>
    /// Range: Nusselt 0 to 100 000, conductivity 0.001 to 1 W/(m·K), diameter 0.001 to 5 m.
    /// Source: definition of the Nusselt number.
    /// </remarks>
    public static double CoefficientWPerM2K(double nusselt, double conductivityWPerMK, double diameterM)
    {
        InRange(nusselt, 0, 1e5, "(number)", "Nusselt number");
        InRange(conductivityWPerMK, 0.001, 1, "W/(m·K)", "Conductivity");
        InRange(diameterM, 0.001, 5, "m", "Diameter");
        return nusselt * conductivityWPerMK / diameterM;
    }

    internal static double NusseltUnchecked(double reynolds, double prandtl)
    {
        if (reynolds <= LaminarUpToReynolds) return LaminarNusselt;
        if (reynolds >= TurbulentFromReynolds) return Gnielinski(reynolds, prandtl);
        var share = (reynolds - LaminarUpToReynolds) / (TurbulentFromReynolds - LaminarUpToReynolds);
        return LaminarNusselt + share * (Gnielinski(TurbulentFromReynolds, prandtl) - LaminarNusselt);
    }

    private static double Gnielinski(double reynolds, double prandtl)
    {
        var log = 0.79 * Math.Log(reynolds) - 1.64;
        var eighth = 1 / (8 * log * log);
        return eighth * (reynolds - 1000) * prandtl / (1 + 12.7 * Math.Sqrt(eighth) * (Math.Cbrt(prandtl * prandtl) - 1));
    }
}
