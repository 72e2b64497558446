using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Invoices.Papers;

/// <summary>Everything an invoice's paper says.</summary>
/// <param name="To">The customer's name and, below it, where letters go.</param>
/// <param name="Credits">Number of the invoice a credit note takes back.</param>
public sealed record InvoiceOnPaper(Invoice Invoice, string To, string House, string CustomerName, CompanyProfile Company, string? Credits)
{
    public bool IsCredit => Invoice.Kind == InvoiceKind.CreditNote;
    public string Title => $"{(IsCredit ? "Credit note" : "Invoice")} {Invoice.Number}";
    public string FileName => $"{Invoice.Number}.pdf";
}

/// <summary>An invoice or credit note as a paper. Pure: the same record gives the same bytes.</summary>
public static class InvoicePaper
{
    public static byte[] Make(InvoiceOnPaper paper) => Paper.Make(Head(paper), p => Write(p, paper));

    private static PaperHead Head(InvoiceOnPaper o) => new(o.Title, o.Company.Name, o.Invoice.IssuedAtUtc)
    {
        Boxes =
        [
            new("House", o.House, 2.3), new("For", o.CustomerName, 1.6), new(o.IsCredit ? "Credit note" : "Invoice", o.Invoice.Number, 1.15),
            new("Date", HouseTime.Show(o.Invoice.IssuedOn), 0.95), new(o.IsCredit ? "Credits" : "Due", o.Credits ?? HouseTime.Show(o.Invoice.DueOn), 1.05),
        ],
    };

    private static void Write(Paper p, InvoiceOnPaper o)
    {
        p.Title(o.Title);
        p.Text(o.Invoice.Subject);
        p.Facts(Parties(o));
        // First what is to be done; below a long list it would stand on a sheet by itself.
        if (!o.IsCredit) p.Note($"To pay: {o.Invoice.Total}, by {HouseTime.Show(o.Invoice.DueOn)}", $"By check to {o.Company.Name}, {StatementPaper.Place(o.Company)}, or as agreed with us. Write {o.Invoice.Number} on it. Questions: {StatementPaper.Reach(o.Company)}.");
        p.Table([new("What for", 3.2), new("Quantity", 1.05, Right: true), new("Price each", 1.05, Right: true), new("Amount", 1.1, Right: true)], [.. Lines(o.Invoice), .. Sums(o)]);
        if (o.Invoice.Taxes.Any(t => t.Kinds.Length == 0)) p.Text("* taxed", small: true, soft: true);
        p.Text(o.Invoice.Note);
        if (o.IsCredit) p.Note("What this means", $"{new Money(-o.Invoice.Total.Cents)} of invoice {o.Credits} is taken back. What was paid beyond what is owed now stands to your credit; ask us and we pay it back.");
    }

    private static IEnumerable<(string, string)> Parties(InvoiceOnPaper o)
    {
        yield return ("To", o.To);
        yield return ("From", $"{o.Company.Name}, {StatementPaper.Place(o.Company)}");
        if (o.Company.CertificationNumber.Length > 0) yield return ("Certification number", o.Company.CertificationNumber);
        if (o.Credits is { } credits) yield return ("Takes back", $"invoice {credits}, in the lines below");
    }

    private static IEnumerable<PaperRow> Lines(Invoice invoice)
    {
        var marks = invoice.Taxes.Any(t => t.Kinds.Length == 0);
        return invoice.Lines.Except(invoice.TakenOff()).OrderBy(l => l.Position).Select(l => new PaperRow(
            l.Words + (l.DiscountPercent > 0 ? $", less {TypedNumbers.Plain(l.DiscountPercent)} %" : "") + (marks && l.Taxed ? " *" : ""),
            l.Unit == "each" ? TypedNumbers.Plain(l.Quantity) : $"{TypedNumbers.Plain(l.Quantity)} {l.Unit}", $"{l.UnitPrice}", $"{l.Amount}"));
    }

    private static IEnumerable<PaperRow> Sums(InvoiceOnPaper o)
    {
        var (i, off) = (o.Invoice, o.Invoice.TakenOff());
        var takenOff = off.Select(l => l.Amount).Sum();
        yield return new PaperRow("Before tax", "", "", $"{i.Net - takenOff}");
        foreach (var t in i.Taxes.OrderBy(t => t.Position))
            yield return new PaperRow($"{t.Name}, {TypedNumbers.Plain(t.Percent)} % of {t.Taxed}", "", "", $"{t.Amount}");
        if (off.Count > 0) yield return new PaperRow("Tax included", "", "", $"{i.Total - takenOff}");
        foreach (var l in off) yield return new PaperRow(l.Words, "", "", $"{l.Amount}");
        yield return new PaperRow(o.IsCredit ? "Taken back" : "To pay", "", "", $"{i.Total}") { Strong = true, Band = true };
    }
}
