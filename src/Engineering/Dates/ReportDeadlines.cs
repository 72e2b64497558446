using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Dates;

/// <summary>When reports and fees are due.</summary>
public static class ReportDeadlines
{
    /// <summary>Days after activation within which Pennsylvania wants the report of a system (days).</summary>
    public const int PennsylvaniaDaysAfterActivation = 45;

    /// <summary>Business days after a quarter's end by which Pennsylvania's system fee must have arrived (days).</summary>
    public const int PennsylvaniaFeeBusinessDays = 10;

    /// <summary>Days within which Kansas wants the report of a system (days).</summary>
    public const int KansasDays = 90;

    /// <summary>Source of the 45 days.</summary>
    public static readonly Citation PennsylvaniaReportSource = new("25 Pa. Code 240.303", Certainty.Published);

    /// <summary>Source of the ten business days.</summary>
    public static readonly Citation PennsylvaniaFeeSource = new("25 Pa. Code 240.309", Certainty.Published);

    /// <summary>Source of the quarterly days.</summary>
    public static readonly Citation MinnesotaSource = new("Minn. R. 4620.7800", Certainty.Published);

    /// <summary>Source of the 90 days.</summary>
    public static readonly Citation KansasSource = new("K.A.R. 28-35-601(g)", Certainty.SecondHand);

    /// <summary>A number of days after a day, the day itself not counted: 45 after 2025-01-20 is 2025-03-06.</summary>
    /// <param name="days">How many days, 0 to 36 525.</param>
    /// <param name="day">The day counted from.</param>
    /// <returns>The due day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Days outside 0 to 36 525.</exception>
    /// <remarks>Range: 0 to 36 525 days. Source: plain counting; 45 days as in 25 Pa. Code 240.303.</remarks>
    public static DateOnly DaysAfter(int days, DateOnly day) =>
        day.AddDays(Require.InRange(days, 0, 36_525, "days", "The number of days"));

    /// <summary>
    /// The quarterly report of work finished on a day: 30 April, 30 July, 30 October, 30 January.
    /// Finished on 2025-06-30: 2025-07-30.
    /// </summary>
    /// <param name="finishedOn">The day the work was finished.</param>
    /// <returns>The due day.</returns>
    /// <remarks>Range: years 1978 to 9998. Source: Minn. R. 4620.7800 (the line of the fourth quarter inferred).</remarks>
    public static DateOnly QuarterlyReport(DateOnly finishedOn) =>
        Quarter.Of(finishedOn).LastDay.AddDays(30);

    /// <summary>The n-th business day after a quarter's end. Ten after the first of 2025: 2025-04-14; after the second: 2025-07-15.</summary>
    /// <param name="count">How many business days, 1 to 1000.</param>
    /// <param name="quarter">The quarter.</param>
    /// <param name="alsoClosed">Other closed days, for example of the state.</param>
    /// <returns>The due day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A count outside 1 to 1000.</exception>
    /// <remarks>Range: 1 to 1000 business days. Source: 25 Pa. Code 240.309 (ten); federal holidays taken as closed.</remarks>
    public static DateOnly BusinessDaysAfterQuarter(int count, Quarter quarter, IReadOnlySet<DateOnly>? alsoClosed = null) =>
        BusinessDays.After(count, quarter.LastDay, alsoClosed);
}
