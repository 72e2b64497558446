using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;

namespace MitigationOffice.Web.Tests.Invoices;

/// <summary>Money that comes, goes back and is undone.</summary>
public sealed class PaymentTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task A_refund_never_goes_beyond_what_was_paid_also_when_many_give_back_at_once()
    {
        var sale = await office.SignedSaleAsync();
        Assert.Contains("Nothing was paid", (await office.PayAsync(sale, 10, refund: true)).Refusals[0].Words, StringComparison.Ordinal);
        await office.PayAsync(sale, 100);
        Assert.Contains("Only $100.00 was paid", (await office.PayAsync(sale, 100.01m, refund: true)).Refusals[0].Words, StringComparison.Ordinal);
        var all = await Task.WhenAll(Enumerable.Range(0, 10).Select(_ => Task.Run(() => office.PayAsync(sale, 60, refund: true))));
        Assert.Single(all, r => r.Id > 0);
        Assert.Equal(Money.FromDollars(40), await PaidAsync(sale));
    }

    [Fact]
    public async Task A_wrong_payment_is_undone_once_by_a_counter_entry_and_stays_on_record()
    {
        var sale = await office.SignedSaleAsync();
        var paid = await office.PayAsync(sale, 250);
        var undone = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => UndoAsync(paid.Id))));
        Assert.Single(undone.Select(u => u.Id).Distinct());
        Assert.Equal(Money.Zero, await PaidAsync(sale));
        Assert.Equal(2, await office.WithDbAsync(db => db.Payments.CountAsync(p => p.HouseId == sale.HouseId)));
        Assert.Contains("counter entry stays", (await UndoAsync(undone[0].Id)).Refusals[0].Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_payment_that_was_given_back_is_not_undone_before_the_refund()
    {
        var sale = await office.SignedSaleAsync();
        var paid = await office.PayAsync(sale, 250);
        var refund = await office.PayAsync(sale, 50, refund: true);
        Assert.Contains("Undo the refund first", (await UndoAsync(paid.Id)).Refusals[0].Words, StringComparison.Ordinal);
        await UndoAsync(refund.Id);
        Assert.NotEqual(0, (await UndoAsync(paid.Id)).Id);
    }

    [Fact]
    public async Task A_payment_of_tomorrow_or_of_nothing_is_refused()
    {
        var sale = await office.SignedSaleAsync();
        Assert.Equal("Amount", (await office.PayAsync(sale, 0)).Refusals[0].Field);
        var refused = await office.WithDbAsync(db => TakePayment.RunAsync(
            db, new(sale.HouseId, sale.CustomerId, false, new DateOnly(2026, 3, 3), Money.FromDollars(1), PaidBy.Cash, "", ""), office.Clock.GetUtcNow().UtcDateTime, "x"));
        Assert.Equal("Mar 3, 2026 has not come yet; today is Mar 2, 2026.", refused.Refusals[0].Words);
    }

    private Task<(int Id, IReadOnlyList<Business.Work.Refusal> Refusals)> UndoAsync(int id) =>
        office.WithDbAsync(db => TakePayment.UndoAsync(db, id, "Wrong house.", office.Clock.GetUtcNow().UtcDateTime, "Bram Oster"));

    private Task<Money> PaidAsync(SignedSale sale) => office.WithDbAsync(db => TakePayment.PaidAsync(db, sale.HouseId, sale.CustomerId));
}
