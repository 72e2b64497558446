namespace MitigationOffice.Engineering.Freezing.Weather;

/// <summary>The unit a daily record's temperatures are written in.</summary>
public enum RecordUnit
{
    /// <summary>Tenths of a degree Celsius, as the raw GHCN-Daily files have it (−123 is −12.3 °C).</summary>
    TenthsOfCelsius,

    /// <summary>Degrees Celsius.</summary>
    Celsius,

    /// <summary>Degrees Fahrenheit.</summary>
    Fahrenheit,
}

/// <summary>A daily weather record read from its lines, with everything that was wrong with it.</summary>
public sealed record DailyRecord
{
    /// <summary>The days read, in order of date, short gaps filled.</summary>
    public required IReadOnlyList<WeatherDay> Days { get; init; }

    /// <summary>What was found wrong or was mended, one sentence each, naming line or day.</summary>
    public required IReadOnlyList<string> Problems { get; init; }

    /// <summary>
    /// Those of <see cref="Problems"/> that make the record doubtful: lines left out, doubled days, a unit that cannot be
    /// right, a winter with a gap too long to fill. Short gaps filled and winters cut off by the record's ends are none.
    /// </summary>
    public IReadOnlyList<string> Faults { get; init; } = [];

    /// <summary>Number of days that were filled from their neighbours, a count, dimensionless.</summary>
    public required int FilledDays { get; init; }

    /// <summary>
    /// The record cut into winters, September to May, each without a gap. Winters with a gap too long to fill are left out and
    /// named in <see cref="Problems"/>; so are winters with fewer than 90 days from November to March.
    /// </summary>
    public required IReadOnlyList<IReadOnlyList<WeatherDay>> Winters { get; init; }
}
