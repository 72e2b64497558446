using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices;

/// <summary>One line of a statement.</summary>
/// <param name="Charged">Above zero for an invoice, below for a credit note; empty for money.</param>
/// <param name="Paid">Above zero for a payment, below for money given back; empty for invoices.</param>
/// <param name="Balance">What is owed after it.</param>
/// <param name="MayUndo">A payment or refund that no counter entry has undone.</param>
public sealed record StatementLine(DateOnly Day, DateTime AtUtc, string Words, Money? Charged, Money? Paid, Money Balance, int? InvoiceId, int? PaymentId, bool MayUndo, DateOnly? DueOn);

/// <summary>What one customer was charged and paid for one house.</summary>
public sealed record HouseAccount(int CustomerId, string Customer, bool OwnsNow, bool HasEmail, Money Paid, Ageing Age, IReadOnlyList<StatementLine> Lines);

/// <summary>The accounts of a house: one for each customer who owned it and was ever charged or paid.</summary>
public static class ReadAccounts
{
    private sealed record Charge(int Id, int CustomerId, string Number, InvoiceKind Kind, string Subject, DateOnly IssuedOn, DateOnly DueOn, long Cents, DateTime AtUtc);

    private sealed record Moved(int Id, int CustomerId, PaymentKind Kind, DateOnly Day, long Cents, PaidBy How, string Reference, string Note, int? Undoes, DateTime AtUtc);

    /// <summary>Three statements.</summary>
    public static async Task<IReadOnlyList<HouseAccount>> OfHouseAsync(OfficeDb db, int houseId, DateOnly today)
    {
        var owners = await db.HouseOwners.AsNoTracking().Where(o => o.HouseId == houseId).OrderByDescending(o => o.ToDay == null).ThenByDescending(o => o.FromDay)
            .Select(o => new { o.CustomerId, o.Customer!.Name, Now = o.ToDay == null, HasEmail = o.Customer.Email != "" }).ToListAsync();
        var charges = await db.Invoices.AsNoTracking().Where(i => i.HouseId == houseId)
            .Select(i => new Charge(i.Id, i.CustomerId, i.Number, i.Kind, i.Subject, i.IssuedOn, i.DueOn, i.Total.Cents, i.IssuedAtUtc)).ToListAsync();
        var moved = await db.Payments.AsNoTracking().Where(p => p.HouseId == houseId)
            .Select(p => new Moved(p.Id, p.CustomerId, p.Kind, p.Day, p.Amount.Cents, p.How, p.Reference, p.Note, p.UndoesPaymentId, p.EnteredAtUtc)).ToListAsync();
        return
        [
            .. owners.DistinctBy(o => o.CustomerId).Select(o =>
            {
                var (mine, money) = (charges.Where(c => c.CustomerId == o.CustomerId).ToList(), moved.Where(m => m.CustomerId == o.CustomerId).ToList());
                var paid = new Money(money.Sum(m => m.Cents));
                return new HouseAccount(o.CustomerId, o.Name, o.Now, o.HasEmail, paid, Ageing.Of(mine.Select(c => (c.DueOn, new Money(c.Cents))), paid, today), Lines(mine, money));
            }).Where(a => a.OwnsNow || a.Lines.Count > 0),
        ];
    }

    private static List<StatementLine> Lines(List<Charge> charges, List<Moved> moved)
    {
        var undone = moved.Select(m => m.Undoes).OfType<int>().ToHashSet();
        var lines = charges.Select(c => new StatementLine(c.IssuedOn, c.AtUtc, Words(c), new Money(c.Cents), null, Money.Zero, c.Id, null, false, c.Kind == InvoiceKind.CreditNote ? null : c.DueOn))
            .Concat(moved.Select(m => new StatementLine(m.Day, m.AtUtc, Words(m, undone.Contains(m.Id)), null, new Money(m.Cents), Money.Zero, null, m.Id, m.Kind != PaymentKind.CounterEntry && !undone.Contains(m.Id), null)))
            .OrderBy(l => l.Day).ThenBy(l => l.AtUtc).ThenBy(l => l.InvoiceId is null).ThenBy(l => l.InvoiceId ?? 0).ThenBy(l => l.PaymentId ?? 0).ToList();
        var balance = Money.Zero;
        for (var i = 0; i < lines.Count; i++)
        {
            balance += (lines[i].Charged ?? Money.Zero) - (lines[i].Paid ?? Money.Zero);
            lines[i] = lines[i] with { Balance = balance };
        }

        return lines;
    }

    private static string Words(Charge c) => $"{(c.Kind == InvoiceKind.CreditNote ? "Credit note" : "Invoice")} {c.Number}: {c.Subject}";

    private static string Words(Moved m, bool undone)
    {
        var what = m.Kind switch { PaymentKind.Refund => "Given back", PaymentKind.CounterEntry => "Counter entry, undoes a wrong one", _ => "Payment" };
        var how = m.Kind == PaymentKind.CounterEntry ? "" : $" by {m.How.ToString().ToLowerInvariant()}{(m.Reference.Length > 0 ? $" {m.Reference}" : "")}";
        return $"{what}{how}{(m.Note.Length > 0 ? $": {m.Note}" : "")}{(undone ? " (undone)" : "")}";
    }
}
