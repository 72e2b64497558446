using System.Globalization;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Tests.Monitor;

/// <summary>Turns the times of a device's clock into instants, by how that clock runs, and says when it seems to run otherwise.</summary>
internal sealed class ClockOfDevice(DeviceClock clock, TimeZoneInfo zone)
{
    public List<(int Line, DateTime Utc, string Cell)>? Resolve(
        IReadOnlyList<(int Line, DateTime Local, TimeSpan? Offset, string Cell)> rows, Action<string, string> refuse, Action<string> remark)
    {
        var resolved = new List<(int, DateTime, string)>(rows.Count);
        var (last, withOffset, taken, once) = (DateTime.MinValue, 0, new HashSet<DateTime>(), new Dictionary<DateTime, int>());
        foreach (var (line, local, offset, cell) in rows)
        {
            DateTime utc;
            if (offset is { } said)
            {
                utc = DateTime.SpecifyKind(local - said, DateTimeKind.Utc);
                withOffset++;
            }
            else if (clock == DeviceClock.UniversalTime) utc = DateTime.SpecifyKind(local, DateTimeKind.Utc);
            else if (clock == DeviceClock.StandardTime) utc = DateTime.SpecifyKind(local - zone.BaseUtcOffset, DateTimeKind.Utc);
            else if (zone.IsInvalidTime(local))
            {
                refuse("Clock", $"Line {line}: {Show(local)} never came where the clocks go forward that night. This device’s clock is not set forward: choose “standard time all year” or UTC.");
                return null;
            }
            else if (zone.IsAmbiguousTime(local))
            {
                var (first, second) = (Utc(local, zone.GetAmbiguousTimeOffsets(local).Max()), Utc(local, zone.GetAmbiguousTimeOffsets(local).Min()));
                utc = first > last && !taken.Contains(first) ? first : taken.Contains(second) ? first : second;
                once[local] = once.GetValueOrDefault(local) + 1;
            }
            else utc = TimeZoneInfo.ConvertTimeToUtc(local, zone);
            resolved.Add((line, utc, cell));
            taken.Add(utc);
            if (utc > last) last = utc;
        }

        if (withOffset > 0) remark($"{(withOffset == rows.Count ? "The times" : $"{withOffset} times")} name their own distance from UTC, and that is used.");
        if (once.Count > 0 && once.Values.All(n => n == 1) && rows.Count > 3)
            remark($"In the night in which the clocks go back the hour of {once.Keys.Min().ToString("h:mm tt", CultureInfo.InvariantCulture)} stands once, where a clock that is set back has it twice. If this device’s clock is never set, choose “standard time all year”.");
        return resolved;
    }

    private static DateTime Utc(DateTime local, TimeSpan offset) => DateTime.SpecifyKind(local - offset, DateTimeKind.Utc);

    private static string Show(DateTime local) => $"{HouseTime.Show(DateOnly.FromDateTime(local))} {local.ToString("h:mm tt", CultureInfo.InvariantCulture)}";
}
