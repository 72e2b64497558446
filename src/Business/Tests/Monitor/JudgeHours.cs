using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Business.Tests.Monitor;

/// <summary>One hour as it is shown: when, what, and whether it counts.</summary>
/// <param name="Why">Why it does not count; empty where it does.</param>
public sealed record ShownHour(DateTime FromUtc, decimal? PCiL, string Why)
{
    public bool Counts => Why.Length == 0;
}

/// <summary>The engine's finding on a monitor's hours within a test.</summary>
public sealed record HoursFinding(MonitorFinding Engine, IReadOnlyList<ShownHour> Hours, MonitorRules Rules)
{
    private const int HoursAround = 12;

    /// <summary>The hours of the test and some around it: a file may hold years. All of them where none lies in the test.</summary>
    public IReadOnlyList<ShownHour> Near
    {
        get
        {
            var inside = Enumerable.Range(0, Hours.Count).Where(h => Hours[h].Why is not (JudgeHours.Before or JudgeHours.After)).ToList();
            if (inside.Count == 0) return Hours;
            var first = Math.Max(0, inside[0] - HoursAround);
            return [.. Hours.Skip(first).Take(inside[^1] + HoursAround + 1 - first)];
        }
    }
}

/// <summary>Gives the hours of a test to the engine: those that lie within it, with the instant from which they may count.</summary>
public static class JudgeHours
{
    /// <summary>A row may begin so much before the test was noted to start, and end so much after it (house rule).</summary>
    public static readonly TimeSpan Give = TimeSpan.FromMinutes(15);

    internal const string Before = "before the test", After = "after the test";

    /// <summary>What to look at where the file is as long as the test and lies some whole hours beside it; null where it does not.</summary>
    public static string? DoubtOfClock(MonitorHours file, RadonTest test)
    {
        if (test.EndedAtUtc is not { } end) return null;
        var (early, late) = (Math.Round((test.StartedAtUtc - file.FromUtc).TotalHours, MidpointRounding.AwayFromZero), Math.Round((end - file.ToUtc).TotalHours, MidpointRounding.AwayFromZero));
        return early != late || Math.Abs(early) is < 1 or > 24 ? null
            : $"The file is as long as the test and lies {Math.Abs(early):0} h {(early > 0 ? "before" : "after")} it from beginning to end. Look whether the zone is right, and how the device’s clock runs.";
    }

    public static HoursFinding Of(MonitorHours file, RadonTest test, GapCause gaps, int dropFirst, bool corrects, DateTime fanOnUtc, TimeZoneInfo zone)
    {
        var hours = file.Between(test.StartedAtUtc, test.EndedAtUtc, Give);
        var needsClosed = (test.EndedAtUtc ?? hours.ToUtc) - test.StartedAtUtc <= TimeSpan.FromDays(PostMitigationRules.Default.LongTermOverDays);
        var window = JudgeTest.Window(fanOnUtc, needsClosed ? test.ClosedHouseFromUtc : null, zone);
        var inTime = test.StartedAtUtc >= window.EarliestStart.UtcDateTime;
        var rules = new MonitorRules
        {
            DropFirstHours = corrects ? Math.Clamp(dropFirst, 0, 2160) : Math.Clamp(dropFirst, MonitorSeries.FewestDroppedHours, 2160), DeviceCorrectsStart = corrects, NotBefore = window.EarliestStart,
            ShortestHours = inTime ? PostMitigationRules.Default.MonitorShortestHoursInTime : PostMitigationRules.Default.MonitorShortestHours,
        };
        var series = new MonitorSeries(
            new DateTimeOffset(DateTime.SpecifyKind(hours.FromUtc, DateTimeKind.Utc)),
            [.. hours.PCiL.Select(p => new MonitorHour(p is { } v ? RadonConcentration.FromPciPerL(v) : null, p is null && gaps == GapCause.TakenOut))]);
        var finding = series.Judge(rules);
        return new(finding, Shown(file, hours, finding, rules), rules);
    }

    public static HoursFinding Of(MonitorRecord record, RadonTest test, DateTime fanOnUtc, TimeZoneInfo zone) =>
        Of(MonitorHours.Of(record), test, record.Gaps, record.DropFirstHours, record.DeviceCorrectsStart, fanOnUtc, zone);

    /// <summary>Writes the engine's average onto every device whose file is kept.</summary>
    public static void Fill(RadonTest test, DateTime fanOnUtc, TimeZoneInfo zone)
    {
        foreach (var device in test.Devices)
            if (device.Monitor is { } record) device.PCiL = Of(record, test, fanOnUtc, zone).Engine.Average is { } average ? Math.Round(average.PciPerL, 6, MidpointRounding.AwayFromZero) : null;
    }

    private static List<ShownHour> Shown(MonitorHours file, MonitorHours inside, MonitorFinding finding, MonitorRules rules)
    {
        var shown = new List<ShownHour>(file.PCiL.Count);
        var (from, to) = (finding.UsedFrom?.UtcDateTime ?? DateTime.MaxValue, finding.UsedTo?.UtcDateTime ?? DateTime.MaxValue);
        for (var h = 0; h < file.PCiL.Count; h++)
        {
            var at = file.FromUtc.AddHours(h);
            var place = (int)Math.Round((at - inside.FromUtc).TotalHours, MidpointRounding.AwayFromZero);
            var why = inside.PCiL.Count == 0 || place < 0 ? Before
                : place >= inside.PCiL.Count ? After
                : file.PCiL[h] is null ? "no reading"
                : at >= from && at < to ? ""
                : place < rules.DropFirstHours ? "first hours of the device"
                : at < rules.NotBefore ? "conditions not met yet"
                : "outside the longest stretch";
            shown.Add(new(at, file.PCiL[h], why));
        }

        return shown;
    }
}
