using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Web.Pages.Today;

/// <summary>Tests that must be started, fetched or judged.</summary>
public sealed class ReadTestsToday(OfficeDb db, TodayClock at)
{
    private const int Asked = TodayGroup.Most + 1;

    /// <summary>A test may begin 24 hours after the fan was switched on (ANSI/AARST MAH-2019, 7.3.2) and is due within 30 days of it (EPA RMS, section 17, from memory).</summary>
    private static readonly TimeSpan Opens = TimeSpan.FromHours(24), Closes = TimeSpan.FromDays(30);

    /// <summary>Short-term devices are fetched after two to seven days; long-term ones after 91 days to a year. Common practice, no source.</summary>
    private const int ShortTermDays = 7, LongTermDays = 365;

    public async Task<TodayGroup> WindowsAsync()
    {
        var rows = await db.Systems.AsNoTracking()
            .Where(s => !db.RadonTests.Any(t => t.HouseId == s.HouseId && t.Outcome != TestOutcome.NotValid && (t.InstalledSystemId == s.Id || (t.InstalledSystemId == null && t.StartedAtUtc >= s.ActivatedAtUtc))))
            .OrderBy(s => s.ActivatedAtUtc).ThenBy(s => s.Id).Take(Asked)
            .Select(s => new { s.HouseId, s.TagNumber, s.ActivatedAtUtc, Street = db.Houses.Where(h => h.Id == s.HouseId).Select(h => h.Street).FirstOrDefault() }).ToListAsync();
        return new("windows", "Systems running, not tested", [.. rows.Select(s => new TodayItem(
            $"/houses/{s.HouseId}/proof", $"{s.Street}, tag {s.TagNumber}", WindowWords(s.ActivatedAtUtc), at.NowUtc > s.ActivatedAtUtc + Closes))], "/houses?stage=NotTested");
    }

    private string WindowWords(DateTime fanOn)
    {
        var (opens, closes) = (fanOn + Opens, fanOn + Closes);
        if (at.NowUtc < opens) return $"a test may start from {HouseTime.Show(opens, at.Zone)}, 24 hours after the fan was switched on";
        return at.NowUtc <= closes
            ? $"start the test by {at.Ahead(at.Day(closes))}: 30 days after the fan was switched on"
            : $"the 30 days after the fan was switched on ended {at.Ago(at.Day(closes))}: test at once";
    }

    public async Task<IReadOnlyList<TodayGroup>> OutAndBackAsync(bool withLetters)
    {
        var lately = at.NowUtc.AddDays(-90);
        var rows = await db.RadonTests.AsNoTracking()
            .Where(t => t.EndedAtUtc == null || t.Outcome == TestOutcome.NotJudged
                || (t.Outcome == TestOutcome.NotPassed && !db.RadonTests.Any(u => u.HouseId == t.HouseId && u.StartedAtUtc > t.StartedAtUtc && u.Outcome != TestOutcome.NotValid))
                || (withLetters && t.LetterSentAtUtc == null && t.JudgedAtUtc > lately && (t.Outcome == TestOutcome.BelowTarget || t.Outcome == TestOutcome.BelowActionLevel)))
            .OrderBy(t => t.StartedAtUtc).ThenBy(t => t.Id).Take(3 * Asked)
            .Select(t => new TestRow(
                t.HouseId, t.StartedAtUtc, t.EndedAtUtc, t.Outcome, t.DecidingPCiL,
                t.Devices.Any(d => d.Kind == DeviceKind.AlphaTrack), db.Houses.Where(h => h.Id == t.HouseId).Select(h => h.Street).FirstOrDefault() ?? "")).ToListAsync();
        return
        [
            new("out", "Test devices out", Items(rows, t => t.EndedAtUtc is null), "/tests"),
            new("judge", "Results to judge", Items(rows, t => t is { EndedAtUtc: not null, Outcome: TestOutcome.NotJudged }), "/tests"),
            new("not-passed", "Houses that did not pass", Items(rows, t => t is { EndedAtUtc: not null, Outcome: TestOutcome.NotPassed }), "/houses?stage=NotPassed"),
            new("letters", "Result letters to send", Items(rows, t => t is { EndedAtUtc: not null, Outcome: TestOutcome.BelowTarget or TestOutcome.BelowActionLevel }), "/tests"),
        ];
    }

    private List<TodayItem> Items(IEnumerable<TestRow> rows, Func<TestRow, bool> which) => [.. rows.Where(which).Select(t =>
    {
        var (why, late) = Words(t);
        return new TodayItem($"/houses/{t.HouseId}/proof", t.Street, why, late);
    })];

    private (string Why, bool Late) Words(TestRow t)
    {
        var days = at.Today.DayNumber - at.Day(t.StartedAtUtc).DayNumber;
        if (t.EndedAtUtc is not { } ended)
        {
            var most = t.LongTerm ? LongTermDays : ShortTermDays;
            return ($"out since {at.Ago(at.Day(t.StartedAtUtc))}{(days > most ? $", longer than {most} days: fetch them" : "")}", days > most);
        }

        return t.Outcome switch
        {
            TestOutcome.NotJudged => ($"ended {at.Ago(at.Day(ended))}, no verdict yet", at.Today.DayNumber - at.Day(ended).DayNumber > 14),
            TestOutcome.NotPassed => ($"{Level(t)}not below the action level: look for the cause, put it right and test again", true),
            _ => ($"{Level(t)}the house owner has no letter yet", false),
        };
    }

    private static string Level(TestRow t) => t.DecidingPCiL is { } level ? Houses.RadonReading.Show(level, UnitSystem.US) + ", " : "";

    private sealed record TestRow(int HouseId, DateTime StartedAtUtc, DateTime? EndedAtUtc, TestOutcome Outcome, decimal? DecidingPCiL, bool LongTerm, string Street);
}
