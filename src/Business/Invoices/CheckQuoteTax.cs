using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Invoices;

/// <summary>Holds the tax of a draft against the office's tax rates of the day, where it keeps any.</summary>
public static class CheckQuoteTax
{
    private const string Place = "Money.TaxRates";

    /// <summary>One statement.</summary>
    public static async Task<IReadOnlyList<QuoteGap>> GapsAsync(OfficeDb db, QuoteRevision r, IReadOnlyList<PriceItem> book, DateOnly day)
    {
        var rates = await db.TaxRates.AsNoTracking().OrderBy(t => t.Id).ToListAsync();
        if (rates.Count == 0) return [];
        var ids = r.Tiers.SelectMany(t => t.Lines).Where(l => l.Taxable).Select(l => l.PriceItemId).Concat(r.AddOns.Where(a => a.Taxable).Select(a => a.PriceItemId)).ToHashSet();
        var kinds = book.Where(p => ids.Contains(p.Id)).Select(p => KindOf(p.Kind)).Concat(ids.Contains(null) ? [LineKind.Other] : Array.Empty<LineKind>()).Distinct().ToList();
        return [.. Of(rates, kinds, r.TaxPercent, day)];
    }

    /// <summary>Pure. A quote charges one tax on all its taxed lines; it must be what holds for at least one of their kinds.</summary>
    public static IEnumerable<QuoteGap> Of(IReadOnlyList<TaxRate> rates, IReadOnlyCollection<LineKind> kinds, decimal percent, DateOnly day)
    {
        if (kinds.Count == 0) yield break;
        foreach (var problem in TaxesOfDay.Of(rates, kinds, day).Problems) yield return new(problem, Place);
        var due = kinds.Select(k => rates.Where(t => t.HoldsOn(day) && t.Taxes(k)).Sum(t => t.Percent)).Where(p => p > 0).Distinct().Order().ToList();
        if (due.Count > 0 && !due.Contains(percent))
            yield return new($"The quote charges {TypedNumbers.Plain(percent)} % of sales tax; the tax rates that hold on {HouseTime.Show(day)} come to {string.Join(" or ", due.Select(p => $"{TypedNumbers.Plain(p)} %"))}.", nameof(QuoteRevision.TaxPercent));
    }

    private static LineKind KindOf(PriceKind kind) => kind switch
    {
        PriceKind.Material => LineKind.Material,
        PriceKind.Labour => LineKind.Labour,
        PriceKind.Subcontract => LineKind.Subcontract,
        PriceKind.Permit => LineKind.Permit,
        _ => LineKind.Other,
    };
}
