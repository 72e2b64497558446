using System.Globalization;

namespace MitigationOffice.Business.Data;

/// <summary>Instants as days and clock times where the house stands, and back.</summary>
public static class HouseTime
{
    public static TimeZoneInfo Zone(string? iana, string fallback = "America/Chicago") =>
        TimeZoneInfo.TryFindSystemTimeZoneById(string.IsNullOrWhiteSpace(iana) ? fallback : iana, out var zone)
            ? zone
            : TimeZoneInfo.FindSystemTimeZoneById("America/Chicago");

    public static DateOnly DayOf(DateTime utc, TimeZoneInfo zone) =>
        DateOnly.FromDateTime(TimeZoneInfo.ConvertTimeFromUtc(DateTime.SpecifyKind(utc, DateTimeKind.Utc), zone));

    /// <summary>The instant of a day and clock time at the house. In the hour that spring skips, the next that exists;
    /// in the hour that autumn repeats, the first.</summary>
    public static DateTime ToUtc(DateOnly day, TimeOnly time, TimeZoneInfo zone)
    {
        var local = day.ToDateTime(time);
        if (zone.IsInvalidTime(local)) local = local.AddHours(1);
        if (zone.IsAmbiguousTime(local)) return DateTime.SpecifyKind(local - zone.GetAmbiguousTimeOffsets(local).Max(), DateTimeKind.Utc);
        return TimeZoneInfo.ConvertTimeToUtc(local, zone);
    }

    public static string Show(DateTime? utc, TimeZoneInfo zone) => utc is { } u
        ? TimeZoneInfo.ConvertTimeFromUtc(DateTime.SpecifyKind(u, DateTimeKind.Utc), zone).ToString("MMM d, yyyy h:mm tt", CultureInfo.InvariantCulture)
        : "–";

    public static string Show(DateOnly? day) => day?.ToString("MMM d, yyyy", CultureInfo.InvariantCulture) ?? "–";
}
