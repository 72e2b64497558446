using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using static MitigationOffice.Business.Data.TypedNumbers;

namespace MitigationOffice.Web.Pages.Invoices;

/// <summary>All invoices and all payments of some days, for the bookkeeper's own program: RFC 4180.</summary>
public static class BookkeeperFiles
{
    public static async Task<byte[]> InvoicesAsync(OfficeDb db, DateOnly from, DateOnly to)
    {
        var rows = await (from i in db.Invoices.AsNoTracking()
                          where i.IssuedOn >= @from && i.IssuedOn <= to
                          join h in db.Houses on i.HouseId equals h.Id
                          join c in db.Customers on i.CustomerId equals c.Id
                          orderby i.IssuedOn, i.Id
                          select new
                          {
                              i.Number, i.Kind, i.IssuedOn, i.DueOn, i.Subject, i.Note, Net = i.Net.Cents, Tax = i.Tax.Cents, Total = i.Total.Cents, Customer = c.Name,
                              House = h.Street + ", " + h.City, Credits = db.Invoices.Where(x => x.Id == i.CreditsInvoiceId).Select(x => x.Number).FirstOrDefault() ?? "",
                              Taxes = i.Taxes.OrderBy(t => t.Position).Select(t => new { t.Name, t.Percent, Taxed = t.Taxed.Cents, Amount = t.Amount.Cents }).ToList(),
                          }).AsSingleQuery().ToListAsync();
        return Csv.WriteForPeople(
            ["Number", "Kind", "Issued", "Due", "Customer", "House", "What for", "Takes back", "Before tax, $", "Tax, $", "Total, $", "Taxes", "Note"],
            rows.Select(r => (IReadOnlyList<string>)
            [
                r.Number, Setup.Forms.Words.Of(r.Kind), Plain(r.IssuedOn), Plain(r.DueOn), r.Customer, r.House, r.Subject, r.Credits, Dollars(r.Net), Dollars(r.Tax), Dollars(r.Total),
                string.Join("; ", r.Taxes.Select(t => $"{t.Name} {Plain(t.Percent)} % of {Dollars(t.Taxed)} = {Dollars(t.Amount)}")), r.Note,
            ]));
    }

    public static async Task<byte[]> PaymentsAsync(OfficeDb db, DateOnly from, DateOnly to)
    {
        var rows = await (from p in db.Payments.AsNoTracking()
                          where p.Day >= @from && p.Day <= to
                          join h in db.Houses on p.HouseId equals h.Id
                          join c in db.Customers on p.CustomerId equals c.Id
                          orderby p.Day, p.Id
                          select new { p.Id, p.Kind, p.Day, Cents = p.Amount.Cents, p.How, p.Reference, p.Note, p.UndoesPaymentId, p.EnteredBy, Customer = c.Name, House = h.Street + ", " + h.City }).ToListAsync();
        return Csv.WriteForPeople(
            ["Entry", "Kind", "Day", "Customer", "House", "Amount, $", "How", "Reference", "Note", "Undoes entry", "Entered by"],
            rows.Select(r => (IReadOnlyList<string>)
            [
                $"{r.Id}", Setup.Forms.Words.Of(r.Kind), Plain(r.Day), r.Customer, r.House, Dollars(r.Cents), Setup.Forms.Words.Of(r.How), r.Reference, r.Note, $"{r.UndoesPaymentId}", r.EnteredBy,
            ]));
    }

    private static string Dollars(long cents) => Plain(new Money(cents));
}
