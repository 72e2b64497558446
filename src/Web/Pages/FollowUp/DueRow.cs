using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>A reminder whose day has come, and how it reaches its reader.</summary>
public sealed record DueRow(
    int Id, int HouseId, string House, string Name, string Phone, string PostalAddress, string Rule, DateOnly DueOn, string Because, string ByHandBecause)
{
    public bool ByHand => ByHandBecause.Length > 0;

    /// <summary>Three statements, however many are due.</summary>
    public static async Task<List<DueRow>> ReadAsync(OfficeDb db, CompanyProfile company, IReadOnlyDictionary<string, ReminderRule> rules, DateOnly today)
    {
        var due = db.Reminders.AsNoTracking().Where(r =>
            (r.State == ReminderState.Planned && r.SendOn <= today)
            || (r.State == ReminderState.Queued && db.Outbox.Any(m => m.Id == r.OutboxMessageId && (m.State == DeliveryState.Refused || m.State == DeliveryState.Suppressed))));
        var reminders = await due.OrderBy(r => r.DueOn).ThenBy(r => r.Id).ToListAsync();
        var readers = await ReminderLetter.ReadersAsync(db, db.Houses.Where(h => due.Any(r => r.HouseId == h.Id)));
        var addresses = readers.Values.Select(r => MailAddress.KeyOf(r.Email)).Where(a => a.Length > 0).Distinct().ToList();
        var stopped = (await db.Suppressions.AsNoTracking().Where(s => addresses.Contains(s.Address)).ToListAsync()).ToLookup(s => s.Address, StringComparer.Ordinal);
        return [.. reminders.Where(r => rules.ContainsKey(r.RuleCode) && readers.ContainsKey(r.HouseId)).Select(r =>
        {
            var (rule, reader) = (rules[r.RuleCode], readers[r.HouseId]);
            return new DueRow(r.Id, r.HouseId, reader.House, reader.Name, reader.Phone, reader.PostalAddress, rule.Name, r.DueOn, r.Because, Why(r, rule, reader));
        })];

        string Why(Reminder reminder, ReminderRule rule, ReminderLetter.Reader reader)
        {
            var letter = ReminderLetter.Of(reminder, rule, reader, company);
            if (letter.Letter is null) return letter.WhyNot;
            if (stopped[MailAddress.KeyOf(reader.Email)].FirstOrDefault(s => s.Class is null || s.Class == letter.Letter.Class) is { } stop) return stop.Why;
            return reminder.State == ReminderState.Queued ? "the mail was not taken" : "";
        }
    }
}
