using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>What is left of a choice for the company. For the owner's eyes.</summary>
/// <param name="Net">What the buyer pays before tax.</param>
/// <param name="Work">What its parts and labor cost.</param>
/// <param name="Overhead">The shop's share.</param>
public sealed record TierMoney(Money Net, Money Work, Money Overhead, decimal Hours)
{
    public Money Margin => Net - Work - Overhead;

    /// <summary>The margin's share of the net price, to a tenth of a percent; null where there is no price.</summary>
    public decimal? MarginPercent => Net == Money.Zero ? null : Math.Round(100m * Margin.Cents / Net.Cents, 1, MidpointRounding.AwayFromZero);

    public static TierMoney Of(QuoteRevision revision, QuoteTier tier, CompanyProfile company)
    {
        var work = tier.Lines.Select(l => l.UnitCost.Times(l.Quantity)).Sum();
        return new(PriceQuote.Of(revision, tier, []).Net, work, work.Percent(company.OverheadPercent), PriceQuote.LabourHours(tier));
    }

    /// <summary>Which of the owner's rules a choice breaks, in words.</summary>
    public static IReadOnlyList<string> Broken(QuoteRevision revision, CompanyProfile company) =>
        [.. revision.Tiers.OrderBy(t => t.Position).Where(t => t.Lines.Count > 0).SelectMany(t => Broken(Of(revision, t, company), t.Name, company))];

    private static IEnumerable<string> Broken(TierMoney money, string name, CompanyProfile company)
    {
        if (money.Net < company.PriceFloor) yield return $"“{name}” comes to {money.Net}, under the floor of {company.PriceFloor}.";
        if (company.LeastMarginPercent > 0 && (money.Net == Money.Zero || 100m * money.Margin.Cents < company.LeastMarginPercent * money.Net.Cents))
            yield return $"“{name}” leaves {TypedNumbers.Plain(money.MarginPercent ?? 0)} % of its price; the rule is {TypedNumbers.Plain(company.LeastMarginPercent)} %.";
    }
}
