using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices;

/// <summary>What an invoice comes to.</summary>
public sealed record InvoiceSums(Money Net, Money Tax, Money Total, IReadOnlyList<InvoiceTax> Taxes);

/// <summary>Adds up an invoice. A line is rounded to the cent once, after its discount; a tax once on the sum of the lines it is
/// due on; both half away from zero.</summary>
public static class AddUpInvoice
{
    public const int MostLines = 500;
    public static readonly Money MostTotal = Money.FromDollars(10_000_000m);

    /// <summary>Fills each line's amount and returns the sums, or says why there are none.</summary>
    /// <param name="taxes">The taxes asked for, their sums not filled in; one that is due on nothing is left out.</param>
    public static (InvoiceSums? Sums, string? Problem) Of(IReadOnlyList<InvoiceLine> lines, IEnumerable<InvoiceTax> taxes)
    {
        if (lines.Count == 0) return (null, "Write at least one line.");
        if (lines.Count > MostLines) return (null, $"An invoice holds at most {MostLines} lines; this one has {lines.Count}. Split it, or gather small parts in one line.");
        if (lines.FirstOrDefault(l => l.DiscountPercent is < 0 or > 100) is { } odd) return (null, $"The discount on “{odd.Words}” must be between 0 and 100 %.");
        try
        {
            foreach (var line in lines) line.Amount = AmountOf(line);
            var due = taxes.Select(t => Filled(t, lines)).Where(t => t.Taxed != Money.Zero).ToList();
            for (var i = 0; i < due.Count; i++) due[i].Position = i + 1;
            var (net, tax) = (lines.Select(l => l.Amount).Sum(), due.Select(t => t.Amount).Sum());
            var total = net + tax;
            if (lines.Any(l => l.Amount > MostTotal || l.Amount < new Money(-MostTotal.Cents)) || total > MostTotal) return (null, $"The invoice comes to more than {MostTotal}. Look at the quantities and prices.");
            return (new(net, tax, total, due), null);
        }
        catch (OverflowException)
        {
            return (null, $"The invoice comes to more than {MostTotal}. Look at the quantities and prices.");
        }
    }

    private static Money AmountOf(InvoiceLine line) => line.UnitPrice.Times(line.Quantity * (100 - line.DiscountPercent) / 100);

    private static InvoiceTax Filled(InvoiceTax tax, IReadOnlyList<InvoiceLine> lines)
    {
        var taxed = lines.Where(tax.IsOn).Select(l => l.Amount).Sum();
        return new() { Name = tax.Name, Percent = tax.Percent, Kinds = tax.Kinds, Taxed = taxed, Amount = taxed.Percent(tax.Percent) };
    }
}
