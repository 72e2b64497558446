using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Houses;

namespace MitigationOffice.Business.Invoices.Papers;

/// <summary>Makes an invoice's paper and adds it to the documents; the caller saves.</summary>
public static class KeepPaper
{
    internal static async Task<StoredDocument> RunAsync(OfficeDb db, Invoice invoice, House house, Customer customer)
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        var credits = invoice.CreditsInvoiceId is { } id ? await db.Invoices.Where(i => i.Id == id).Select(i => i.Number).SingleAsync() : null;
        var paper = new InvoiceOnPaper(invoice, To(customer, house.AddressLine), house.AddressLine, customer.Name, company, credits);
        var document = StoredDocument.Of(
            InvoicePaper.Make(paper), paper.IsCredit ? PaperKind.CreditNote : PaperKind.Invoice, paper.Title, paper.FileName, "application/pdf", house.Id, invoice.IssuedAtUtc, invoice.IssuedBy);
        db.Documents.Add(document);
        return document;
    }

    /// <summary>Name and, below it, where letters to the customer go.</summary>
    public static string To(Customer customer, string house) =>
        string.Join('\n', new[] { customer.Name, customer.ContactName, customer.MailingAddress.Length > 0 ? customer.MailingAddress : house }.Where(s => s.Length > 0));
}
