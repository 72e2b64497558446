using System.Globalization;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Systems;

/// <summary>Which of the two passes of an hour that the clocks repeat in autumn.</summary>
public enum HourPass
{
    NotSaid,
    First,
    Second,
}

/// <summary>Reads a clock time at the house without guessing: on the two days a year on which the clocks change, it asks.</summary>
public static class HouseClock
{
    /// <param name="Utc">The instant; empty where it could not be read.</param>
    /// <param name="Problem">What to do about it, for the person who typed it.</param>
    /// <param name="AskPass">True when the hour came twice and it was not said which is meant.</param>
    public sealed record Reading(DateTime? Utc, string? Problem, bool AskPass);

    public static Reading Read(DateOnly day, TimeOnly time, TimeZoneInfo zone, HourPass pass)
    {
        var local = day.ToDateTime(time);
        if (zone.IsInvalidTime(local))
            return new(null, $"The clocks at the house skip an hour on {HouseTime.Show(day)}: {Show(time)} never came. Write the time after the change.", false);
        if (!zone.IsAmbiguousTime(local)) return new(HouseTime.ToUtc(day, time, zone), null, false);
        if (pass == HourPass.NotSaid)
            return new(null, $"The clocks at the house go back on {HouseTime.Show(day)}, so {Show(time)} comes twice. Say which one is meant.", true);
        var offsets = zone.GetAmbiguousTimeOffsets(local);
        return new(DateTime.SpecifyKind(local - (pass == HourPass.First ? offsets.Max() : offsets.Min()), DateTimeKind.Utc), null, false);
    }

    /// <summary>An instant as day, clock time and pass at the house: what a form holds.</summary>
    public static (DateOnly Day, TimeOnly Time, HourPass Pass) Of(DateTime utc, TimeZoneInfo zone)
    {
        var local = TimeZoneInfo.ConvertTimeFromUtc(DateTime.SpecifyKind(utc, DateTimeKind.Utc), zone);
        var pass = !zone.IsAmbiguousTime(local) ? HourPass.NotSaid
            : local - zone.GetAmbiguousTimeOffsets(local).Max() == utc ? HourPass.First : HourPass.Second;
        return (DateOnly.FromDateTime(local), TimeOnly.FromDateTime(local), pass);
    }

    private static string Show(TimeOnly time) => time.ToString("h:mm tt", CultureInfo.InvariantCulture);
}
