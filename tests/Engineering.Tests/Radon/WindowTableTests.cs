using System.Globalization;
using MitigationOffice.Engineering.Dates;
using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Engineering.Tests.Radon;

/// <summary>
/// The date and window rules as tables, in a zone whose clocks go forward on 2026-03-08 and back on 2026-11-01.
/// Rules: ANSI/AARST MAH 2019, 7.3.2 (24 h after the fan, 12 h closed, 46 h of a monitor started early); 25 Pa. Code
/// 240.310(a)(4)(ii) (48 h); EPA 402-R-93-078, section 17, from memory (30 days). Instants by hand.
/// </summary>
public sealed class WindowTableTests
{
    private static readonly TimeZoneInfo Zone = TimeZoneInfo.FindSystemTimeZoneById("America/Chicago");

    /// <summary>A clock time at the house; in the hour that comes twice, the first.</summary>
    private static DateTimeOffset At(string text)
    {
        var local = DateTime.ParseExact(text, "yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
        return new(local, Zone.IsAmbiguousTime(local) ? Zone.GetAmbiguousTimeOffsets(local).Max() : Zone.GetUtcOffset(local));
    }

    [Theory]
    [InlineData("2024-03-01 10:00", null, "2024-03-02 10:00", "2024-03-31")]
    [InlineData("2024-03-01 10:00", "2024-03-02 18:00", "2024-03-03 06:00", "2024-03-31")]
    [InlineData("2026-03-07 09:00", null, "2026-03-08 10:00", "2026-04-06")]
    [InlineData("2026-10-31 09:00", null, "2026-11-01 08:00", "2026-11-30")]
    [InlineData("2026-03-06 09:00", "2026-03-07 20:00", "2026-03-08 09:00", "2026-04-05")]
    [InlineData("2026-10-29 09:00", "2026-10-31 20:00", "2026-11-01 07:00", "2026-11-28")]
    [InlineData("2026-02-06 23:30", null, "2026-02-07 23:30", "2026-03-08")]
    public void The_window_opens_and_closes(string fanOn, string? closed, string earliest, string lastDay)
    {
        var window = TestWindow.After(At(fanOn), closed is null ? null : At(closed));
        Assert.Equal(At(earliest), window.EarliestStart);
        Assert.Equal(DateOnly.ParseExact(lastDay, "yyyy-MM-dd", CultureInfo.InvariantCulture), window.LastDay);
    }

    [Theory]
    [InlineData("2026-10-03 09:00", "2026-11-02 23:30", false)]
    [InlineData("2026-10-03 09:00", "2026-11-03 00:10", true)]
    [InlineData("2026-02-06 09:00", "2026-03-08 23:30", false)]
    [InlineData("2026-02-06 09:00", "2026-03-09 00:10", true)]
    [InlineData("2024-03-01 10:00", "2024-03-31 23:59", false)]
    [InlineData("2024-03-01 10:00", "2024-04-01 00:00", true)]
    public void The_last_day_is_a_day_of_the_house(string fanOn, string start, bool late) => Assert.Equal(late, TestWindow.After(At(fanOn)).IsLate(At(start)));

    [Theory]
    [InlineData("2026-03-05 08:00", "2026-03-05 18:00", "2026-03-07 12:00", "2026-03-09 12:00", "The test ran 47 h; at least 48 h are needed.")]
    [InlineData("2026-03-05 08:00", "2026-03-05 18:00", "2026-03-07 12:00", "2026-03-09 13:00", null)]
    [InlineData("2026-10-28 08:00", "2026-10-29 18:00", "2026-10-31 12:00", "2026-11-02 11:00", null)]
    [InlineData("2026-10-28 08:00", "2026-10-29 18:00", "2026-10-31 12:00", "2026-11-02 10:59", "The test ran 47.98 h; at least 48 h are needed.")]
    [InlineData("2026-03-07 09:00", "2026-03-06 18:00", "2026-03-08 09:30", "2026-03-11 09:30", "before 2026-03-08 10:00")]
    [InlineData("2026-03-07 09:00", "2026-03-06 18:00", "2026-03-08 10:00", "2026-03-11 09:30", null)]
    [InlineData("2026-10-31 09:00", "2026-10-30 18:00", "2026-11-01 07:30", "2026-11-04 09:30", "before 2026-11-01 08:00")]
    [InlineData("2026-10-31 09:00", "2026-10-30 18:00", "2026-11-01 08:00", "2026-11-04 09:30", null)]
    [InlineData("2026-03-05 09:00", "2026-03-07 20:00", "2026-03-08 08:30", "2026-03-11 09:30", "before 2026-03-08 09:00")]
    [InlineData("2026-03-05 09:00", null, "2026-03-08 10:00", "2026-03-11 09:30", "not written down when the house was closed up")]
    public void A_passive_test_is_valid_only_within_its_rules(string fanOn, string? closed, string start, string end, string? against)
    {
        var verdict = PostMitigationVerdict.Draw(Test(fanOn, closed, start, end, new TestDevice { Name = "1", Kind = DeviceKind.ActivatedCharcoal, Room = "Den", Result = RadonConcentration.FromPciPerL(1.5m) }));
        Assert.Equal(against is null, verdict.IsValid);
        if (against is not null) Assert.Contains(verdict.Reasons, r => r.Kind == ReasonKind.Invalidates && r.Sentence.Contains(against, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("2026-03-08 10:00", 48, 44, true)]
    [InlineData("2026-03-08 10:00", 47, 43, false)]
    [InlineData("2026-03-07 10:00", 69, 46, true)]
    [InlineData("2026-03-07 10:00", 68, 45, false)]
    public void A_monitor_with_its_hours_counts_from_the_conditions_on(string start, int hours, int used, bool valid)
    {
        // Fan on 2026-03-07 09:00; conditions met 2026-03-08 10:00 CDT, 23 h after 10:00 CST of the day before.
        var met = At("2026-03-08 10:00");
        var found = new MonitorSeries(At(start), [.. Enumerable.Repeat(new MonitorHour(RadonConcentration.FromPciPerL(1.5m)), hours)])
            .Judge(new() { NotBefore = met, ShortestHours = At(start) >= met ? PostMitigationRules.Default.MonitorShortestHoursInTime : PostMitigationRules.Default.MonitorShortestHours });
        Assert.Equal((used, valid), (found.HoursUsed, found.IsValid));
        var end = TimeZoneInfo.ConvertTime(At(start).AddHours(hours), Zone);
        var device = new TestDevice { Name = "M-1", Kind = DeviceKind.ContinuousMonitor, Room = "Den", Result = found.Average!.Value, Hourly = found, CalibratedOn = new(2026, 1, 5) };
        var verdict = PostMitigationVerdict.Draw(Test("2026-03-07 09:00", "2026-03-06 18:00", start, "2026-03-20 00:00", device) with { End = end });
        Assert.Equal(valid, verdict.IsValid);
        if (!valid) Assert.Contains(verdict.Reasons, r => r.Sentence.StartsWith($"M-1: {used} contiguous hours are left", StringComparison.Ordinal));
    }

    // Source: the date on the report ANSI/AARST MAH 2019, 8.5.3(b); the due day is the certificate's own.
    [Theory]
    [InlineData("2026-03-08", true)]
    [InlineData("2026-03-07", false)]
    public void A_calibration_is_good_to_the_day_its_certificate_says(string due, bool valid)
    {
        var device = new TestDevice { Name = "M-1", Kind = DeviceKind.ContinuousMonitor, Room = "Den", Result = RadonConcentration.FromPciPerL(1.5m), CalibratedOn = new(2025, 9, 8), CalibrationDueOn = DateOnly.ParseExact(due, "yyyy-MM-dd", CultureInfo.InvariantCulture) };
        Assert.Equal(valid, PostMitigationVerdict.Draw(Test("2026-03-05 09:00", "2026-03-06 18:00", "2026-03-08 10:00", "2026-03-11 10:00", device)).IsValid);
    }

    [Fact]
    public void A_quarter_owes_shares_of_its_sums_without_the_least_of_a_year()
    {
        var quarter = QualityChecksOwed.ForMonths([.. Enumerable.Repeat(new MonthOfTests(40, 40, 7), 3)]);
        Assert.Equal(new QualityChecks(12, 6, 4, 4, 3), quarter);
        Assert.Equal(0, QualityChecksOwed.ForMonths([new(0, 0, 0)]).Spikes);
    }

    private static PostMitigationTest Test(string fanOn, string? closed, string start, string end, TestDevice device) => new()
    {
        FanOn = At(fanOn), ClosedSince = closed is null ? null : At(closed), Start = At(start), End = At(end), Target = RadonConcentration.FromPciPerL(2m), Devices = [device], Zone = Zone,
    };
}
