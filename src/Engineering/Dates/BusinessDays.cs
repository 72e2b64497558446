using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Dates;

/// <summary>Counting of business days.</summary>
public static class BusinessDays
{
    /// <summary>True from Monday to Friday unless a federal holiday is kept on it, or it is one of the other closed days given.</summary>
    /// <param name="day">The day, in a year of 1978 to 9998.</param>
    /// <param name="alsoClosed">Other closed days, for example of a state.</param>
    /// <returns>Whether it is a business day.</returns>
    public static bool IsOpen(DateOnly day, IReadOnlySet<DateOnly>? alsoClosed = null) =>
        day.DayOfWeek is not (DayOfWeek.Saturday or DayOfWeek.Sunday)
        && !FederalHolidays.IsObserved(day)
        && alsoClosed?.Contains(day) != true;

    /// <summary>The day that is the n-th business day after a day. Ten after 2025-03-31: 2025-04-14.</summary>
    /// <param name="count">How many business days, 1 to 1000 (dimensionless).</param>
    /// <param name="day">The day counted from; it is not counted itself.</param>
    /// <param name="alsoClosed">Other closed days, for example of a state.</param>
    /// <returns>The day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A count outside 1 to 1000.</exception>
    /// <remarks>Range: 1 to 1000 business days. Source: plain counting; holidays 5 U.S.C. 6103, from memory.</remarks>
    public static DateOnly After(int count, DateOnly day, IReadOnlySet<DateOnly>? alsoClosed = null)
    {
        Require.InRange(count, 1, 1000, "days", "The number of business days");
        while (count > 0)
        {
            day = day.AddDays(1);
            if (IsOpen(day, alsoClosed))
                count--;
        }

        return day;
    }
}
