using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes;

/// <summary>What a choice comes to.</summary>
/// <param name="Taxable">The part of the net amount that is taxed.</param>
public sealed record QuoteTotals(Money Net, Money Taxable, Money Tax, Money Total, Money Deposit);

/// <summary>Adds up a tier and the add-ons chosen with it. Each line is rounded to the cent; tax is taken once on the sum
/// of the taxable lines, the deposit once on the total, both half away from zero.</summary>
public static class PriceQuote
{
    public static QuoteTotals Of(IEnumerable<(Money Amount, bool Taxable)> parts, decimal taxPercent, decimal depositPercent)
    {
        var all = parts.ToList();
        var (net, taxable) = (all.Select(p => p.Amount).Sum(), all.Where(p => p.Taxable).Select(p => p.Amount).Sum());
        var tax = taxable.Percent(taxPercent);
        var total = net + tax;
        return new(net, taxable, tax, total, total.Percent(depositPercent));
    }

    public static QuoteTotals Of(QuoteRevision revision, QuoteTier tier, IEnumerable<QuoteAddOn> addOns) => Of(
        tier.Lines.Select(l => (l.Amount, l.Taxable)).Concat(addOns.Select(a => (a.Price, a.Taxable))), revision.TaxPercent, revision.DepositPercent);

    /// <summary>What is left of the net price when the parts are paid for.</summary>
    public static Money Margin(QuoteTier tier) => tier.Lines.Select(l => l.Amount - l.UnitCost.Times(l.Quantity)).Sum();

    /// <summary>The margin's share of the net price, to a tenth of a percent; null where there is no price.</summary>
    public static decimal? MarginPercent(QuoteTier tier)
    {
        var net = tier.Lines.Select(l => l.Amount).Sum();
        return net == Money.Zero ? null : Math.Round(100m * Margin(tier).Cents / net.Cents, 1, MidpointRounding.AwayFromZero);
    }

    /// <summary>Of the work in a tier's lines.</summary>
    public static decimal LabourHours(QuoteTier tier) => tier.Lines.Sum(l => l.LabourMinutes * l.Quantity) / 60m;

    /// <summary>Add-ons that this tier does not hold already.</summary>
    public static IEnumerable<QuoteAddOn> OpenTo(QuoteTier tier, IEnumerable<QuoteAddOn> addOns) =>
        addOns.Where(a => !Holds(tier, a)).OrderBy(a => a.Position).ThenBy(a => a.Id);

    public static bool Holds(QuoteTier tier, QuoteAddOn addOn) =>
        addOn.PriceItemId is { } item && tier.Lines.Any(l => l.PriceItemId == item);
}
