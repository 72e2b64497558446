using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Web.Tests.Quotes;

namespace MitigationOffice.Web.Tests.Invoices;

/// <summary>A signed quote with its house and customer.</summary>
public sealed record SignedSale(int HouseId, int CustomerId, int AcceptanceId, Money Total, Money Deposit);

/// <summary>Ways to bring a house to invoices and payments.</summary>
public static class MoneyVerbs
{
    public static async Task<SignedSale> SignedSaleAsync(this OfficeApp office, string customer = "Rosalind Quill")
    {
        var offer = await office.HouseWithSentQuoteAsync(customer);
        var signed = await office.AcceptedQuoteAsync(offer);
        var customerId = await office.WithDbAsync(db => db.Quotes.Where(q => q.Id == offer.QuoteId).Select(q => q.CustomerId).SingleAsync());
        return new(offer.HouseId, customerId, signed.Id, signed.Total, signed.Deposit);
    }

    /// <summary>A deposit, its payment, a balance and a credit note for a quote that was signed.</summary>
    public static async Task InvoicesAndMoneyAsync(this OfficeApp office, int acceptanceId)
    {
        var (house, customer, deposit) = await office.WithDbAsync(async db =>
        {
            var a = await db.Acceptances.AsNoTracking().SingleAsync(x => x.Id == acceptanceId);
            var quote = await db.QuoteRevisions.Where(r => r.Id == a.QuoteRevisionId).Select(r => r.Quote!).SingleAsync();
            return (quote.HouseId, quote.CustomerId, a.Deposit);
        });
        var sale = new SignedSale(house, customer, acceptanceId, Money.Zero, deposit);
        await office.IssueAsync(sale, InvoiceKind.Deposit, mail: true);
        await office.PayAsync(sale, deposit.Dollars);
        var free = await office.IssueFreeAsync(sale, 90);
        await office.WithDbAsync(async db => await CreditInvoice.RunAsync(db, free.InvoiceId, [], "Written twice.", await office.IssuerAsync(db)));
        await office.IssueAsync(sale, InvoiceKind.Balance);
    }

    public static Task<Issued> IssueAsync(this OfficeApp office, SignedSale sale, InvoiceKind kind, bool mail = false) => office.WithDbAsync(async db =>
        await IssueInvoice.ForQuoteAsync(db, sale.AcceptanceId, kind, null, await office.IssuerAsync(db, mail)));

    public static async Task<Issuer> IssuerAsync(this OfficeApp office, OfficeDb db, bool mail = false) =>
        new("Bram Oster", office.Clock.GetUtcNow().UtcDateTime, mail ? await office.LetterheadAsync(db) : null);

    /// <summary>An invoice of one line that is not taxed.</summary>
    public static Task<Issued> IssueFreeAsync(this OfficeApp office, SignedSale sale, decimal dollars, int dueInDays = 0) => office.WithDbAsync(async db =>
        await IssueInvoice.FreeAsync(
            db, new(sale.HouseId, sale.CustomerId, "A visit", DateOnly.FromDateTime(office.Clock.GetUtcNow().UtcDateTime).AddDays(dueInDays),
                [new InvoiceLine { Words = "A visit", Kind = LineKind.Labour, UnitPrice = Money.FromDollars(dollars) }], "", ""),
            await office.IssuerAsync(db)));

    public static Task<(int Id, IReadOnlyList<Business.Work.Refusal> Refusals)> PayAsync(this OfficeApp office, SignedSale sale, decimal dollars, bool refund = false) => office.WithDbAsync(db =>
        TakePayment.RunAsync(
            db, new(sale.HouseId, sale.CustomerId, refund, DateOnly.FromDateTime(office.Clock.GetUtcNow().UtcDateTime), Money.FromDollars(dollars), PaidBy.Check, "1042", ""),
            office.Clock.GetUtcNow().UtcDateTime, "Bram Oster"));
}
