using MitigationOffice.Engineering.Air;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>
/// Saturation pressure, viscosity and conductivity of air, tabled every 1/16 K from −100 to 120 °C and read by straight
/// lines, so that the inner loop needs no exponentials. The tabling error is below 2e-5 of the value.
/// </summary>
internal static class AirTable
{
    public const double DryAirJPerKgK = 1006;
    public const double VapourJPerKgK = 1860;
    public const double WaterJPerKgK = 4186;
    public const double IceJPerKgK = 2100;
    public const double VapourAtZeroJPerKg = 2_501_000;
    public const double FusionJPerKg = 333_400;

    /// <summary>Heat-to-mass analogy: (thermal diffusivity / vapour diffusivity)^(2/3), from 0.85 for air near 0 °C.</summary>
    public const double LewisFactor = 0.897;

    public const double LowestC = -100;
    public const double HighestC = 120;
    private const int PerKelvin = 16;
    private static readonly double[] VapourPressure = Make(Saturation.PressurePa);
    private static readonly double[] Viscosity = Make(celsius => Dry(celsius).ViscosityPaS);
    private static readonly double[] Conductivity = Make(celsius => Dry(celsius).ConductivityWPerMK);

    public static double SaturationPa(double celsius) => Read(VapourPressure, celsius);

    public static double ViscosityPaS(double celsius) => Read(Viscosity, celsius);

    public static double ConductivityWPerMK(double celsius) => Read(Conductivity, celsius);

    public static double SaturatedRatio(double celsius, double pressurePa)
    {
        var vapour = Math.Min(SaturationPa(celsius), 0.9 * pressurePa);
        return 0.621945 * vapour / (pressurePa - vapour);
    }

    public static double VapourJPerKg(double celsius) => VapourAtZeroJPerKg + VapourJPerKgK * celsius;

    private static double Read(double[] table, double celsius)
    {
        var place = (celsius - LowestC) * PerKelvin;
        var cell = Math.Clamp((int)place, 0, table.Length - 2);
        return table[cell] + (place - cell) * (table[cell + 1] - table[cell]);
    }

    private static MoistAir Dry(double celsius) => new(celsius, 0, StandardAtmosphere.SeaLevelPa);

    private static double[] Make(Func<double, double> property)
    {
        var table = new double[(int)(HighestC - LowestC) * PerKelvin + 1];
        for (var place = 0; place < table.Length; place++) table[place] = property(LowestC + (double)place / PerKelvin);
        return table;
    }
}
