using static MitigationOffice.Engineering.Require;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>Heat resistance of round layers, per metre of pipe: plastic wall, insulation jacket, ice sleeve.</summary>
public static class PipeWall
{
    /// <summary>Conductivity of rigid PVC, W/(m·K): the design value of EN 12524 / ISO 10456.</summary>
    public const double PvcConductivityWPerMK = 0.17;

    /// <summary>Metre-kelvins squared per watt (RSI) in one US R-value unit (ft²·°F·h/Btu), m²·K/W.</summary>
    public const double RsiPerUsR = 0.1761102;

    /// <summary>
    /// Resistance of a round layer per metre of pipe, m·K/W. Example: 4 in Schedule 40, 102.26 to 114.30 mm, k 0.17, gives 0.1042.
    /// </summary>
    /// <param name="innerDiameterM">Inner diameter of the layer, m.</param>
    /// <param name="outerDiameterM">Outer diameter of the layer, m.</param>
    /// <param name="conductivityWPerMK">Conductivity of the layer, W/(m·K).</param>
    /// <returns>Resistance per metre of length, m·K/W.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below, or outer is under inner.</exception>
    /// <remarks>
    /// Range: diameters 0.001 to 5 m, outer not under inner; conductivity 0.005 to 500 W/(m·K).
    /// Source: conduction through a hollow cylinder, ln(do/di)/(2πk); any heat transfer text.
    /// </remarks>
    public static double ResistanceMKPerW(double innerDiameterM, double outerDiameterM, double conductivityWPerMK)
    {
        InRange(innerDiameterM, 0.001, 5, "m", "Inner diameter");
        InRange(outerDiameterM, innerDiameterM, 5, "m", "Outer diameter");
        InRange(conductivityWPerMK, 0.005, 500, "W/(m·K)", "Conductivity");
        return Math.Log(outerDiameterM / innerDiameterM) / (2 * Math.PI * conductivityWPerMK);
    }

    /// <summary>
    /// Thickness of insulation that has a stated flat R-value, m. Example: US R 4 with k 0.035 gives 0.0247 m (about 1 in).
    /// </summary>
    /// <param name="usR">R-value in US units, ft²·°F·h/Btu.</param>
    /// <param name="conductivityWPerMK">Conductivity of the insulation, W/(m·K).</param>
    /// <returns>Thickness, m.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below.</exception>
    /// <remarks>
    /// Range: R 0 to 60 ft²·°F·h/Btu, conductivity 0.015 to 0.2 W/(m·K). The R printed on a flat product is meant; wrapped
    /// round a small pipe the same thickness does a little less per foot, which the round-layer formula then accounts for.
    /// Source: R = thickness/conductivity; unit conversion, exact to the digits of <see cref="RsiPerUsR"/>.
    /// </remarks>
    public static double ThicknessM(double usR, double conductivityWPerMK)
    {
        InRange(usR, 0, 60, "ft²·°F·h/Btu", "R-value");
        InRange(conductivityWPerMK, 0.015, 0.2, "W/(m·K)", "Insulation conductivity");
        return usR * RsiPerUsR * conductivityWPerMK;
    }
}
