namespace MitigationOffice.Engineering.Freezing;

internal static class Psychro
{
    public static double SaturationPa(double celsius)
    {
        var t = celsius + 273.15;
        return celsius <= 0
            ? Math.Exp(-5.6745359e3 / t + 6.3925247 - 9.677843e-3 * t + 6.2215701e-7 * t * t + 2.0747825e-9 * t * t * t - 9.484024e-13 * t * t * t * t + 4.1635019 * Math.Log(t))
            : Math.Exp(-5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t * t - 1.4452093e-8 * t * t * t + 6.5459673 * Math.Log(t));
    }

    public static double Viscosity(double celsius) => 1.458e-6 * Math.Pow(celsius + 273.15, 1.5) / (celsius + 273.15 + 110.4);

    public static double Conductivity(double celsius)
    {
        var t = celsius + 273.15;
        return 2.64638e-3 * Math.Pow(t, 1.5) / (t + 245.4 * Math.Pow(10, -12 / t));
    }

    public static double PressurePa(double elevationM) => 101325 * Math.Pow(1 - 2.25577e-5 * elevationM, 5.2559);
}
