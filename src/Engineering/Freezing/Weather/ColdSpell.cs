using static MitigationOffice.Engineering.Require;

namespace MitigationOffice.Engineering.Freezing.Weather;

/// <summary>A run of equally cold days.</summary>
public static class ColdSpell
{
    /// <summary>
    /// Days that all have the same lowest and highest temperature. Example: 5 days from −29 to −9 °C.
    /// </summary>
    /// <param name="first">The first day; only the order of days matters to the result.</param>
    /// <param name="days">Number of days, a count, dimensionless.</param>
    /// <param name="minC">Lowest temperature of each day, °C.</param>
    /// <param name="maxC">Highest temperature of each day, °C.</param>
    /// <returns>The days in order.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below.</exception>
    /// <remarks>
    /// Range: 1 to 120 days, temperatures −60 to 45 °C, highest not under lowest.
    /// Source: made up by whoever calls it; it is no weather record.
    /// </remarks>
    public static IReadOnlyList<WeatherDay> Days(DateOnly first, int days, double minC, double maxC)
    {
        InRange(days, 1, 120, "days", "Days of the cold spell");
        InRange(minC, -60, 45, "°C", "Lowest temperature");
        InRange(maxC, minC, 45, "°C", "Highest temperature");
        return [.. Enumerable.Range(0, days).Select(day => new WeatherDay { Day = first.AddDays(day), MinC = minC, MaxC = maxC })];
    }
}
