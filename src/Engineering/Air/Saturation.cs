namespace MitigationOffice.Engineering.Air;

/// <summary>Pressure of water vapour in balance with water or ice: Hyland and Wexler, as in ASHRAE Fundamentals 2017 chapter 1.</summary>
public static class Saturation
{
    /// <summary>Temperature at and below which the vapour is taken over ice, °C.</summary>
    public const double IcePointC = 0.01;

    /// <summary>Saturation pressure, Pa: over ice up to the triple point, over water above. Example: 25 °C → 3169.7 Pa.</summary>
    /// <param name="temperatureC">Temperature, °C.</param>
    /// <remarks>Range: −100 to 200 °C; refused outside. Source: Hyland and Wexler 1983, ASHRAE Fundamentals 2017 ch. 1 eq. 5 and 6.</remarks>
    public static double PressurePa(double temperatureC) =>
        temperatureC <= IcePointC ? OverIcePa(temperatureC) : OverWaterPa(temperatureC);

    /// <summary>Saturation pressure over ice, Pa. Example: −20 °C → 103.24 Pa.</summary>
    /// <param name="temperatureC">Temperature, °C.</param>
    /// <remarks>Range: −100 to 0.01 °C; refused outside. Source: ASHRAE Fundamentals 2017 ch. 1 eq. 5.</remarks>
    public static double OverIcePa(double temperatureC)
    {
        var t = Require.InRange(temperatureC, -100, IcePointC, "°C") + 273.15;
        return Math.Exp(-5.6745359e3 / t + 6.3925247 + t * (-9.677843e-3 + t * (6.2215701e-7 + t * (2.0747825e-9 + t * -9.484024e-13))) + 4.1635019 * Math.Log(t));
    }

    /// <summary>Saturation pressure over water, Pa; below 0 °C over supercooled water. Example: 5 °C → 872.6 Pa.</summary>
    /// <param name="temperatureC">Temperature, °C.</param>
    /// <remarks>Range: −40 to 200 °C; refused outside. Source: ASHRAE Fundamentals 2017 ch. 1 eq. 6.</remarks>
    public static double OverWaterPa(double temperatureC)
    {
        var t = Require.InRange(temperatureC, -40, 200, "°C") + 273.15;
        return Math.Exp(-5.8002206e3 / t + 1.3914993 + t * (-4.8640239e-2 + t * (4.1764768e-5 + t * -1.4452093e-8)) + 6.5459673 * Math.Log(t));
    }

    /// <summary>Temperature at which a vapour pressure is saturated, °C: dew point, or frost point below freezing. Example: 872.6 Pa → 5.00 °C.</summary>
    /// <param name="vapourPa">Partial pressure of the vapour, Pa.</param>
    /// <remarks>Range: 0.0015 to 1 500 000 Pa; refused outside. Source: the same curves, inverted by bisection to 1e-9 K.</remarks>
    public static double TemperatureC(double vapourPa)
    {
        Require.InRange(vapourPa, 0.0015, 1_500_000, "Pa");
        var (low, high) = (-100.0, 200.0);
        while (high - low > 1e-9)
        {
            var middle = (low + high) / 2;
            if (PressurePa(middle) < vapourPa) low = middle;
            else high = middle;
        }

        return (low + high) / 2;
    }
}
