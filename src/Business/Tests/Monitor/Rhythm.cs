using System.Globalization;

namespace MitigationOffice.Business.Tests.Monitor;

/// <summary>Puts readings into hours, by the rhythm in which the device wrote them.</summary>
internal static class Rhythm
{
    private const int MostHours = 200_000;

    public static (MonitorHours? Hours, string? Refusal, string? Remark) Of(SortedDictionary<DateTime, (int Line, decimal? PCiL, string Cell)> rows, RowTime marks)
    {
        if (rows.Count < 2) return (null, "The file holds one reading only. A record of hours is needed.", null);
        var times = rows.Keys.ToList();
        var minutes = times.Zip(times.Skip(1), (a, b) => (int)Math.Round((b - a).TotalMinutes, MidpointRounding.AwayFromZero)).GroupBy(m => m).OrderByDescending(g => g.Count()).ThenBy(g => g.Key).First().Key;
        if (minutes is > 60 or < 1)
            return (null, minutes > 60 ? $"The rows are {Every(minutes)} apart. Hourly readings are needed (ANSI/AARST MAH 2019, 8.5.3): read the monitor out by the hour." : "The rows are less than a minute apart. Read the monitor out by the hour.", null);
        if (60 % minutes != 0) return (null, $"The rows are {minutes} minutes apart, which does not divide an hour. Read the monitor out by the hour.", null);
        var start = times[0];
        if ((times[^1] - start).TotalHours > MostHours) return (null, "The file spans more than twenty years. Look at its dates.", null);
        var parts = 60 / minutes;
        var slots = new (decimal Sum, int Count)[(int)Math.Floor((times[^1] - start).TotalMinutes / 60.0 + 0.5 / parts) + 1];
        var seen = new HashSet<long>();
        foreach (var (at, row) in rows)
        {
            var place = (at - start).TotalMinutes / minutes;
            var slot = (long)Math.Round(place, MidpointRounding.AwayFromZero);
            if (Math.Abs(place - slot) > 0.2 || !seen.Add(slot))
                return (null, $"Line {row.Line} does not keep the rhythm: the rows are {Every(minutes)} apart, and this one is not. If the monitor’s clock was set in between, read the part of this test out alone.", null);
            if (row.PCiL is { } value && slot / parts < slots.Length) slots[slot / parts] = (slots[slot / parts].Sum + value, slots[slot / parts].Count + 1);
        }

        var hours = slots.Select(s => s.Count == parts ? s.Sum / parts : (decimal?)null).ToList();
        var from = marks == RowTime.EndsTheHour ? start.AddMinutes(-minutes) : start;
        return (new(from, hours), null, parts == 1 ? null : $"The rows are {minutes} minutes apart; {parts} make an hour, and an hour that lacks one has no reading.");
    }

    private static string Every(int minutes) => minutes % 60 == 0 ? $"{(minutes / 60).ToString(CultureInfo.InvariantCulture)} h" : $"{minutes.ToString(CultureInfo.InvariantCulture)} minutes";
}
