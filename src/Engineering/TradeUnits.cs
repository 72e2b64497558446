namespace MitigationOffice.Engineering;

/// <summary>The units of the trade in SI. Every factor is exact.</summary>
public static class TradeUnits
{
    /// <summary>One inch of water column, Pa: 25.4 mm × 9.80665 m/s², 249.08891 Pa. Source: NIST SP 811, conventional inch of water.</summary>
    public const double PaPerInWC = 25.4 * 9.80665;

    /// <summary>One foot, m. Source: definition.</summary>
    public const double MPerFt = 0.3048;

    /// <summary>One cubic foot a minute (cfm), m³/s: 4.719474432e-4. Source: definition of the foot.</summary>
    public const double M3PerSPerCfm = MPerFt * MPerFt * MPerFt / 60;

    /// <summary>One foot a minute (fpm), m/s: 0.00508. Source: definition of the foot.</summary>
    public const double MPerSPerFpm = MPerFt / 60;

    /// <summary>Degrees Celsius of degrees Fahrenheit, °C. Example: 0 °F → −17.78 °C.</summary>
    /// <param name="temperatureF">Temperature, °F.</param>
    /// <remarks>Range: any. Source: definition.</remarks>
    public static double CelsiusOf(double temperatureF) => (temperatureF - 32) / 1.8;

    /// <summary>Degrees Fahrenheit of degrees Celsius, °F. Example: 20 °C → 68 °F.</summary>
    /// <param name="temperatureC">Temperature, °C.</param>
    /// <remarks>Range: any. Source: definition.</remarks>
    public static double FahrenheitOf(double temperatureC) => temperatureC * 1.8 + 32;
}
