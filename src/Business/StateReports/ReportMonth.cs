using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.StateReports;

/// <summary>A month as it is reported: in the company's time zone, named by its first day.</summary>
public static class ReportMonth
{
    public static string Words(DateOnly day) => day.ToString("yyyy-MM", CultureInfo.InvariantCulture);

    /// <summary>"2026-10"; null when it is not a month between 1990 and 2199.</summary>
    public static DateOnly? Read(string? words) =>
        DateOnly.TryParseExact(words, "yyyy-MM", CultureInfo.InvariantCulture, DateTimeStyles.None, out var first) && first.Year is >= 1990 and < 2200 ? first : null;

    public static DateOnly Of(DateTime utc, TimeZoneInfo zone)
    {
        var day = HouseTime.DayOf(utc, zone);
        return day.AddDays(1 - day.Day);
    }

    /// <summary>The instant at which the month begins where the company is.</summary>
    public static DateTime BeginUtc(DateOnly month, TimeZoneInfo zone) => HouseTime.ToUtc(month, TimeOnly.MinValue, zone);

    internal static Dictionary<string, string> CompanyValues(CompanyProfile company, DateOnly month) => new(StringComparer.Ordinal)
    {
        ["report_month"] = Words(month),
        ["company"] = company.Name,
        ["company_certification"] = company.CertificationNumber,
    };
}
