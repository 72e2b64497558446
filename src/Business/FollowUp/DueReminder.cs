using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.FollowUp;

/// <summary>A reminder whose day has come, and how it reaches its reader.</summary>
/// <param name="ByHandBecause">Why it does not go by e-mail; empty: it does.</param>
/// <param name="AskedForNone">The reader opted out of this kind of message.</param>
/// <param name="MayPost">It may go by post all the same: nobody asked for no more offers.</param>
public sealed record DueReminder(
    int Id, int? HouseId, string House, string Name, string Phone, string PostalAddress, string Rule, DateOnly DueOn, string Because, string ByHandBecause, bool AskedForNone, bool MayPost)
{
    /// <summary>A page looks at so many, the oldest: a plan made for the first time, or a long time off, may have tens of thousands due.</summary>
    public const int OnAPage = 1000;

    public bool ByHand => ByHandBecause.Length > 0;

    /// <summary>What has come due and is neither sent, printed nor settled.</summary>
    public static IQueryable<Reminder> Open(OfficeDb db, DateOnly today) => db.Reminders.Where(r =>
        (r.State == ReminderState.Planned && r.SendOn <= today)
        || (r.State == ReminderState.Queued && db.Outbox.Any(m => m.Id == r.OutboxMessageId && (m.State == DeliveryState.Refused || m.State == DeliveryState.Suppressed))));

    /// <summary>Reads the list once when a program starts, so that nobody has to wait while its statements are made ready.</summary>
    public static async Task WarmUpAsync(OfficeDb db, DateTime nowUtc)
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        var rules = await db.ReminderRules.AsNoTracking().ToDictionaryAsync(r => r.Code, StringComparer.Ordinal);
        await ReadAsync(db, company, rules, HouseTime.DayOf(nowUtc, HouseTime.Zone(company.TimeZone)));
    }

    /// <summary>The oldest of what is due, and how many there are in all.</summary>
    public static async Task<(List<DueReminder> Oldest, int All)> ReadOldestAsync(OfficeDb db, CompanyProfile company, IReadOnlyDictionary<string, ReminderRule> rules, DateOnly today)
    {
        var all = await Open(db, today).CountAsync();
        return (await ReadAsync(db, company, rules, Oldest(Open(db, today))), all);
    }

    /// <summary>The oldest of what is due and does not go by e-mail, and how many are due in all. Where more are due than a page looks at,
    /// those are looked at that by the records will not go by e-mail, so that they do not wait behind thousands that do; one whose
    /// text cannot be written comes up among the others.</summary>
    public static async Task<(List<DueReminder> Oldest, int All)> ReadByHandAsync(OfficeDb db, CompanyProfile company, IReadOnlyDictionary<string, ReminderRule> rules, DateOnly today)
    {
        var all = await Open(db, today).CountAsync();
        var due = await ReadAsync(db, company, rules, all <= OnAPage ? Open(db, today) : Oldest(WithoutMail(db, Open(db, today), rules)));
        return (due.FindAll(d => d.ByHand), all);
    }

    private static IQueryable<Reminder> Oldest(IQueryable<Reminder> due) => due.OrderBy(r => r.DueOn).ThenBy(r => r.Id).Take(OnAPage);

    private static IQueryable<Reminder> WithoutMail(OfficeDb db, IQueryable<Reminder> due, IReadOnlyDictionary<string, ReminderRule> rules)
    {
        var spoken = rules.Values.Where(r => r.Channel is ReminderChannel.Letter or ReminderChannel.Phone).Select(r => r.Code).ToList();
#pragma warning disable CA1304, CA1311, CA1862 // Runs in the database, which has one invariant ToLower.
        return due.Where(r => r.State == ReminderState.Queued || spoken.Contains(r.RuleCode) || (r.HouseId != null && !db.HouseOwners.Any(o =>
            o.HouseId == r.HouseId && o.ToDay == null && o.Customer!.Email != "" && !db.Suppressions.Any(s => s.Address == o.Customer.Email.ToLower()))));
#pragma warning restore CA1304, CA1311, CA1862
    }

    /// <summary>All that is due. Three statements, and one more for every thousand houses.</summary>
    public static Task<List<DueReminder>> ReadAsync(OfficeDb db, CompanyProfile company, IReadOnlyDictionary<string, ReminderRule> rules, DateOnly today) =>
        ReadAsync(db, company, rules, Open(db, today));

    /// <summary>Of what is due, only this.</summary>
    public static Task<List<DueReminder>> ReadAsync(OfficeDb db, CompanyProfile company, IReadOnlyDictionary<string, ReminderRule> rules, DateOnly today, IReadOnlyCollection<int> ids) =>
        ReadAsync(db, company, rules, Open(db, today).Where(r => ids.Contains(r.Id)));

    private static async Task<List<DueReminder>> ReadAsync(OfficeDb db, CompanyProfile company, IReadOnlyDictionary<string, ReminderRule> rules, IQueryable<Reminder> due)
    {
        var reminders = await due.AsNoTracking().OrderBy(r => r.DueOn).ThenBy(r => r.Id).ToListAsync();
        var readers = await ReminderLetter.ReadersAsync(db, reminders.Select(r => r.HouseId), company);
        var addresses = readers.Values.Select(r => MailAddress.KeyOf(r.Email)).Where(a => a.Length > 0).Distinct().ToList();
        var stops = db.Suppressions.AsNoTracking();
        var stopped = (await (addresses.Count <= 500 ? stops.Where(s => addresses.Contains(s.Address)) : stops).ToListAsync()).ToLookup(s => s.Address, StringComparer.Ordinal);
        return [.. reminders.Where(r => rules.ContainsKey(r.RuleCode) && readers.ContainsKey(r.HouseId ?? 0)).Select(r =>
        {
            var (rule, reader) = (rules[r.RuleCode], readers[r.HouseId ?? 0]);
            var kind = ReminderLetter.ClassOf(rule);
            var own = stopped[MailAddress.KeyOf(reader.Email)].Where(s => s.Class is null || s.Class == kind).ToList();
            var asked = own.Exists(s => s.Class is not null);
            return new DueReminder(
                r.Id, r.HouseId, reader.House, reader.Name, reader.Phone, reader.PostalAddress, rule.Name, r.DueOn, r.Because, Why(r, rule, reader, own), asked,
                r.HouseId is not null && reader.PostalAddress.Length > 0 && rule.Channel != ReminderChannel.Phone && !(asked && kind == MailClass.Commercial));
        })];

        string Why(Reminder reminder, ReminderRule rule, ReminderLetter.Reader reader, List<Suppression> own)
        {
            var letter = ReminderLetter.Of(reminder, rule, reader, company);
            if (letter.Letter is null) return letter.WhyNot;
            if (own.Count > 0) return own[0].Why;
            return reminder.State == ReminderState.Queued ? "the mail was not taken or came back" : "";
        }
    }
}
