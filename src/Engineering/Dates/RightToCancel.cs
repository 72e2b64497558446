using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Dates;

/// <summary>
/// The buyer's right to cancel a contract signed at home: until midnight of the third business day after the day it was
/// signed. Saturdays count; Sundays and federal holidays do not. Where a holiday is kept on another day, neither day is
/// counted: the later date errs for the buyer. A state may give longer; its law comes first.
/// </summary>
public static class RightToCancel
{
    /// <summary>Business days the buyer has (days).</summary>
    public const int BusinessDaysToCancel = 3;

    /// <summary>Source of the rule.</summary>
    public static readonly Citation Source = new("16 CFR 429.0(f), 429.1", Certainty.Published);

    /// <summary>
    /// The last day to cancel, through its midnight. Signed on Friday 2025-08-29 before Labor Day: Wednesday 2025-09-03
    /// (Saturday one, Tuesday two, Wednesday three).
    /// </summary>
    /// <param name="signedOn">The day the contract was signed, or the notice was handed over if later.</param>
    /// <returns>The last day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A year outside 1978 to 9998.</exception>
    /// <remarks>Range: years 1978 to 9998. Source: 16 CFR 429.0(f); not counting the day a holiday is kept on is a house rule.</remarks>
    public static DateOnly LastDay(DateOnly signedOn)
    {
        var day = signedOn;
        for (var left = BusinessDaysToCancel; left > 0;)
        {
            day = day.AddDays(1);
            if (Counts(day))
                left--;
        }

        return day;
    }

    private static bool Counts(DateOnly day) =>
        day.DayOfWeek != DayOfWeek.Sunday && !FederalHolidays.IsHoliday(day) && !FederalHolidays.IsObserved(day);
}
