using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.FollowUp;

/// <summary>Puts what is due into the outbox: every reminder whose day to send has come, however long ago, between nine and five
/// where the house stands. Reminder and message change in one transaction.</summary>
public sealed class QueueDueReminders(OfficeDb db, MailSettings mail, ClockWatch watch, TimeProvider clock)
{
    public static readonly TimeOnly From = new(9, 0);
    public static readonly TimeOnly Until = new(17, 0);

    /// <summary>What is due at one house on one day goes in one message, upkeep and offers apart.</summary>
    /// <returns>How many reminders went into the outbox.</returns>
    public async Task<int> RunAsync(CancellationToken cancel = default)
    {
        if ((await watch.TickAsync(db, cancel)).Length > 0) return 0;
        var now = clock.GetUtcNow().UtcDateTime;
        var company = await db.Company.AsNoTracking().SingleAsync(cancel);
        var rules = await db.ReminderRules.AsNoTracking().Where(r => !r.Off).ToDictionaryAsync(r => r.Code, StringComparer.Ordinal, cancel);
        var soonest = DateOnly.FromDateTime(now).AddDays(1);
        var due = await db.Reminders.AsNoTracking().Where(r => r.State == ReminderState.Planned && r.SendOn <= soonest).OrderBy(r => r.SendOn).ThenBy(r => r.Id)
            .Select(r => new { r.Id, HouseId = r.HouseId ?? 0, r.RuleCode, r.SendOn }).ToListAsync(cancel);
        if (due.Count == 0) return 0;
        var readers = await ReminderLetter.ReadersAsync(db, due.Select(r => (int?)r.HouseId).Where(id => id > 0), company, cancel);
        var told = due.Where(r => readers.TryGetValue(r.HouseId, out var reader) && rules.ContainsKey(r.RuleCode) && IsTime(r.SendOn, now, HouseTime.Zone(reader.TimeZone, company.TimeZone)));
        var queued = 0;
        foreach (var together in told.GroupBy(r => (r.HouseId, Class: ReminderLetter.ClassOf(rules[r.RuleCode]))))
            queued += await QueueAsync([.. together.Select(r => r.Id)], rules, readers[together.Key.HouseId], company, now, cancel);
        return queued;
    }

    /// <summary>The day has come where the house stands, and it is a time at which one may write to people.</summary>
    public static bool IsTime(DateOnly sendOn, DateTime nowUtc, TimeZoneInfo zone)
    {
        var local = TimeZoneInfo.ConvertTimeFromUtc(DateTime.SpecifyKind(nowUtc, DateTimeKind.Utc), zone);
        var time = TimeOnly.FromDateTime(local);
        return sendOn <= DateOnly.FromDateTime(local) && time >= From && time < Until;
    }

    /// <returns>How many of these went into one message.</returns>
    private async Task<int> QueueAsync(List<int> ids, Dictionary<string, ReminderRule> rules, ReminderLetter.Reader reader, CompanyProfile company, DateTime now, CancellationToken cancel)
    {
        db.ChangeTracker.Clear();
        try
        {
            return await db.WriteAsync(() => WriteAsync(ids, rules, reader, company, now, cancel), cancel);
        }
        catch (DbUpdateException)
        {
            // Another instance queued one of them in this instant; its message is the one. What was meant to be written must not be
            // left for the next save in this round.
            db.ChangeTracker.Clear();
            return 0;
        }
    }

    private async Task<int> WriteAsync(List<int> ids, Dictionary<string, ReminderRule> rules, ReminderLetter.Reader reader, CompanyProfile company, DateTime now, CancellationToken cancel)
    {
        var reminders = await db.Reminders.Where(r => ids.Contains(r.Id) && r.State == ReminderState.Planned).OrderBy(r => r.DueOn).ThenBy(r => r.Id).ToListAsync(cancel);
        var said = reminders.Select(r => new RuledReminder(r, rules[r.RuleCode])).Where(s => ReminderLetter.Of(s.Reminder, s.Rule, reader, company).Letter is not null).ToList();
        if (said.Count == 0) return 0;
        var letter = ReminderLetter.Of(said, reader, company);
        var address = MailAddress.KeyOf(letter.ToAddress);
        if (await db.Suppressions.AnyAsync(s => s.Address == address && (s.Class == null || s.Class == letter.Class), cancel)) return 0;
        var from = Letterhead.Of(company, mail);
        var message = await QueueMail.AddAsync(db, from, now, WithLink(db, letter, reader, from, now), cancel);
        await db.SaveChangesAsync(cancel);
        foreach (var one in said) (one.Reminder.State, one.Reminder.OutboxMessageId) = (ReminderState.Queued, message.Id);
        await db.SaveChangesAsync(cancel);
        return said.Count;
    }

    /// <summary>With the way to the owner's own page, or to the office's page, below its words.</summary>
    internal static Letter WithLink(OfficeDb db, Letter letter, ReminderLetter.Reader reader, MailIdentity from, DateTime nowUtc) => letter.HouseId is { } house
        ? OwnerPage.WithLink(letter, OwnerPage.AddLink(db, from, house, reader.CustomerId, nowUtc))
        : letter with { Text = $"{letter.Text.TrimEnd()}\n\n{from.Link("follow-up")}" };
}
