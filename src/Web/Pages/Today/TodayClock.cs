using System.Globalization;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Today;

/// <summary>Now, and how far other days are from it, in the company's time zone.</summary>
public sealed record TodayClock(DateTime NowUtc, TimeZoneInfo Zone)
{
    public DateOnly Today { get; } = HouseTime.DayOf(NowUtc, Zone);

    public DateOnly Day(DateTime utc) => HouseTime.DayOf(utc, Zone);

    /// <summary>"today", "yesterday", "5 days ago (Feb 25)".</summary>
    public string Ago(DateOnly day) => (Today.DayNumber - day.DayNumber) switch
    {
        0 => "today",
        1 => "yesterday",
        < 0 => Short(day),
        var days => $"{days} days ago ({Short(day)})",
    };

    /// <summary>"today", "tomorrow", "Tue, Mar 3 (in 5 days)".</summary>
    public string Ahead(DateOnly day) => (day.DayNumber - Today.DayNumber) switch
    {
        0 => "today",
        1 => "tomorrow",
        < 0 => Short(day),
        var days => $"{day.ToString("ddd, MMM d", CultureInfo.InvariantCulture)} (in {days} days)",
    };

    private string Short(DateOnly day) => day.ToString(day.Year == Today.Year ? "MMM d" : "MMM d, yyyy", CultureInfo.InvariantCulture);
}
