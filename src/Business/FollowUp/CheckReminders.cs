using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.FollowUp;

/// <summary>Holds the reminders in a message against their facts when it is about to leave. One that no longer holds is taken back with
/// the reason; one that holds but may not be mailed any more goes back to the plan; if none is left the message is not sent. What is
/// left goes as it was written, or is written anew where its words, its reader or the owner of the house changed.</summary>
public sealed class CheckReminders(MailSettings mail, IEnumerable<IOfficeDays> elsewhere) : IClaimCheck
{
    /// <param name="TakenBack">Why it no longer holds; null: it does.</param>
    /// <param name="ByHand">It holds, and is not for this message any more.</param>
    private sealed record Looked(Reminder Reminder, ReminderRule? Rule, string? TakenBack, bool ByHand)
    {
        public bool Stays => TakenBack is null && !ByHand;
    }

    public async Task<ClaimVerdict> LookAsync(OfficeDb db, OutboxMessage message, DateTime nowUtc, CancellationToken cancel)
    {
        var (id, house) = (message.Id, message.HouseId);
        var carried = await db.Reminders.AsNoTracking().Where(r => r.HouseId == house && r.OutboxMessageId == id && r.State == ReminderState.Queued)
            .OrderBy(r => r.DueOn).ThenBy(r => r.Id).ToListAsync(cancel);
        if (carried.Count == 0) return ClaimVerdict.Go;
        var company = await db.Company.AsNoTracking().SingleAsync(cancel);
        var rules = await db.ReminderRules.AsNoTracking().ToListAsync(cancel);
        var readers = await ReminderLetter.ReadersAsync(db, [house], company, cancel);
        if (!readers.TryGetValue(house ?? 0, out var reader)) return ClaimVerdict.Go;
        var looked = await LookAsync(db, message, carried, rules, reader, company, nowUtc, cancel);
        var said = looked.Where(l => l.Stays).Select(l => new RuledReminder(l.Reminder, l.Rule!)).ToList();
        var owner = house is null || await IsOwnersAsync(db, message, reader.CustomerId, cancel);
        var letter = said.Count == 0 ? null : ReminderLetter.Of(said, reader, company);
        var sameReader = letter is not null && owner && MailAddress.KeyOf(letter.ToAddress) == message.ToAddress;
        if (message.MayHaveLeft) return said.Count == carried.Count && sameReader ? ClaimVerdict.Go : ClaimVerdict.Withdraw(Why(looked) ?? "it is for another reader now.");
        await SettleAsync(db, looked, cancel);
        if (letter is null) return ClaimVerdict.Withdraw(Why(looked) ?? "it cannot go by e-mail any more.");
        if (sameReader && MailAddress.OneLine(letter.ToName) == message.ToName && MailAddress.OneLine(letter.Subject) == message.Subject && RenderMail.Says(message.Mime, letter.Text)) return ClaimVerdict.Go;
        return Anew(db, message, letter, reader, company);
    }

    private async Task<List<Looked>> LookAsync(
        OfficeDb db, OutboxMessage message, List<Reminder> carried, List<ReminderRule> rules, ReminderLetter.Reader reader, CompanyProfile company, DateTime nowUtc, CancellationToken cancel)
    {
        var sources = OfficeOccasions.Sources(elsewhere);
        var notAsked = OfficeOccasions.NotAsked(rules, sources);
        var wanted = message.HouseId is { } house
            ? await OfHouseAsync(db, house, rules, company, nowUtc, cancel)
            : await OfficeOccasions.ReadAsync(db, company, rules, nowUtc, sources, cancel);
        var address = MailAddress.KeyOf(reader.Email);
        var stopped = address != message.ToAddress && await db.Suppressions.AnyAsync(s => s.Address == address && (s.Class == null || s.Class == message.Class), cancel);
        return carried.ConvertAll(r => Look(r));

        Looked Look(Reminder reminder)
        {
            var rule = rules.Find(r => r.Code == reminder.RuleCode);
            if (rule is null or { Off: true }) return new(reminder, rule, "its rule is switched off.", false);
            var occasion = wanted.Find(o => o.Key == reminder.Key);
            if (occasion is null && !notAsked.Contains(rule.Code)) return new(reminder, rule, Instead(wanted, reminder), false);
            if (occasion is not null) reminder.Because = occasion.Because;
            return new(reminder, rule, null, stopped || ReminderLetter.ClassOf(rule) != message.Class || ReminderLetter.Of(reminder, rule, reader, company).Letter is null);
        }
    }

    private static async Task<List<Occasion>> OfHouseAsync(OfficeDb db, int house, List<ReminderRule> rules, CompanyProfile company, DateTime nowUtc, CancellationToken cancel)
    {
        var facts = await ReadHouseFacts.RunAsync(db, company.TimeZone, HouseRange.Only(house), cancel);
        return [.. facts.SelectMany(h => Occasions.Of(h, rules.Where(r => !r.Off), company, HouseTime.DayOf(nowUtc, h.Zone)))];
    }

    /// <summary>The fact that stands in its place, where there is one.</summary>
    private static string Instead(List<Occasion> wanted, Reminder reminder) =>
        wanted.Where(o => reminder.Key.Length == o.Series.Length + Occasion.DaysInKey && reminder.Key.StartsWith(o.Series, StringComparison.Ordinal)).MinBy(o => o.DueOn) is { } now
            ? $"{now.Because} It is due on {HouseTime.Show(now.DueOn)} now."
            : "what it hangs on no longer holds.";

    private static string? Why(List<Looked> looked) => looked.Find(l => l.TakenBack is not null)?.TakenBack;

    /// <summary>The link to the owner's own page in it was made for them, in the instant it was written.</summary>
    private static Task<bool> IsOwnersAsync(OfficeDb db, OutboxMessage message, int customerId, CancellationToken cancel)
    {
        var (house, at) = (message.HouseId, message.CreatedAtUtc);
        return db.OwnerLinks.AnyAsync(l => l.HouseId == house && l.CustomerId == customerId && l.CreatedAtUtc == at, cancel);
    }

    private static async Task SettleAsync(OfficeDb db, List<Looked> looked, CancellationToken cancel)
    {
        foreach (var one in looked)
        {
            var (id, because) = (one.Reminder.Id, one.Reminder.Because);
            var queued = db.Reminders.Where(r => r.Id == id && r.State == ReminderState.Queued);
            var note = one.TakenBack is { } why ? $"Taken back before it was sent: {why}" : "";
            if (one.Stays)
                await queued.Where(r => r.Because != because).ExecuteUpdateAsync(s => s.SetProperty(r => r.Because, because).SetProperty(r => r.Version, r => r.Version + 1), cancel);
            else
                await queued.ExecuteUpdateAsync(
                    s => s.SetProperty(r => r.State, one.ByHand ? ReminderState.Planned : ReminderState.Replaced).SetProperty(r => r.OutboxMessageId, (int?)null)
                        .SetProperty(r => r.Note, note).SetProperty(r => r.Version, r => r.Version + 1), cancel);
        }
    }

    private ClaimVerdict Anew(OfficeDb db, OutboxMessage message, Letter letter, ReminderLetter.Reader reader, CompanyProfile company)
    {
        var from = Letterhead.Of(company, mail);
        return ClaimVerdict.GoAnew(QueueDueReminders.WithLink(db, letter, reader, from, message.CreatedAtUtc), from);
    }
}
