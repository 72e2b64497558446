using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices;

/// <summary>Which taxes are due on lines written by hand.</summary>
public static class TaxesOfDay
{
    /// <summary>Stands in every refusal for want of a rate.</summary>
    public const string RateEnded = "no rate for it holds on";

    /// <summary>The rates that hold on the day for these kinds. A kind that was taxed by a rate that has ended, with none after it,
    /// is a problem: leaving the tax out silently would be the company's loss.</summary>
    public static (IReadOnlyList<InvoiceTax> Taxes, IReadOnlyList<string> Problems) Of(IEnumerable<TaxRate> rates, IReadOnlyCollection<LineKind> kinds, DateOnly day)
    {
        var all = rates.OrderBy(r => r.Id).ToList();
        var due = all.Where(r => r.HoldsOn(day) && kinds.Any(r.Taxes)).ToList();
        var problems = from kind in kinds.Distinct().Order()
                       where !due.Any(r => r.Taxes(kind))
                       let ended = all.Where(r => r.ValidTo < day && r.Taxes(kind)).MaxBy(r => r.ValidTo)
                       where ended is not null
                       select $"{kind} was taxed by “{ended.Name}” until {HouseTime.Show(ended.ValidTo)}; {RateEnded} {HouseTime.Show(day)}. Enter the rate that follows, or write why no tax is due.";
        return ([.. due.Select(r => new InvoiceTax { Name = r.Name, Percent = r.Percent, Kinds = r.Kinds })], [.. problems]);
    }
}
