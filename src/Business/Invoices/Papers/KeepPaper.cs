using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Houses;

namespace MitigationOffice.Business.Invoices.Papers;

/// <summary>Makes an invoice's paper and adds it to the documents; the caller saves.</summary>
internal static class KeepPaper
{
    public static async Task<StoredDocument> RunAsync(OfficeDb db, Invoice invoice, House house, Customer customer)
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        var credits = invoice.CreditsInvoiceId is { } id ? await db.Invoices.Where(i => i.Id == id).Select(i => i.Number).SingleAsync() : null;
        var at = customer.MailingAddress.Length > 0 ? customer.MailingAddress : house.AddressLine;
        var to = string.Join('\n', new[] { customer.Name, customer.ContactName, at }.Where(s => s.Length > 0));
        var paper = new InvoiceOnPaper(invoice, to, house.AddressLine, customer.Name, company, credits);
        var document = StoredDocument.Of(
            InvoicePaper.Make(paper), paper.IsCredit ? PaperKind.CreditNote : PaperKind.Invoice, paper.Title, paper.FileName, "application/pdf", house.Id, invoice.IssuedAtUtc, invoice.IssuedBy);
        db.Documents.Add(document);
        return document;
    }
}
