using MitigationOffice.Business.Data;
using MitigationOffice.Business.Tests.Monitor;
using MitigationOffice.Business.Work;
using MitigationOffice.Engineering.Dates;
using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Business.Tests;

/// <summary>Draws the verdict of a test whose devices are back and read.</summary>
public static class JudgeTest
{
    /// <summary>The engine's verdict, without the remark on lateness where the test is not the one right after the work.</summary>
    public sealed record Verdict(TestVerdict Engine, IReadOnlyList<Engineering.Radon.TestReason> Reasons);

    public static IReadOnlyList<Refusal> NotReady(RadonTest test)
    {
        var refusals = new List<Refusal>();
        if (test.Devices.Count == 0) refusals.Add(new("", "No device is on record. Add at least one with its room."));
        if (test.EndedAtUtc is null) refusals.Add(new("Ended.Day", "Write when the test ended."));
        else if (test.EndedAtUtc <= test.StartedAtUtc) refusals.Add(new("Ended.Day", "The test must end after it started."));
        foreach (var device in test.Devices.Where(d => d is { PCiL: null, Monitor: not null }))
            refusals.Add(new("Started.Day", $"No hour of the file of {Named(device)} lies between the start and the end of the test. Look at the times of the test and at the clock of the file."));
        foreach (var device in test.Devices.Where(d => d is { PCiL: null, Monitor: null }))
            refusals.Add(new("", $"{Named(device)} has no result yet."));
        return refusals;
    }

    /// <summary>The window of the test: the earliest start and the last day, in the house's time.</summary>
    public static TestWindow Window(DateTime fanOnUtc, DateTime? closedFromUtc, TimeZoneInfo zone) =>
        TestWindow.After(At(fanOnUtc, zone), closedFromUtc is { } closed ? At(closed, zone) : null);

    /// <summary>The verdict of a test that is ready, held against the level promised (never above the action level).</summary>
    public static Verdict Of(RadonTest test, DateTime fanOnUtc, decimal targetPCiL, TimeZoneInfo zone)
    {
        var verdict = PostMitigationVerdict.Draw(new PostMitigationTest
        {
            FanOn = At(fanOnUtc, zone),
            ClosedSince = test.ClosedHouseFromUtc is { } closed ? At(closed, zone) : null,
            StayedClosed = test.StayedClosed,
            Start = At(test.StartedAtUtc, zone),
            End = At(test.EndedAtUtc!.Value, zone),
            Target = RadonConcentration.FromPciPerL(Math.Clamp(targetPCiL, 0.1m, RadonLevels.EpaActionPciPerL)),
            Devices = [.. test.Devices.OrderBy(d => d.Id).Select(d => Device(d, test, fanOnUtc, zone))],
            Zone = zone,
        });
        var reasons = test.Reason == TestReason.PostMitigation
            ? verdict.Reasons
            : [.. verdict.Reasons.Where(r => r.Kind != ReasonKind.Notes || r.Source != TestWindow.LastDaySource)];
        return new(verdict, reasons);
    }

    /// <summary>Writes the verdict onto the test, to be saved by the caller.</summary>
    public static Verdict Write(RadonTest test, DateTime fanOnUtc, decimal targetPCiL, TimeZoneInfo zone, DateTime nowUtc)
    {
        JudgeHours.Fill(test, fanOnUtc, zone);
        var verdict = Of(test, fanOnUtc, targetPCiL, zone);
        test.Outcome = verdict.Engine.Outcome switch
        {
            Engineering.Radon.TestOutcome.PassedBelowTarget => TestOutcome.BelowTarget,
            Engineering.Radon.TestOutcome.PassedFurtherReductionOffered => TestOutcome.BelowActionLevel,
            Engineering.Radon.TestOutcome.NotPassed => TestOutcome.NotPassed,
            _ => TestOutcome.NotValid,
        };
        test.DecidingPCiL = verdict.Engine.Deciding.PciPerL;
        test.TargetPCiL = verdict.Engine.Test.Target.PciPerL;
        test.OutcomeWhy = string.Join('\n', verdict.Reasons.Select(r => $"{r.Sentence} [{r.Source}]"));
        test.JudgedAtUtc = nowUtc;
        return verdict;
    }

    private static string Named(TestDevice d) => $"The device in {d.Room}{(d.Serial.Length == 0 ? "" : $" ({d.Serial})")}";

    private static Engineering.Radon.TestDevice Device(TestDevice d, RadonTest test, DateTime fanOnUtc, TimeZoneInfo zone) => Device(d, d.Monitor is { } record ? JudgeHours.Of(record, test, fanOnUtc, zone).Engine : null);

    private static Engineering.Radon.TestDevice Device(TestDevice d, MonitorFinding? hourly) => new()
    {
        Name = d.Serial.Length == 0 ? $"The device in {d.Room}" : d.Serial,
        Kind = d.Kind switch
        {
            DeviceKind.ContinuousMonitor => Engineering.Radon.DeviceKind.ContinuousMonitor,
            DeviceKind.Electret => Engineering.Radon.DeviceKind.ElectretIonChamber,
            DeviceKind.LiquidScintillation => Engineering.Radon.DeviceKind.CharcoalLiquidScintillation,
            DeviceKind.AlphaTrack => Engineering.Radon.DeviceKind.AlphaTrack,
            _ => Engineering.Radon.DeviceKind.ActivatedCharcoal,
        },
        Room = d.Room,
        Result = hourly is null ? RadonConcentration.FromPciPerL(d.PCiL!.Value) : hourly.Average ?? default,
        Hourly = hourly,
        CollocationGroup = d.Pair.Length == 0 ? null : d.Pair,
        DistanceToGroupInches = d.ApartM is { } apart ? Math.Round((decimal)(apart / 0.0254), 4, MidpointRounding.AwayFromZero) : null,
        CalibratedOn = d.CalibratedOn,
        CalibrationDueOn = d.CalibrationDueOn,
        HoursCutFromInside = d.HoursTakenOut,
    };

    private static DateTimeOffset At(DateTime utc, TimeZoneInfo zone) =>
        TimeZoneInfo.ConvertTime(new DateTimeOffset(DateTime.SpecifyKind(utc, DateTimeKind.Utc)), zone);
}
