using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Business.Invoices;

/// <summary>The letter an invoice goes out with.</summary>
public static class MailInvoice
{
    /// <summary>Sends it once more, as it was stored. False where the customer has no address for it.</summary>
    public static Task<bool> AgainAsync(OfficeDb db, int invoiceId, MailIdentity from, DateTime nowUtc) => db.WriteAsync(async () =>
    {
        var invoice = await db.Invoices.AsNoTracking().SingleAsync(i => i.Id == invoiceId);
        var customer = await db.Customers.AsNoTracking().SingleAsync(c => c.Id == invoice.CustomerId);
        if (!MailAddress.IsUsable(customer.Email)) return false;
        var (house, paper) = (await db.Houses.AsNoTracking().SingleAsync(h => h.Id == invoice.HouseId), await db.Documents.AsNoTracking().SingleAsync(d => d.Id == invoice.PdfDocumentId));
        var sent = await db.Outbox.CountAsync(m => m.Key.StartsWith(KeyOf(invoice)));
        await QueueMail.AddAsync(db, from, nowUtc, LetterOf(invoice, house, customer, paper, sent + 1));
        await db.SaveChangesAsync();
        return true;
    });

    internal static Letter LetterOf(Invoice invoice, House house, Customer customer, StoredDocument paper, int time) =>
        new($"{KeyOf(invoice)}{time}", MailClass.Work, customer.Email, customer.Name, $"{(invoice.Kind == InvoiceKind.CreditNote ? "Credit note" : "Invoice")} {invoice.Number}", Words(invoice, house, customer))
        {
            HouseId = house.Id,
            Attachments = [new(paper.FileName, "application/pdf", paper.Bytes)],
        };

    private static string KeyOf(Invoice invoice) => $"invoice:{invoice.Number}:";

    private static string Words(Invoice invoice, House house, Customer customer)
    {
        var hello = $"Hello {MailAddress.OneLine(customer.ContactName.Length > 0 ? customer.ContactName : customer.Name)},";
        var body = invoice.Kind == InvoiceKind.CreditNote
            ? $"Attached is credit note {invoice.Number}: {new Money(-invoice.Total.Cents)} is taken back for the work at {house.Street}."
            : $"Attached is invoice {invoice.Number} for the work at {house.Street}: {invoice.Total}, due {HouseTime.Show(invoice.DueOn)}.";
        return $"{hello}\n\n{body}\n\nIf something in it is not right, answer this message and we look at it.";
    }
}
