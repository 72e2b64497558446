using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes;

/// <summary>What a choice comes to.</summary>
/// <param name="Net">After the discounts, before tax.</param>
/// <param name="Taxable">The part of the net amount that is taxed.</param>
public sealed record QuoteTotals(Money Net, Money Taxable, Money Tax, Money Total, Money Deposit)
{
    public IReadOnlyList<DiscountTaken> Discounts { get; init; } = [];
    public Money Discount => Discounts.Select(d => d.Amount).Sum();

    /// <summary>Before the discounts.</summary>
    public Money Listed => Net + Discount;
}

/// <summary>Adds up a tier and the add-ons chosen with it. Each line is rounded to the cent; a discount once on the sum it is
/// taken off; tax once on the sum of the taxable lines less their share of the discount; the deposit once on the total; all half
/// away from zero.</summary>
public static class PriceQuote
{
    /// <summary>Beyond it a quote is taken for a slip of the pen.</summary>
    public static readonly Money Most = Money.FromDollars(10_000_000m);

    public static QuoteTotals Of(IEnumerable<(Money Amount, bool Taxable)> parts, decimal taxPercent, decimal depositPercent)
    {
        var sums = Sums.Of(parts);
        return Totals(sums, [], taxPercent, depositPercent);
    }

    public static QuoteTotals Of(QuoteRevision revision, QuoteTier tier, IEnumerable<QuoteAddOn> addOns)
    {
        var sums = Sums.Of(tier.Lines.Select(l => (l.Amount, l.Taxable)));
        var taken = new List<DiscountTaken>();
        sums = sums.Less(DiscountTaken.Of(sums, tier.DiscountPercent, tier.DiscountAmount, tier.DiscountReason, $"on {tier.Name}"), taken);
        sums = sums.And(Sums.Of(addOns.Select(a => (a.Price, a.Taxable))));
        sums = sums.Less(DiscountTaken.Of(sums, revision.DiscountPercent, revision.DiscountAmount, revision.DiscountReason, "on the whole"), taken);
        return Totals(sums, taken, revision.TaxPercent, revision.DepositPercent);
    }

    private static QuoteTotals Totals(Sums sums, List<DiscountTaken> taken, decimal taxPercent, decimal depositPercent)
    {
        var tax = sums.Taxed.Percent(taxPercent);
        var total = sums.All + tax;
        return new(sums.All, sums.Taxed, tax, total, total.Percent(depositPercent)) { Discounts = taken };
    }

    /// <summary>Of the work in a tier's lines.</summary>
    public static decimal LabourHours(QuoteTier tier) => tier.Lines.Sum(l => l.LabourMinutes * l.Quantity) / 60m;

    /// <summary>Add-ons that this tier does not hold already.</summary>
    public static IEnumerable<QuoteAddOn> OpenTo(QuoteTier tier, IEnumerable<QuoteAddOn> addOns) =>
        addOns.Where(a => IsOpenTo(tier, a)).OrderBy(a => a.Position).ThenBy(a => a.Id);

    public static bool IsOpenTo(QuoteTier tier, QuoteAddOn addOn) => IsBeside(tier, addOn) && !Holds(tier, addOn);

    public static bool IsBeside(QuoteTier tier, QuoteAddOn addOn) => addOn.Beside == 0 || (addOn.Beside & QuoteAddOn.Bit(tier.Position)) != 0;

    public static bool Holds(QuoteTier tier, QuoteAddOn addOn) =>
        addOn.PriceItemId is { } item && tier.Lines.Any(l => l.PriceItemId == item);

    /// <summary>Whether any choice, with all that can be added to it, comes to more than a quote may.</summary>
    public static bool IsTooMuch(QuoteRevision revision)
    {
        try
        {
            return revision.Tiers.Any(t => Of(revision, t, OpenTo(t, revision.AddOns)).Listed > Most || t.Lines.Select(l => l.UnitCost.Times(l.Quantity)).Sum() > Most);
        }
        catch (OverflowException)
        {
            return true;
        }
    }
}
