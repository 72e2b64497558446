using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Setup.Demo;

/// <summary>Invoices and payments of the demo houses, by the office's own acts.</summary>
internal sealed class DemoMoney(OfficeDb db, DemoClock clock, Actor actor, MailIdentity? mail)
{
    private const string Desk = "Bram Oster";

    public async Task DepositAsync(int acceptanceId, bool paid)
    {
        var issued = await IssueAsync(acceptanceId, InvoiceKind.Deposit);
        if (paid) await PayAsync(issued, share: 1m, PaidBy.Check, $"{1000 + issued.Id * 7}");
    }

    public Task<Invoice> BalanceAsync(int acceptanceId) => IssueAsync(acceptanceId, InvoiceKind.Balance);

    /// <summary>Who passed the test has paid, one has paid half, and who did not pass has not.</summary>
    public async Task SettleAsync(int houseId, DemoStage stage)
    {
        var balance = await db.Invoices.AsNoTracking().Where(i => i.HouseId == houseId && i.Kind == InvoiceKind.Balance).SingleAsync();
        if (stage == DemoStage.DevicesOut) await PayAsync(balance, 0.5m, PaidBy.Check, $"{2000 + balance.Id * 3}");
        else if (stage != DemoStage.NotPassed) await PayAsync(balance, 1m, PaidBy.Transfer, $"T-{balance.Id:00000}");
    }

    private async Task<Invoice> IssueAsync(int acceptanceId, InvoiceKind kind)
    {
        var before = actor.Name;
        actor.Name = Desk;
        var issued = await IssueInvoice.ForQuoteAsync(db, acceptanceId, kind, null, new(Desk, clock.Utc, mail));
        actor.Name = before;
        if (issued.InvoiceId == 0) throw new InvalidOperationException(issued.Refusals[0].Words);
        return await db.Invoices.AsNoTracking().SingleAsync(i => i.Id == issued.InvoiceId);
    }

    private async Task PayAsync(Invoice invoice, decimal share, PaidBy how, string reference)
    {
        var day = await IssueInvoice.TodayAsync(db, invoice.HouseId, clock.Utc);
        var (_, refusals) = await TakePayment.RunAsync(db, new(invoice.HouseId, invoice.CustomerId, false, day, invoice.Total.Times(share), how, reference, ""), clock.Utc, actor.Name);
        if (refusals.Count > 0) throw new InvalidOperationException(refusals[0].Words);
    }
}
