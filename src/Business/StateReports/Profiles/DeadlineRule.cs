using MitigationOffice.Engineering.Dates;

namespace MitigationOffice.Business.StateReports.Profiles;

public enum DeadlineKind
{
    /// <summary>There is none, or it is not known.</summary>
    None,
    DaysAfterPeriod,
    DaysAfterEvent,
    BusinessDaysAfterPeriod,
    BusinessDaysAfterQuarter,
}

/// <summary>By when a report or a fee is due, counted as <see cref="ReportDeadlines"/> counts.</summary>
public sealed record DeadlineRule(DeadlineKind Kind, int Days)
{
    public static readonly DeadlineRule None = new(DeadlineKind.None, 0);

    public string Words => Kind switch
    {
        DeadlineKind.DaysAfterPeriod => $"{Days} days after the period",
        DeadlineKind.DaysAfterEvent => $"{Days} days after each system's day",
        DeadlineKind.BusinessDaysAfterPeriod => $"{Days} business days after the period",
        DeadlineKind.BusinessDaysAfterQuarter => $"{Days} business days after the quarter",
        _ => "not known",
    };

    /// <param name="earliest">The first day on which something to report happened; without one the period's first day counts.</param>
    public DateOnly? DueOn(ReportPeriod period, DateOnly? earliest) => Kind switch
    {
        DeadlineKind.DaysAfterPeriod => ReportDeadlines.DaysAfter(Days, period.Last),
        DeadlineKind.DaysAfterEvent => ReportDeadlines.DaysAfter(Days, earliest ?? period.First),
        DeadlineKind.BusinessDaysAfterPeriod => BusinessDays.After(Days, period.Last),
        DeadlineKind.BusinessDaysAfterQuarter => ReportDeadlines.BusinessDaysAfterQuarter(Days, Quarter.Of(period.Last)),
        _ => null,
    };
}
