using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.FollowUp;

/// <summary>Reminds people of quotes they have not answered, by the owner's rules: each rule once a revision, between nine and five
/// where the house stands. Stops on an answer, a revision, the quote's last day, or when asked to. After a time off only the latest
/// rule that has come due is said.</summary>
public sealed class NudgeQuotes(OfficeDb db, MailSettings mail, TimeProvider clock)
{
    private sealed record Open(int RevisionId, int HouseId, DateTime SentAtUtc, string TimeZone, int? LastAfterDays);

    /// <returns>How many went into the outbox.</returns>
    public async Task<int> RunAsync(CancellationToken cancel = default)
    {
        await StopWaitingAsync(cancel);
        var rules = await db.NudgeRules.AsNoTracking().Where(r => !r.Off).OrderBy(r => r.AfterDays).ThenBy(r => r.Id).ToListAsync(cancel);
        if (rules.Count == 0) return 0;
        var now = clock.GetUtcNow().UtcDateTime;
        var company = await db.Company.AsNoTracking().SingleAsync(cancel);
        // A commercial message names the sender's postal address (15 USC 7704(a)(5)).
        if (company.Street.Length == 0) return 0;
        var queued = 0;
        foreach (var open in await OpenOnesAsync(rules[0].AfterDays, now, cancel))
        {
            var zone = HouseTime.Zone(open.TimeZone, company.TimeZone);
            var sentOn = HouseTime.DayOf(open.SentAtUtc, zone);
            var rule = rules.LastOrDefault(r => QueueDueReminders.IsTime(sentOn.AddDays(r.AfterDays), now, zone));
            if (rule is not null && !(open.LastAfterDays >= rule.AfterDays) && await QueueAsync(open.RevisionId, rule, company, now, cancel)) queued++;
        }

        return queued;
    }

    /// <summary>What waits in the outbox for a quote that was answered, revised or has run out meanwhile is not sent.</summary>
    public Task<int> StopWaitingAsync(CancellationToken cancel = default)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        return db.WriteAsync(() => db.Outbox
            .Where(m => m.State == DeliveryState.Waiting && CheckNudges.Over(db, now).Any(n => n.OutboxMessageId == m.Id))
            .ExecuteUpdateAsync(s => s
                .SetProperty(m => m.State, DeliveryState.Suppressed)
                .SetProperty(m => m.LastAnswer, $"Not sent: {CheckNudges.WhyOver}")
                .SetProperty(m => m.Version, m => m.Version + 1), cancel), cancel);
    }

    private Task<List<Open>> OpenOnesAsync(int soonest, DateTime now, CancellationToken cancel)
    {
        var latest = now.AddDays(1 - soonest);
        return (from r in db.QuoteRevisions.AsNoTracking()
                where r.State == RevisionState.Sent && r.SentAtUtc < latest && !r.Quote!.NoNudges && !db.QuoteRevisions.Any(later => later.QuoteId == r.QuoteId && later.Id > r.Id)
                    && db.QuoteLinks.Any(l => l.QuoteRevisionId == r.Id && l.RevokedAtUtc == null && l.ExpiresAtUtc > now)
                join h in db.Houses on r.Quote!.HouseId equals h.Id
                orderby r.Id
                select new Open(r.Id, h.Id, r.SentAtUtc!.Value, h.TimeZone, db.QuoteNudges.Where(n => n.QuoteRevisionId == r.Id).Max(n => (int?)n.AfterDays))).ToListAsync(cancel);
    }

    private async Task<bool> QueueAsync(int revisionId, NudgeRule rule, CompanyProfile company, DateTime now, CancellationToken cancel)
    {
        db.ChangeTracker.Clear();
        try
        {
            return await db.WriteAsync(() => WriteAsync(revisionId, rule, company, now, cancel), cancel);
        }
        catch (DbUpdateException)
        {
            // Another program nudged in the same moment; its message stands.
            db.ChangeTracker.Clear();
            return false;
        }
    }

    private async Task<bool> WriteAsync(int revisionId, NudgeRule rule, CompanyProfile company, DateTime now, CancellationToken cancel)
    {
        var r = await db.QuoteRevisions.Include(x => x.Quote).SingleAsync(x => x.Id == revisionId, cancel);
        var to = await db.Customers.AsNoTracking().Where(c => c.Id == r.Quote!.CustomerId).Select(c => new { c.Name, c.ContactName, c.Email }).SingleAsync(cancel);
        if (r.State != RevisionState.Sent || r.Quote!.NoNudges || !MailAddress.IsUsable(to.Email) || await db.QuoteNudges.AnyAsync(n => n.QuoteRevisionId == revisionId && n.AfterDays >= rule.AfterDays, cancel)) return false;
        var address = MailAddress.KeyOf(to.Email);
        if (await db.Suppressions.AnyAsync(s => s.Address == address && (s.Class == null || s.Class == MailClass.Commercial), cancel)) return false;
        var house = await db.Houses.AsNoTracking().Where(h => h.Id == r.Quote.HouseId).Select(h => new { h.Street, h.TimeZone }).SingleAsync(cancel);
        var (from, name) = (Letterhead.Of(company, mail), to.ContactName.Length > 0 ? to.ContactName : to.Name);
        var (token, hash) = PrivateLink.Make();
        db.QuoteLinks.Add(new QuoteLink { QuoteRevisionId = revisionId, TokenHash = hash, CreatedAtUtc = now, ExpiresAtUtc = OfferLink.EndsUtc(r, HouseTime.Zone(house.TimeZone, company.TimeZone)) });
        var values = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["name"] = MailAddress.OneLine(name), ["house"] = house.Street, ["quote"] = $"{r.Quote.Number} {r.Letter}", ["until"] = HouseTime.Show(r.ValidUntil), ["link"] = $"{from.Link($"offer/{token}")}",
            ["company"] = company.Name, ["phone"] = company.Phone,
        };
        var letter = new Letter($"nudge:{revisionId}:{rule.AfterDays}", MailClass.Commercial, to.Email, name, NudgeText.Fill(rule.Subject, values), NudgeText.Fill(rule.Body, values)) { HouseId = r.Quote.HouseId, Automatic = true };
        var message = await QueueMail.AddAsync(db, from, now, letter, cancel);
        await db.SaveChangesAsync(cancel);
        db.QuoteNudges.Add(new QuoteNudge { QuoteRevisionId = revisionId, AfterDays = rule.AfterDays, OutboxMessageId = message.Id, AtUtc = now });
        await db.SaveChangesAsync(cancel);
        return true;
    }
}
