using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;

namespace MitigationOffice.Web.Tests.Invoices;

/// <summary>The buyer cancels in time: 16 CFR 429.1(g), from memory.</summary>
public sealed class CancelSaleTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private static readonly DateOnly Signed = new(2026, 3, 2);

    [Fact]
    public async Task What_was_invoiced_is_taken_back_and_what_was_paid_is_owed_back_in_ten_business_days()
    {
        var sale = await office.SignedSaleAsync();
        await office.IssueAsync(sale, InvoiceKind.Deposit);
        await office.PayAsync(sale, sale.Deposit.Dollars);
        Assert.Empty((await CancelAsync(sale, Signed, Signed)).Refusals);
        // Ten weekdays after Monday, March 2, 2026, none of them a federal holiday: Monday, March 16. Counted by hand.
        var cancelled = await office.WithDbAsync(db => db.CancelledSales.AsNoTracking().SingleAsync(c => c.AcceptanceId == sale.AcceptanceId));
        Assert.Equal(new DateOnly(2026, 3, 16), cancelled.OwedBackBy);
        Assert.Equal(Money.Zero, (await office.WithDbAsync(db => db.Invoices.AsNoTracking().Where(i => i.HouseId == sale.HouseId).ToListAsync())).Select(i => i.Total).Sum());
        Assert.Contains("cancelled", (await office.IssueAsync(sale, InvoiceKind.Balance)).Refusals[0].Words, StringComparison.Ordinal);
        Assert.True((await CancelAsync(sale, Signed, Signed)).Already);
    }

    [Fact]
    public async Task A_notice_given_after_the_last_day_is_refused_in_words()
    {
        var sale = await office.SignedSaleAsync();
        var cancelBy = await office.WithDbAsync(db => db.Acceptances.Where(a => a.Id == sale.AcceptanceId).Select(a => a.CancelBy).SingleAsync());
        Assert.Contains("ended on Mar 5, 2026", (await CancelAsync(sale, cancelBy.AddDays(1), cancelBy.AddDays(1))).Refusals[0].Words, StringComparison.Ordinal);
        Assert.Contains("cannot be older", (await CancelAsync(sale, Signed.AddDays(-1), Signed)).Refusals[0].Words, StringComparison.Ordinal);
    }

    private Task<Issued> CancelAsync(SignedSale sale, DateOnly given, DateOnly received) =>
        office.WithDbAsync(async db => await CancelSale.RunAsync(db, sale.AcceptanceId, given, received, "", await office.IssuerAsync(db)));
}
