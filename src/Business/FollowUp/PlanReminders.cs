using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

public sealed record PlanRound(int Planned, int Replaced, int Moved);

/// <summary>Makes the plan of reminders agree with the facts: each occasion once, those that no longer hold replaced with the reason;
/// what was sent, done or dropped by a person stays.</summary>
public static class PlanReminders
{
    private const string NoLonger = "The facts or the rule changed.";

    public static Task<PlanRound> RunAsync(OfficeDb db, DateTime nowUtc, CancellationToken cancel = default) => RunAsync(db, nowUtc, null, cancel);

    /// <summary>For one house, right after its facts changed.</summary>
    public static Task<PlanRound> RunAsync(OfficeDb db, DateTime nowUtc, int? houseId, CancellationToken cancel) => db.WriteAsync(async () =>
    {
        // Two planners on a server database take turns; an embedded one has the write gate.
        if (db.Database.ProviderName?.Contains("Npgsql", StringComparison.Ordinal) == true)
            await db.Database.ExecuteSqlRawAsync("SELECT pg_advisory_xact_lock(7302)", cancel);
        var company = await db.Company.AsNoTracking().SingleAsync(cancel);
        var rules = await db.ReminderRules.AsNoTracking().Where(r => !r.Off).ToDictionaryAsync(r => r.Code, StringComparer.Ordinal, cancel);
        var houses = await HouseFacts.ReadAsync(db, company.TimeZone, houseId, cancel);
        var wanted = houses.SelectMany(h => Occasions.Of(h, rules, company, HouseTime.DayOf(nowUtc, h.Zone))).ToDictionary(o => o.Key, StringComparer.Ordinal);
        var known = await db.Reminders.Where(r => houseId == null || r.HouseId == houseId).ToListAsync(cancel);
        var round = Agree(db, wanted, known);
        await db.SaveChangesAsync(cancel);
        return round;
    }, cancel);

    private static PlanRound Agree(OfficeDb db, Dictionary<string, Occasion> wanted, List<Reminder> known)
    {
        var said = known.Where(r => r.State is ReminderState.Queued or ReminderState.Sent or ReminderState.Dropped or ReminderState.DoneByHand)
            .ToLookup(SeriesOf, StringComparer.Ordinal);
        var (replaced, moved) = (0, 0);
        foreach (var reminder in known.Where(r => r.State is ReminderState.Planned or ReminderState.Replaced))
        {
            if (wanted.TryGetValue(reminder.Key, out var occasion) && !Said(said, occasion)) moved += Keep(reminder, occasion);
            else replaced += Replace(reminder);
        }

        var keys = known.Select(r => r.Key).ToHashSet(StringComparer.Ordinal);
        var fresh = wanted.Values.Where(o => !keys.Contains(o.Key) && !Said(said, o)).Select(New).ToList();
        db.Reminders.AddRange(fresh);
        return new PlanRound(fresh.Count, replaced, moved);
    }

    private static string SeriesOf(Reminder reminder) => string.Join(':', reminder.Key.Split(':')[..^2]);

    private static bool Said(ILookup<string, Reminder> said, Occasion occasion) =>
        said[occasion.Series].Any(r => Math.Abs(r.DueOn.DayNumber - occasion.DueOn.DayNumber) <= occasion.NearDays);

    private static int Keep(Reminder reminder, Occasion occasion)
    {
        var same = reminder.State == ReminderState.Planned && reminder.SendOn == occasion.SendOn && reminder.Because == occasion.Because;
        if (reminder.State == ReminderState.Replaced) reminder.Note = "";
        (reminder.State, reminder.SendOn, reminder.Because) = (ReminderState.Planned, occasion.SendOn, occasion.Because);
        return same ? 0 : 1;
    }

    private static int Replace(Reminder reminder)
    {
        if (reminder.State == ReminderState.Replaced) return 0;
        (reminder.State, reminder.Note) = (ReminderState.Replaced, NoLonger);
        return 1;
    }

    private static Reminder New(Occasion occasion) => new()
    {
        HouseId = occasion.HouseId,
        InstalledSystemId = occasion.SystemId,
        RuleCode = occasion.RuleCode,
        Key = occasion.Key,
        Because = occasion.Because,
        DueOn = occasion.DueOn,
        SendOn = occasion.SendOn,
    };
}
