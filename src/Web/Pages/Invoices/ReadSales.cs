using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Pages.Invoices;

/// <summary>A signed quote and how far it is invoiced.</summary>
/// <param name="DepositId">The deposit invoice that stands, 0 where none does.</param>
/// <param name="BalanceId">The invoice of the whole work that stands, 0 where none does.</param>
/// <param name="Total">With all signed change orders.</param>
/// <param name="Cancelled">What is on record of a cancellation by the private link; null where there is none.</param>
public sealed record Sale(
    int AcceptanceId, string Quote, DateOnly SignedOn, DateOnly CancelBy, bool MayCancel, Money Total, Money Deposit, int DepositId, int BalanceId, DateOnly? DoneOn, DateOnly? CancelledOn, DateOnly? OwedBackBy,
    Money SignedTotal, int Changes, DateOnly DepositDueOn, DateOnly BalanceDueOn, string SignedBy, NoticeByLink? Cancelled)
{
    /// <summary>Change orders that are drawn up or out, and not signed.</summary>
    public IReadOnlyList<UnsignedChange> NotSigned { get; init; } = [];
}

/// <param name="Out">The customer has it; else it is a draft.</param>
public sealed record UnsignedChange(int Id, string Number, bool Out);

/// <summary>How the buyer cancelled by the private link.</summary>
public sealed record NoticeByLink(string TypedName, DateTime AtUtc, string TimeZone, string IpAddress, int PaperId);

public static class ReadSales
{
    /// <summary>One statement.</summary>
    public static async Task<IReadOnlyList<Sale>> OfHouseAsync(OfficeDb db, int houseId, DateOnly today)
    {
        var lines = db.Set<InvoiceLine>();
        var rows = await (from a in db.Acceptances.AsNoTracking()
                          join r in db.QuoteRevisions on a.QuoteRevisionId equals r.Id
                          where r.Quote!.HouseId == houseId
                          orderby a.Id descending
                          select new
                          {
                              a.Id, r.Quote!.Number, r.Letter, a.AtUtc, a.TimeZone, a.CancelBy, r.NoCancelNoticeBecause, Total = a.Total.Cents, Deposit = a.Deposit.Cents,
                              DepositId = db.Invoices.Where(i => i.AcceptanceId == a.Id && i.Kind == InvoiceKind.Deposit && i.Lines.Any(l => !lines.Any(c => c.CreditsLineId == l.Id))).Select(i => i.Id).FirstOrDefault(),
                              BalanceId = db.Invoices.Where(i => i.AcceptanceId == a.Id && i.Kind == InvoiceKind.Balance && i.Lines.Any(l => !lines.Any(c => c.CreditsLineId == l.Id))).Select(i => i.Id).FirstOrDefault(),
                              DoneOn = db.Jobs.Where(j => j.AcceptanceId == a.Id && j.State == JobState.Done).Select(j => j.DoneOn).FirstOrDefault(),
                              SignedBy = a.TypedName, r.DepositDueDays, r.BalanceDueDays, Changes = db.ChangeOrders.Count(c => c.AcceptanceId == a.Id && c.State == ChangeState.Agreed),
                              NotSigned = db.ChangeOrders.Where(c => c.AcceptanceId == a.Id && (c.State == ChangeState.Draft || c.State == ChangeState.Sent)).OrderBy(c => c.Position).Select(c => new UnsignedChange(c.Id, c.Number, c.State == ChangeState.Sent)).ToList(),
                              NewTotal = db.ChangeOrders.Where(c => c.AcceptanceId == a.Id && c.State == ChangeState.Agreed).OrderByDescending(c => c.Position).Select(c => (long?)c.NewTotal.Cents).FirstOrDefault(),
                              Notice = db.CancelNotices.Where(n => n.AcceptanceId == a.Id).Select(n => new NoticeByLink(n.TypedName, n.AtUtc, n.TimeZone, n.IpAddress, n.PdfDocumentId)).FirstOrDefault(),
                              Cancelled = db.CancelledSales.Where(c => c.AcceptanceId == a.Id).Select(c => new { c.ReceivedOn, c.OwedBackBy }).FirstOrDefault(),
                          }).AsSingleQuery().ToListAsync();
        return
        [
            .. rows.Select(r => new Sale(
                r.Id, $"{r.Number} {r.Letter}", HouseTime.DayOf(r.AtUtc, HouseTime.Zone(r.TimeZone)), r.CancelBy, r.NoCancelNoticeBecause.Length == 0, new Money(r.NewTotal ?? r.Total), new Money(r.Deposit),
                r.DepositId, r.BalanceId, r.DoneOn, r.Cancelled?.ReceivedOn, r.Cancelled?.OwedBackBy, new Money(r.Total), r.Changes, today.AddDays(r.DepositDueDays), today.AddDays(r.BalanceDueDays), r.SignedBy, r.Notice) { NotSigned = r.NotSigned }),
        ];
    }
}
