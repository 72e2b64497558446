using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.FollowUp;

public sealed record PlanRound(int Planned, int Replaced, int Moved)
{
    public static PlanRound operator +(PlanRound a, PlanRound b) => new(a.Planned + b.Planned, a.Replaced + b.Replaced, a.Moved + b.Moved);
}

/// <summary>Makes the plan of reminders agree with the facts: each occasion once, those that no longer hold replaced with the reason;
/// what was sent, printed, done or dropped by a person stays. A plan is made from facts that are audited themselves, so its own rows
/// are not. All houses take O(n log n) for n reminders (each is looked for in the indexes of the table) and the memory of
/// <see cref="HousesAtOnce"/> houses; each such part is a transaction of its own, so that others may write in between.</summary>
public static class PlanReminders
{
    public const int HousesAtOnce = 5000;

    /// <summary>So many are worked out while those before them are written.</summary>
    private const int HousesInHand = 200;

    private const string NoLonger = "The facts or the rule changed, or its season is over.";

    /// <summary>For every house, and for the office's own days as far as Shop knows them; what hangs on other days stays as it is.</summary>
    public static Task<PlanRound> RunAsync(OfficeDb db, DateTime nowUtc, CancellationToken cancel = default) => RunAsync(db, nowUtc, [], cancel);

    /// <summary>For every house and for the office.</summary>
    /// <param name="elsewhere">Days of the office that belong to subjects which use follow-up themselves.</param>
    public static async Task<PlanRound> RunAsync(OfficeDb db, DateTime nowUtc, IEnumerable<IOfficeDays> elsewhere, CancellationToken cancel = default)
    {
        var round = await WriteAsync(db, (company, rules) => OfficeAsync(db, company, rules, nowUtc, OfficeOccasions.Sources(elsewhere), cancel), cancel);
        var ids = await db.Systems.AsNoTracking().Where(s => s.LeftRunning).Select(s => s.HouseId).Distinct().Order().ToListAsync(cancel);
        foreach (var range in HouseRange.Over(ids, HousesAtOnce))
            round += await WriteAsync(db, (company, rules) => HousesAsync(db, company, rules, nowUtc, range, cancel), cancel);
        return round;
    }

    /// <summary>For one house, right after its facts changed; for every one and the office where none is named.</summary>
    public static Task<PlanRound> RunAsync(OfficeDb db, DateTime nowUtc, int? houseId, CancellationToken cancel) => houseId is { } one
        ? WriteAsync(db, (company, rules) => HousesAsync(db, company, rules, nowUtc, HouseRange.Only(one), cancel), cancel)
        : RunAsync(db, nowUtc, cancel);

    private static Task<PlanRound> WriteAsync(OfficeDb db, Func<CompanyProfile, List<ReminderRule>, Task<PlanRound>> plan, CancellationToken cancel) => db.WriteAsync(async () =>
    {
        await db.TakeTurnAsync(Turn.Plan, cancel);
        await db.SaveChangesAsync(cancel);
        var company = await db.Company.AsNoTracking().SingleAsync(cancel);
        var rules = await db.ReminderRules.AsNoTracking().OrderBy(r => r.Id).ToListAsync(cancel);
        var audited = db.Audited;
        try
        {
            db.Audited = false;
            return await plan(company, rules);
        }
        finally
        {
            db.Audited = audited;
        }
    }, cancel);

    private static async Task<PlanRound> OfficeAsync(OfficeDb db, CompanyProfile company, List<ReminderRule> rules, DateTime nowUtc, IOfficeDays[] sources, CancellationToken cancel)
    {
        var wanted = await OfficeOccasions.ReadAsync(db, company, rules, nowUtc, sources, cancel);
        var notAsked = OfficeOccasions.NotAsked(rules, sources);
        var known = await Known(db.Reminders.Where(r => r.HouseId == null && !notAsked.Contains(r.RuleCode)), rules, company, nowUtc).ToListAsync(cancel);
        var difference = new PlanDifference();
        ComparePlan.Of(wanted, known, difference);
        return await AgreeAsync(db, difference, cancel);
    }

    /// <summary>While the differences of some houses are written, those of the next are worked out beside it.</summary>
    private static async Task<PlanRound> HousesAsync(OfficeDb db, CompanyProfile company, List<ReminderRule> rules, DateTime nowUtc, HouseRange range, CancellationToken cancel)
    {
        var houses = await ReadHouseFacts.RunAsync(db, company.TimeZone, range, cancel);
        var (from, to) = (range.From, range.To);
        var known = (await Known(db.Reminders.Where(r => r.HouseId >= from && r.HouseId <= to), rules, company, nowUtc).ToListAsync(cancel)).ToLookup(r => r.HouseId!.Value);
        var running = houses.Select(h => h.HouseId).ToHashSet();
        var stopped = new PlanDifference();
        foreach (var house in known.Where(h => !running.Contains(h.Key))) ComparePlan.Of([], [.. house], stopped);
        var round = await AgreeAsync(db, stopped, cancel);
        var asked = rules.FindAll(r => !r.Off);
        var next = CompareAsync([]);
        foreach (var some in houses.Chunk(HousesInHand).Append([]))
        {
            var ready = await next;
            next = CompareAsync(some);
            round += await AgreeAsync(db, ready, cancel);
        }

        return round;

        Task<PlanDifference> CompareAsync(HouseFacts[] some) => Task.Run(
            () =>
            {
                var difference = new PlanDifference();
                foreach (var house in some)
                    ComparePlan.Of(Occasions.Of(house, asked, company, HouseTime.DayOf(nowUtc, house.Zone)), [.. known[house.HouseId]], difference);
                return difference;
            }, cancel);
    }

    /// <summary>What comes back is looked for as far back as two of its intervals, what comes once however old it is.</summary>
    private static IQueryable<KnownReminder> Known(IQueryable<Reminder> reminders, List<ReminderRule> rules, CompanyProfile company, DateTime nowUtc)
    {
        var longest = rules.Where(r => !r.Off).Max(r => (int?)Math.Max(r.EveryMonths ?? 0, ReminderDays.Models(r.ByModel).Values.DefaultIfEmpty(0).Max())) ?? 0;
        var since = DateOnly.FromDateTime(nowUtc).AddMonths(-2 * Math.Max(Math.Max(longest, 12), Math.Max(company.RetestMonths, company.AlarmBatteryMonths)) - 12);
        var once = rules.Where(r => !r.Off && r.Anchor is not (ReminderAnchor.LastValidTest or ReminderAnchor.BatteryFitted or ReminderAnchor.BeforeWinter or ReminderAnchor.FreezeSeason)).Select(r => r.Code).ToList();
        return reminders.AsNoTracking().Where(r => r.State == ReminderState.Planned || r.DueOn >= since || once.Contains(r.RuleCode))
            .Select(r => new KnownReminder(r.Id, r.HouseId, r.Key, r.State, r.DueOn, r.SendOn, r.Because));
    }

    private static async Task<PlanRound> AgreeAsync(OfficeDb db, PlanDifference difference, CancellationToken cancel)
    {
        foreach (var ids in difference.Gone.Chunk(500))
            await db.Reminders.Where(r => ids.Contains(r.Id)).ExecuteUpdateAsync(
                s => s.SetProperty(r => r.State, ReminderState.Replaced).SetProperty(r => r.Note, NoLonger).SetProperty(r => r.Version, r => r.Version + 1), cancel);
        foreach (var some in difference.Moved.Chunk(500)) await MoveAsync(db, some.ToDictionary(m => m.Id, m => m.Occasion), cancel);
        await InsertReminders.RunAsync(db, difference.Fresh, cancel);
        return new PlanRound(difference.Fresh.Count, difference.Gone.Count, difference.Moved.Count);
    }

    private static async Task MoveAsync(OfficeDb db, Dictionary<int, Occasion> moved, CancellationToken cancel)
    {
        var ids = moved.Keys.ToList();
        var reminders = await db.Reminders.Where(r => ids.Contains(r.Id)).ToListAsync(cancel);
        foreach (var reminder in reminders)
        {
            var occasion = moved[reminder.Id];
            if (reminder.State == ReminderState.Replaced) (reminder.Note, reminder.OutboxMessageId) = ("", null);
            (reminder.State, reminder.SendOn, reminder.Because) = (ReminderState.Planned, occasion.SendOn, occasion.Because);
        }

        await db.SaveChangesAsync(cancel);
        foreach (var reminder in reminders) db.Entry(reminder).State = EntityState.Detached;
    }
}
