using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Tests.Monitor;

/// <summary>Puts the hours of a looked-at file onto a device of a test, and remembers with the device how it writes.</summary>
public static class KeepMonitorFile
{
    /// <param name="DocumentId">The file as it came, already stored.</param>
    public sealed record Kept(int DeviceId, int DocumentId, FileHabit Habit, FileReading Reading, GapCause Gaps, string By);

    public static Task<IReadOnlyList<Refusal>> RunAsync(OfficeDb db, Kept kept, DateTime fanOnUtc, TimeZoneInfo zone, DateTime nowUtc) =>
        db.WriteAsync<IReadOnlyList<Refusal>>(async () =>
        {
            var test = await db.RadonTests.Include(t => t.Devices).SingleAsync(t => t.Devices.Any(d => d.Id == kept.DeviceId));
            var device = test.Devices.Single(d => d.Id == kept.DeviceId);
            if (Refused(test, kept, fanOnUtc, zone, nowUtc) is { } refusal) return [refusal];
            device.Kind = DeviceKind.ContinuousMonitor;
            device.HoursTakenOut = 0;
            Write(device.Monitor ??= new MonitorRecord(), kept, test.StartedAtUtc, nowUtc);
            test.EndedAtUtc ??= kept.Reading.Hours!.Between(test.StartedAtUtc, null, JudgeHours.Give).ToUtc;
            JudgeHours.Fill(test, fanOnUtc, zone);
            (test.Outcome, test.DecidingPCiL, test.JudgedAtUtc, test.OutcomeWhy) = (TestOutcome.NotJudged, null, null, "");
            db.Entry(test).Property(t => t.Notes).IsModified = true;
            await RememberAsync(db, device, kept.Habit);
            await db.SaveChangesAsync();
            return [];
        });

    private static Refusal? Refused(RadonTest test, Kept kept, DateTime fanOnUtc, TimeZoneInfo zone, DateTime nowUtc)
    {
        if (test.LetterSentAtUtc is not null) return new("", "The letter of this test has gone out; its results no longer change. Record a new test.");
        if (kept.Reading.Hours is not { } hours) return kept.Reading.Refusals.Count > 0 ? kept.Reading.Refusals[0] : new("", "The file could not be read.");
        var inside = hours.Between(test.StartedAtUtc, test.EndedAtUtc, JudgeHours.Give);
        if (inside.PCiL.Count == 0)
            return new("Clock", $"No hour of this file lies within the test, which runs from {HouseTime.Show(test.StartedAtUtc, zone)}{(test.EndedAtUtc is { } end ? $" to {HouseTime.Show(end, zone)}" : "")}; the file runs from {HouseTime.Show(hours.FromUtc, zone)} to {HouseTime.Show(hours.ToUtc, zone)}. Look at the clock of the device, or correct the times of the test.");
        if (inside.ToUtc > nowUtc.AddMinutes(5)) return new("Clock", $"The file ends on {HouseTime.Show(inside.ToUtc, zone)}, which is still to come. Look at the clock of the device and its zone.");
        return inside.Missing > 0 && kept.Gaps == GapCause.NotSaid ? new("Gaps", $"{inside.Missing} {(inside.Missing == 1 ? "hour is" : "hours are")} missing inside the test. Say whether the device recorded nothing, or somebody took hours out.") : null;
    }

    /// <summary>Keeps what may belong to the test and two days before it, so that its times can still be corrected.</summary>
    private static void Write(MonitorRecord record, Kept kept, DateTime startedUtc, DateTime nowUtc)
    {
        var hours = kept.Reading.Hours!;
        var from = Math.Max(0, (int)Math.Ceiling((startedUtc.AddDays(-2) - hours.FromUtc).TotalHours));
        var part = hours with { FromUtc = hours.FromUtc.AddHours(from), PCiL = [.. hours.PCiL.Skip(from).Take(MostHours)] };
        (record.StoredDocumentId, record.FromUtc, record.HoursPCiL, record.Gaps) = (kept.DocumentId, part.FromUtc, part.Write(), kept.Gaps);
        (record.Habit, record.DropFirstHours, record.DeviceCorrectsStart) = (kept.Habit.Write(), kept.Habit.DropFirstHours, kept.Habit.DeviceCorrectsStart);
        (record.Remarks, record.ReadAtUtc, record.ReadBy) = (string.Join('\n', kept.Reading.Remarks), nowUtc, kept.By);
    }

    /// <summary>A year and a month of hours.</summary>
    private const int MostHours = 9_500;

    private static async Task RememberAsync(OfficeDb db, TestDevice device, FileHabit habit)
    {
        var key = Instrument.KeyOf(device.Serial);
        if (await db.Instruments.FirstOrDefaultAsync(i => i.Kind == InstrumentKind.ContinuousMonitor && i.SerialKey == key) is { } instrument) instrument.FileHabit = habit.Write();
    }
}
