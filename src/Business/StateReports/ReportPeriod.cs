using System.Globalization;
using MitigationOffice.Engineering.Dates;

namespace MitigationOffice.Business.StateReports;

public enum PeriodKind
{
    /// <summary>Nothing is reported; the profile only says how long records are kept and who may see them.</summary>
    None,
    Month,
    Quarter,
    Year,

    /// <summary>Each system has its own days; a run closes on a day the office chooses.</summary>
    Days,
}

/// <summary>The days one run is about, both ends included.</summary>
/// <param name="Name">"2026-10", "2026-Q4", "2026"; of a run with days of its own its closing day, "2026-10-17". Stands in addresses and file names.</param>
public sealed record ReportPeriod(PeriodKind Kind, string Name, DateOnly First, DateOnly Last)
{
    public string Words => Kind switch
    {
        PeriodKind.Month => First.ToString("MMMM yyyy", CultureInfo.InvariantCulture),
        PeriodKind.Quarter => $"{First.ToString("MMMM", CultureInfo.InvariantCulture)} to {Last.ToString("MMMM yyyy", CultureInfo.InvariantCulture)}",
        PeriodKind.Year => Name,
        _ => $"{Show(First)} to {Show(Last)}",
    };

    public bool Holds(DateOnly day) => day >= First && day <= Last;

    /// <summary>The period of fixed length that a day lies in.</summary>
    public static ReportPeriod Of(PeriodKind kind, DateOnly day)
    {
        switch (kind)
        {
            case PeriodKind.Quarter:
                var quarter = Quarter.Of(day);
                return new(kind, string.Create(CultureInfo.InvariantCulture, $"{quarter.FirstDay.Year:0000}-Q{(quarter.FirstDay.Month + 2) / 3}"), quarter.FirstDay, quarter.LastDay);
            case PeriodKind.Year:
                return new(kind, day.ToString("yyyy", CultureInfo.InvariantCulture), new DateOnly(day.Year, 1, 1), new DateOnly(day.Year, 12, 31));
            default:
                var first = day.AddDays(1 - day.Day);
                return new(PeriodKind.Month, day.ToString("yyyy-MM", CultureInfo.InvariantCulture), first, first.AddMonths(1).AddDays(-1));
        }
    }

    /// <summary>From a first day to a closing day.</summary>
    public static ReportPeriod Days(DateOnly first, DateOnly last) =>
        new(PeriodKind.Days, last.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), first, last);

    public ReportPeriod Next() => Of(Kind, Last.AddDays(1));

    /// <summary>The day a name speaks of: the first of its period, or the closing day; null where it is no name of this kind.</summary>
    public static DateOnly? DayOf(PeriodKind kind, string? name)
    {
        DateOnly? day = kind switch
        {
            PeriodKind.Month => Exact(name, "yyyy-MM"),
            PeriodKind.Year => Exact(name is { Length: 4 } ? name + "-01" : null, "yyyy-MM"),
            PeriodKind.Days => Exact(name, "yyyy-MM-dd"),
            PeriodKind.Quarter when name is { Length: 7 } && name[5] == 'Q' && name[6] is >= '1' and <= '4' => Exact($"{name[..5]}{(name[6] - '0') * 3 - 2:00}", "yyyy-MM"),
            _ => null,
        };
        return day is { Year: >= 1990 and < 2200 } ? day : null;
    }

    /// <summary>How a name of this kind is written, for a refusal.</summary>
    public static string Example(PeriodKind kind) => kind switch
    {
        PeriodKind.Quarter => "a year and a quarter, for example 2026-Q4",
        PeriodKind.Year => "a year, for example 2026",
        PeriodKind.Days => "its closing day, for example 2026-10-17",
        _ => "a year and a month, for example 2026-10",
    };

    private static DateOnly? Exact(string? text, string form) =>
        DateOnly.TryParseExact(text, form, CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;

    private static string Show(DateOnly day) => day.ToString("MMM d, yyyy", CultureInfo.InvariantCulture);
}
