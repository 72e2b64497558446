using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Invoices;

/// <summary>Takes lines of an invoice back by a credit note. The tax of all credit notes together is that of all lines they took
/// back, rounded once, so that an invoice taken back in parts comes to nothing to the cent.</summary>
public static class CreditInvoice
{
    /// <param name="lineIds">Which lines; empty: all that stand.</param>
    public static Task<Issued> RunAsync(OfficeDb db, int invoiceId, IReadOnlyCollection<int> lineIds, string because, Issuer by) =>
        IssueInvoice.WriteAsync(db, () => InsideAsync(db, invoiceId, lineIds, because, by));

    internal static async Task<Issued> InsideAsync(OfficeDb db, int invoiceId, IReadOnlyCollection<int> lineIds, string because, Issuer by)
    {
        var invoice = await db.Invoices.AsNoTracking().Include(i => i.Lines).Include(i => i.Taxes).SingleOrDefaultAsync(i => i.Id == invoiceId);
        if (invoice is null) return Issued.No("There is no such invoice.");
        if (invoice.Kind == InvoiceKind.CreditNote) return Issued.No("A credit note cannot be taken back; issue an invoice instead.");
        if (because.Length == 0) return Issued.No("Write why it is taken back; it stands on the credit note.", "Because");
        var gone = await db.Invoices.Where(c => c.CreditsInvoiceId == invoiceId).SelectMany(c => c.Lines).Select(l => l.CreditsLineId!.Value).ToListAsync();
        var (chosen, before) = (invoice.Lines.Where(l => lineIds.Count == 0 ? !gone.Contains(l.Id) : lineIds.Contains(l.Id)).ToList(), invoice.Lines.Where(l => gone.Contains(l.Id)).ToList());
        if (chosen.Count == 0 || chosen.Any(before.Contains)) return Issued.No($"That part of invoice {invoice.Number} was taken back already.", "LineIds");
        if (invoice.Kind == InvoiceKind.Deposit && await TakenOffByAsync(db, invoice) is { } balance)
            return Issued.No($"Invoice {balance} has taken this deposit off. Take that one back first.");
        var (lines, sums) = Opposite(invoice, before, chosen);
        if (sums.Total >= Money.Zero && before.Count + chosen.Count < invoice.Lines.Count) return Issued.No("Those lines together are no credit. Take the whole invoice back instead.", "LineIds");
        var note = IssueInvoice.Blank(InvoiceKind.CreditNote, invoice.HouseId, invoice.CustomerId, $"Credit for invoice {invoice.Number}", because, lines, sums, await IssueInvoice.TodayAsync(db, invoice.HouseId, by.NowUtc), invoice.DueOn);
        (note.AcceptanceId, note.CreditsInvoiceId) = (invoice.AcceptanceId, invoice.Id);
        return await IssueInvoice.KeepAsync(db, note, by);
    }

    /// <summary>The lines and sums that take back some of an invoice's lines, others having been taken back before.</summary>
    public static (List<InvoiceLine> Lines, InvoiceSums Sums) Opposite(Invoice invoice, IReadOnlyCollection<InvoiceLine> before, IReadOnlyCollection<InvoiceLine> chosen)
    {
        var lines = chosen.OrderBy(l => l.Position).Select(l => new InvoiceLine
        {
            Words = l.Words,
            Kind = l.Kind,
            Quantity = l.Quantity,
            Unit = l.Unit,
            UnitPrice = Money.Zero - l.UnitPrice,
            DiscountPercent = l.DiscountPercent,
            Taxed = l.Taxed,
            Amount = Money.Zero - l.Amount,
            CreditsLineId = l.Id,
        }).ToList();
        var taxes = invoice.Taxes.OrderBy(t => t.Position).Select(t => OppositeTax(t, before, chosen)).Where(t => t.Taxed != Money.Zero).ToList();
        var (net, tax) = (lines.Select(l => l.Amount).Sum(), taxes.Select(t => t.Amount).Sum());
        return (lines, new(net, tax, net + tax, taxes));
    }

    private static InvoiceTax OppositeTax(InvoiceTax tax, IEnumerable<InvoiceLine> before, IEnumerable<InvoiceLine> chosen)
    {
        var (was, now) = (before.Where(tax.IsOn).Select(l => l.Amount).Sum(), chosen.Where(tax.IsOn).Select(l => l.Amount).Sum());
        return new()
        {
            Position = tax.Position,
            Name = tax.Name,
            Percent = tax.Percent,
            Kinds = tax.Kinds,
            Taxed = Money.Zero - now,
            Amount = was.Percent(tax.Percent) - (was + now).Percent(tax.Percent),
        };
    }

    private static Task<string?> TakenOffByAsync(OfficeDb db, Invoice deposit) => db.Invoices
        .Where(i => i.AcceptanceId == deposit.AcceptanceId && i.Kind == InvoiceKind.Balance
            && i.Lines.Any(l => l.Kind == LineKind.Deposit && l.Words.Contains(deposit.Number) && !db.Set<InvoiceLine>().Any(c => c.CreditsLineId == l.Id)))
        .Select(i => i.Number).FirstOrDefaultAsync();
}
