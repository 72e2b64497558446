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

    /// <returns>How many went into the outbox.</returns>
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
        var queued = 0;
        foreach (var reminder in due)
        {
            if (!readers.TryGetValue(reminder.HouseId, out var reader) || !rules.TryGetValue(reminder.RuleCode, out var rule)) continue;
            if (!IsTime(reminder.SendOn, now, HouseTime.Zone(reader.TimeZone, company.TimeZone))) continue;
            if (await QueueAsync(reminder.Id, rule, reader, company, now, cancel)) queued++;
        }

        return queued;
    }

    /// <summary>The day has come where the house stands, and it is a time at which one may write to people.</summary>
    public static bool IsTime(DateOnly sendOn, DateTime nowUtc, TimeZoneInfo zone)
    {
        var local = TimeZoneInfo.ConvertTimeFromUtc(DateTime.SpecifyKind(nowUtc, DateTimeKind.Utc), zone);
        var time = TimeOnly.FromDateTime(local);
        return sendOn <= DateOnly.FromDateTime(local) && time >= From && time < Until;
    }

    private async Task<bool> QueueAsync(int id, ReminderRule rule, ReminderLetter.Reader reader, CompanyProfile company, DateTime now, CancellationToken cancel)
    {
        db.ChangeTracker.Clear();
        try
        {
            return await db.WriteAsync(async () =>
            {
                var reminder = await db.Reminders.SingleAsync(r => r.Id == id, cancel);
                if (reminder.State != ReminderState.Planned || ReminderLetter.Of(reminder, rule, reader, company).Letter is not { } letter) return false;
                var address = MailAddress.KeyOf(letter.ToAddress);
                if (await db.Suppressions.AnyAsync(s => s.Address == address && (s.Class == null || s.Class == letter.Class), cancel)) return false;
                var from = Letterhead.Of(company, mail);
                if (reminder.HouseId is { } house) letter = OwnerPage.WithLink(letter, OwnerPage.AddLink(db, from, house, reader.CustomerId, now));
                var message = await QueueMail.AddAsync(db, from, now, letter, cancel);
                await db.SaveChangesAsync(cancel);
                (reminder.State, reminder.OutboxMessageId) = (ReminderState.Queued, message.Id);
                await db.SaveChangesAsync(cancel);
                return true;
            }, cancel);
        }
        catch (DbUpdateException)
        {
            // Another instance queued the same reminder in this instant; its message is the one. What was meant to be written must
            // not be left for the next save in this round.
            db.ChangeTracker.Clear();
            return false;
        }
    }
}
