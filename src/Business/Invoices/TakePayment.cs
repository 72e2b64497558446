using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Invoices;

/// <summary>Money that came or goes back, as somebody wrote it down.</summary>
/// <param name="Amount">Above zero also for a refund.</param>
public sealed record MoneyMoved(int HouseId, int CustomerId, bool Refund, DateOnly Day, Money Amount, PaidBy How, string Reference, string Note);

/// <summary>Writes payments and refunds down, and undoes them by a counter entry.</summary>
public static class TakePayment
{
    public static readonly Money Most = Money.FromDollars(1_000_000m);

    /// <summary>The payment's id, or why it was refused.</summary>
    public static Task<(int Id, IReadOnlyList<Refusal> Refusals)> RunAsync(OfficeDb db, MoneyMoved moved, DateTime nowUtc, string by) => AloneAsync(db, async () =>
    {
        var refusals = await CheckAsync(db, moved, nowUtc);
        if (refusals.Count > 0) return (0, refusals);
        var payment = Keep(db, moved.HouseId, moved.CustomerId, moved.Refund ? PaymentKind.Refund : PaymentKind.Received, moved.Refund ? Money.Zero - moved.Amount : moved.Amount, moved.Day, nowUtc, by);
        (payment.How, payment.Reference, payment.Note) = (moved.How, moved.Reference, moved.Note);
        await db.SaveChangesAsync();
        return (payment.Id, refusals);
    });

    /// <summary>Undoes a payment or refund that was written down wrongly. A second undoing returns the first.</summary>
    public static Task<(int Id, IReadOnlyList<Refusal> Refusals)> UndoAsync(OfficeDb db, int paymentId, string because, DateTime nowUtc, string by) => AloneAsync(db, async () =>
    {
        if (await db.Payments.AsNoTracking().SingleOrDefaultAsync(p => p.Id == paymentId) is not { } wrong) return (0, [new("", "There is no such payment.")]);
        if (await db.Payments.Where(p => p.UndoesPaymentId == paymentId).Select(p => p.Id).FirstOrDefaultAsync() is var done and > 0) return (done, []);
        if (wrong.Kind == PaymentKind.CounterEntry) return (0, [new("", "A counter entry stays. Write the payment down again instead.")]);
        if (wrong.Kind == PaymentKind.Received && await PaidAsync(db, wrong.HouseId, wrong.CustomerId) < wrong.Amount)
            return (0, [new("", "Some of this payment was given back. Undo the refund first.")]);
        var counter = Keep(db, wrong.HouseId, wrong.CustomerId, PaymentKind.CounterEntry, Money.Zero - wrong.Amount, await IssueInvoice.TodayAsync(db, wrong.HouseId, nowUtc), nowUtc, by);
        (counter.How, counter.UndoesPaymentId, counter.Note) = (wrong.How, wrong.Id, because);
        await db.SaveChangesAsync();
        return (counter.Id, []);
    });

    /// <summary>What was paid and not given back.</summary>
    public static async Task<Money> PaidAsync(OfficeDb db, int houseId, int customerId) =>
        new(await db.Payments.Where(p => p.HouseId == houseId && p.CustomerId == customerId).SumAsync(p => p.Amount.Cents));

    private static async Task<List<Refusal>> CheckAsync(OfficeDb db, MoneyMoved m, DateTime nowUtc)
    {
        var refusals = new List<Refusal>();
        if (!await db.HouseOwners.AnyAsync(o => o.HouseId == m.HouseId && o.CustomerId == m.CustomerId)) return [new("", "This customer does not own the house and never did.")];
        var today = await IssueInvoice.TodayAsync(db, m.HouseId, nowUtc);
        if (m.Amount <= Money.Zero) refusals.Add(new("Amount", "Write an amount above zero; money given back is a refund."));
        if (m.Amount > Most) refusals.Add(new("Amount", $"The amount is more than {Most}. Look at it again."));
        if (m.Day > today) refusals.Add(new("Day", $"{HouseTime.Show(m.Day)} has not come yet; today is {HouseTime.Show(today)}."));
        if (m.Refund && refusals.Count == 0 && await PaidAsync(db, m.HouseId, m.CustomerId) is var paid && m.Amount > paid)
            refusals.Add(new("Amount", paid > Money.Zero ? $"Only {paid} was paid; no more than that can be given back." : "Nothing was paid that could be given back."));
        return refusals;
    }

    private static Payment Keep(OfficeDb db, int houseId, int customerId, PaymentKind kind, Money amount, DateOnly day, DateTime nowUtc, string by) => db.Payments.Add(new Payment
    {
        HouseId = houseId,
        CustomerId = customerId,
        Kind = kind,
        Amount = amount,
        Day = day,
        EnteredAtUtc = nowUtc,
        EnteredBy = by,
    }).Entity;

    private static async Task<(int, IReadOnlyList<Refusal>)> AloneAsync(OfficeDb db, Func<Task<(int, IReadOnlyList<Refusal>)>> act)
    {
        db.ChangeTracker.Clear();
        return await db.WriteAsync(async () =>
        {
            await db.TakeTurnAsync(Turn.Money);
            return await act();
        });
    }
}
