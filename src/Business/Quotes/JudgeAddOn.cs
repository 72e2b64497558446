using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Shop.Offers;

namespace MitigationOffice.Business.Quotes;

/// <summary>Whether a house asks for what an item of the price book is offered for, by the item's rule.</summary>
public static class JudgeAddOn
{
    public static AddOnVerdict Of(PriceItem item, QuoteBasis basis) => ShippedRules.Of(item).Judge(AddOnFacts.Of(item, basis));

    /// <summary>Where no cable would do, the forecast speaks for insulation; never for both.</summary>
    public static bool AsksForInsulation(QuoteBasis basis) => basis.Freeze is { CableWPerFt: null, DaysAtRisk: >= 1 };
}
