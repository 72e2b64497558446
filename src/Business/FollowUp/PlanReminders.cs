using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.FollowUp;

public sealed record PlanRound(int Planned, int Replaced, int Moved);

/// <summary>Makes the plan of reminders agree with the facts: each occasion once, those that no longer hold replaced with the reason;
/// what was sent, printed, done or dropped by a person stays. A plan is made from facts that are audited themselves, so its own rows
/// are not.</summary>
public static class PlanReminders
{
    private const string NoLonger = "The facts or the rule changed, or its season is over.";

    /// <summary>A reminder as far as the plan looks at it.</summary>
    private sealed record Known(int Id, string Key, ReminderState State, DateOnly DueOn, DateOnly SendOn, string Because)
    {
        public string Series => string.Join(':', Key.Split(':')[..^2]);

        public bool Open => State is ReminderState.Planned or ReminderState.Replaced;
    }

    /// <summary>For every house, and for the office's own days as far as Shop knows them; what hangs on other days stays as it is.</summary>
    public static Task<PlanRound> RunAsync(OfficeDb db, DateTime nowUtc, CancellationToken cancel = default) => RunAsync(db, nowUtc, null, [new ShopDays()], cancel);

    /// <summary>For every house and for the office.</summary>
    /// <param name="elsewhere">Days of the office that belong to subjects which use follow-up themselves.</param>
    public static Task<PlanRound> RunAsync(OfficeDb db, DateTime nowUtc, IEnumerable<IOfficeDays> elsewhere, CancellationToken cancel = default) =>
        RunAsync(db, nowUtc, null, [new ShopDays(), .. elsewhere], cancel);

    /// <summary>For one house, right after its facts changed.</summary>
    public static Task<PlanRound> RunAsync(OfficeDb db, DateTime nowUtc, int? houseId, CancellationToken cancel) =>
        RunAsync(db, nowUtc, houseId, houseId is null ? [new ShopDays()] : [], cancel);

    private static Task<PlanRound> RunAsync(OfficeDb db, DateTime nowUtc, int? houseId, IOfficeDays[] days, CancellationToken cancel) => db.WriteAsync(async () =>
    {
        // Two planners on a server database take turns; an embedded one has the write gate.
        if (db.Database.ProviderName?.Contains("Npgsql", StringComparison.Ordinal) == true)
            await db.Database.ExecuteSqlRawAsync("SELECT pg_advisory_xact_lock(7302)", cancel);
        await db.SaveChangesAsync(cancel);
        var company = await db.Company.AsNoTracking().SingleAsync(cancel);
        var all = await db.ReminderRules.AsNoTracking().OrderBy(r => r.Id).ToListAsync(cancel);
        var rules = all.FindAll(r => !r.Off);
        var wanted = await WantedAsync(db, rules, company, nowUtc, houseId, days, cancel);
        var notAsked = all.Where(r => r.Channel == ReminderChannel.Office && !days.Any(d => d.Anchors.Contains(r.Anchor))).Select(r => r.Code).ToList();
        var known = await KnownAsync(db, rules, notAsked, company, nowUtc, houseId, cancel);
        var audited = db.Audited;
        try
        {
            db.Audited = false;
            return await AgreeAsync(db, wanted, known, cancel);
        }
        finally
        {
            db.Audited = audited;
        }
    }, cancel);

    private static async Task<Dictionary<string, Occasion>> WantedAsync(
        OfficeDb db, List<ReminderRule> rules, CompanyProfile company, DateTime nowUtc, int? houseId, IOfficeDays[] days, CancellationToken cancel)
    {
        var houses = await ReadHouseFacts.RunAsync(db, company.TimeZone, houseId, cancel);
        var wanted = houses.SelectMany(h => Occasions.Of(h, rules, company, HouseTime.DayOf(nowUtc, h.Zone)));
        var today = HouseTime.DayOf(nowUtc, HouseTime.Zone(company.TimeZone));
        foreach (var source in days)
        {
            var read = await source.ReadAsync(db, today, cancel);
            wanted = wanted.Concat(rules.SelectMany(rule => read.Where(d => d.Anchor == rule.Anchor).SelectMany(d => d.Occasions(rule, today))));
        }

        return wanted.ToDictionary(o => o.Key, StringComparer.Ordinal);
    }

    /// <summary>What comes back is looked for as far back as two of its intervals, what comes once however old it is.</summary>
    private static async Task<List<Known>> KnownAsync(
        OfficeDb db, List<ReminderRule> rules, List<string> notAsked, CompanyProfile company, DateTime nowUtc, int? houseId, CancellationToken cancel)
    {
        var longest = rules.Max(r => (int?)Math.Max(r.EveryMonths ?? 0, ReminderDays.Models(r.ByModel).Values.DefaultIfEmpty(0).Max())) ?? 0;
        var since = DateOnly.FromDateTime(nowUtc).AddMonths(-2 * Math.Max(Math.Max(longest, 12), Math.Max(company.RetestMonths, company.AlarmBatteryMonths)) - 12);
        var once = rules.Where(r => r.Anchor is not (ReminderAnchor.LastValidTest or ReminderAnchor.BatteryFitted or ReminderAnchor.BeforeWinter or ReminderAnchor.FreezeSeason)).Select(r => r.Code).ToList();
        return await db.Reminders.AsNoTracking().Where(r => houseId == null || r.HouseId == houseId)
            .Where(r => r.State == ReminderState.Planned || r.DueOn >= since || once.Contains(r.RuleCode))
            .Where(r => !notAsked.Contains(r.RuleCode))
            .Select(r => new Known(r.Id, r.Key, r.State, r.DueOn, r.SendOn, r.Because)).ToListAsync(cancel);
    }

    private static async Task<PlanRound> AgreeAsync(OfficeDb db, Dictionary<string, Occasion> wanted, List<Known> known, CancellationToken cancel)
    {
        var said = known.Where(r => !r.Open).ToLookup(r => r.Series, StringComparer.Ordinal);
        bool IsWanted(Known r) => wanted.TryGetValue(r.Key, out var occasion) && !Said(said, occasion);
        var open = known.Where(r => r.Open).ToList();
        var gone = open.Where(r => r.State == ReminderState.Planned && !IsWanted(r)).Select(r => r.Id).ToList();
        var moved = open.Where(IsWanted).Where(r => r.State == ReminderState.Replaced || r.SendOn != wanted[r.Key].SendOn || r.Because != wanted[r.Key].Because).ToList();
        var keys = known.Select(r => r.Key).ToHashSet(StringComparer.Ordinal);
        var fresh = wanted.Where(o => !keys.Contains(o.Key) && !Said(said, o.Value)).Select(o => o.Value).ToList();
        foreach (var ids in gone.Chunk(500))
            await db.Reminders.Where(r => ids.Contains(r.Id)).ExecuteUpdateAsync(
                s => s.SetProperty(r => r.State, ReminderState.Replaced).SetProperty(r => r.Note, NoLonger).SetProperty(r => r.Version, r => r.Version + 1), cancel);
        foreach (var some in moved.Chunk(500)) await MoveAsync(db, wanted, some, cancel);
        await InsertReminders.RunAsync(db, fresh, cancel);
        return new PlanRound(fresh.Count, gone.Count, moved.Count);
    }

    private static bool Said(ILookup<string, Known> said, Occasion occasion) =>
        said[occasion.Series].Any(r => Math.Abs(r.DueOn.DayNumber - occasion.DueOn.DayNumber) <= occasion.NearDays);

    private static async Task MoveAsync(OfficeDb db, Dictionary<string, Occasion> wanted, Known[] some, CancellationToken cancel)
    {
        var ids = some.Select(r => r.Id).ToList();
        foreach (var reminder in await db.Reminders.Where(r => ids.Contains(r.Id)).ToListAsync(cancel))
        {
            var occasion = wanted[reminder.Key];
            if (reminder.State == ReminderState.Replaced) reminder.Note = "";
            (reminder.State, reminder.SendOn, reminder.Because) = (ReminderState.Planned, occasion.SendOn, occasion.Because);
        }

        await db.SaveChangesAsync(cancel);
    }
}
