using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Invoices.Papers;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Invoices.Changes;

/// <summary>Freezes a draft and gives its link out: by mail, or on the tablet in the hand. A change order that is out can be given
/// out again; the links before it end.</summary>
public static class SendChange
{
    /// <summary>How long a link on a tablet opens: long enough to read and sign it, no longer.</summary>
    public static readonly TimeSpan OnTablet = TimeSpan.FromHours(2);

    /// <summary>How long one by mail does: common practice, no source.</summary>
    public const int DaysByMail = 14;

    /// <param name="handedBy">Who hands the tablet over; null: it goes by mail.</param>
    public static Task<ChangeDone> RunAsync(OfficeDb db, int id, int expectedVersion, string? handedBy, MailIdentity from, DateTime nowUtc, string by) => DraftChange.AloneAsync(db, async () =>
    {
        if (await db.ChangeOrders.Include(c => c.Lines).SingleOrDefaultAsync(c => c.Id == id) is not { } order) return ChangeDone.No("There is no such change order.");
        if (order.Version != expectedVersion) return ChangeDone.No("Someone changed this order since you opened it. Look at it again, then send it.");
        if (order.State is not (ChangeState.Draft or ChangeState.Sent)) return ChangeDone.No($"It was {order.State.ToString().ToLowerInvariant()} already.");
        if (await CheckChange.ClosedAsync(db, order.AcceptanceId) is { } closed) return ChangeDone.No(closed);
        if (await ReadAsync(db, order) is not { } full) return ChangeDone.No("The quote of this job was not signed.");
        if (handedBy is null && !MailAddress.IsUsable(full.Customer.Email)) return ChangeDone.No("The customer has no e-mail address. Write it on the customer's page, or have it signed on the tablet.");
        if (order.State == ChangeState.Draft && await FreezeAsync(db, order, full, nowUtc, by) is { Count: > 0 } refusals) return new(0, null, refusals);
        var token = await LinkAsync(db, order, full, handedBy, from, nowUtc);
        await db.SaveChangesAsync();
        return new(order.Id, token, []);
    });

    /// <summary>What stands around a change order.</summary>
    public static async Task<ChangeOnPaper?> ReadAsync(OfficeDb db, ChangeOrder order)
    {
        if (await ReadScope.OfAsync(db, order.AcceptanceId) is not { } scope) return null;
        var quote = await db.Acceptances.Where(a => a.Id == order.AcceptanceId).Join(db.QuoteRevisions, a => a.QuoteRevisionId, r => r.Id, (a, r) => new { r.Quote!.Number, r.Letter, r.Quote.CustomerId, a.AtUtc }).SingleAsync();
        var house = await db.Houses.AsNoTracking().SingleAsync(h => h.Id == order.HouseId);
        var company = await db.Company.AsNoTracking().SingleAsync();
        Customer customer = await db.Customers.AsNoTracking().SingleAsync(c => c.Id == quote.CustomerId);
        return new(order, scope, $"{quote.Number} {quote.Letter}", quote.AtUtc, house, customer, company);
    }

    private static async Task<IReadOnlyList<Refusal>> FreezeAsync(OfficeDb db, ChangeOrder order, ChangeOnPaper full, DateTime now, string by)
    {
        var refusals = CheckChange.Lines(order, full.Scope);
        if (refusals.Count > 0) return refusals;
        (order.State, order.SentAtUtc, order.ValidUntil) = (ChangeState.Sent, now, HouseTime.DayOf(now, full.Zone).AddDays(DaysByMail));
        var paper = StoredDocument.Of(ChangePaper.Make(full), PaperKind.ChangeOrder, full.Title, $"{order.Number}.pdf", "application/pdf", order.HouseId, now, by);
        db.Documents.Add(paper);
        foreach (var earlier in await db.ChangeOrders.Where(c => c.JobId == order.JobId && c.Id != order.Id && c.State == ChangeState.Sent).ToListAsync()) earlier.State = ChangeState.Replaced;
        await db.SaveChangesAsync();
        order.PdfDocumentId = paper.Id;
        return [];
    }

    private static async Task<string> LinkAsync(OfficeDb db, ChangeOrder order, ChangeOnPaper full, string? handedBy, MailIdentity from, DateTime now)
    {
        foreach (var link in await db.ChangeLinks.Where(l => l.ChangeOrderId == order.Id && l.RevokedAtUtc == null).ToListAsync()) link.RevokedAtUtc = now;
        var (token, hash) = PrivateLink.Make();
        var ends = handedBy is null ? HouseTime.ToUtc(HouseTime.DayOf(now, full.Zone).AddDays(DaysByMail + 1), TimeOnly.MinValue, full.Zone) : now + OnTablet;
        if (handedBy is null) order.ValidUntil = HouseTime.DayOf(now, full.Zone).AddDays(DaysByMail);
        db.ChangeLinks.Add(new ChangeLink { ChangeOrderId = order.Id, TokenHash = hash, CreatedAtUtc = now, ExpiresAtUtc = ends, HandedBy = handedBy ?? "" });
        if (handedBy is null) await QueueMail.AddAsync(db, from, now, ChangeLetters.ToSign(full, from.Link($"offer/change/{token}"), hash[..12]));
        return token;
    }
}
