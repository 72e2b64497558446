using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Dates;

/// <summary>One federal holiday of a year.</summary>
/// <param name="Name">The name in the statute.</param>
/// <param name="Day">The day itself.</param>
/// <param name="ObservedOn">The day it is kept on: the Friday before a Saturday, the Monday after a Sunday.</param>
public sealed record FederalHoliday(string Name, DateOnly Day, DateOnly ObservedOn);

/// <summary>The federal legal public holidays. Inauguration Day, kept only around the capital, is left out.</summary>
public static class FederalHolidays
{
    /// <summary>The first year the calendar knows (calendar year, dimensionless): Veterans Day has been back on 11 November since.</summary>
    public const int FirstYear = 1978;

    /// <summary>The last year the calendar knows (calendar year, dimensionless).</summary>
    public const int LastYear = 9998;

    /// <summary>Source of the days.</summary>
    public static readonly Citation Source = new("5 U.S.C. 6103", Certainty.FromMemory);

    /// <summary>
    /// The holidays of a calendar year in order of day: ten, and from 2021 eleven with Juneteenth; Martin Luther King's
    /// birthday from 1986. 4 July 2026 is a Saturday, kept on Friday the 3rd.
    /// </summary>
    /// <param name="year">The calendar year.</param>
    /// <returns>The holidays.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A year outside 1978 to 9998.</exception>
    /// <remarks>Range: 1978 to 9998. Source: 5 U.S.C. 6103(a), (b); a Sunday holiday kept on Monday, Executive Order 11582; from memory.</remarks>
    public static IReadOnlyList<FederalHoliday> InYear(int year)
    {
        Require.InRange(year, FirstYear, LastYear, "(calendar year)", "The year");
        return [.. Days(year).Select(holiday => new FederalHoliday(holiday.Name, holiday.Day, ObservedOn(holiday.Day)))];
    }

    /// <summary>True on the day of a holiday itself: 2026-07-04, not 2026-07-03.</summary>
    /// <param name="day">The day, in a year of 1978 to 9998.</param>
    /// <returns>Whether it is a holiday.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A year out of range.</exception>
    public static bool IsHoliday(DateOnly day) => InYear(day.Year).Any(holiday => holiday.Day == day);

    /// <summary>
    /// True on a day a holiday is kept on: 2026-07-03, not 2026-07-04. 31 December 2027 keeps New Year's Day 2028.
    /// </summary>
    /// <param name="day">The day, in a year of 1978 to 9998.</param>
    /// <returns>Whether a holiday is kept on it.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A year out of range.</exception>
    public static bool IsObserved(DateOnly day) =>
        InYear(day.Year).Any(holiday => holiday.ObservedOn == day)
        || (day is { Month: 12, Day: 31 } && day.DayOfWeek == DayOfWeek.Friday);

    private static IEnumerable<(string Name, DateOnly Day)> Days(int year)
    {
        yield return ("New Year's Day", new DateOnly(year, 1, 1));
        if (year >= 1986)
            yield return ("Birthday of Martin Luther King, Jr.", Nth(3, DayOfWeek.Monday, year, 1));
        yield return ("Washington's Birthday", Nth(3, DayOfWeek.Monday, year, 2));
        yield return ("Memorial Day", LastMondayOfMay(year));
        if (year >= 2021)
            yield return ("Juneteenth National Independence Day", new DateOnly(year, 6, 19));
        yield return ("Independence Day", new DateOnly(year, 7, 4));
        yield return ("Labor Day", Nth(1, DayOfWeek.Monday, year, 9));
        yield return ("Columbus Day", Nth(2, DayOfWeek.Monday, year, 10));
        yield return ("Veterans Day", new DateOnly(year, 11, 11));
        yield return ("Thanksgiving Day", Nth(4, DayOfWeek.Thursday, year, 11));
        yield return ("Christmas Day", new DateOnly(year, 12, 25));
    }

    private static DateOnly ObservedOn(DateOnly day) => day.DayOfWeek switch
    {
        DayOfWeek.Saturday => day.AddDays(-1),
        DayOfWeek.Sunday => day.AddDays(1),
        _ => day,
    };

    private static DateOnly Nth(int nth, DayOfWeek weekday, int year, int month)
    {
        var first = new DateOnly(year, month, 1);
        return first.AddDays(DaysUntil(weekday, first) + 7 * (nth - 1));
    }

    private static DateOnly LastMondayOfMay(int year)
    {
        var lastWeek = new DateOnly(year, 5, 25);
        return lastWeek.AddDays(DaysUntil(DayOfWeek.Monday, lastWeek));
    }

    private static int DaysUntil(DayOfWeek weekday, DateOnly from) => ((int)weekday - (int)from.DayOfWeek + 7) % 7;
}
