using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Shop.Offers;

namespace MitigationOffice.Business.Quotes;

/// <summary>Proposes three tiers from the price book: each item says what it is counted by, from which tier on it is part
/// of the price, and what must be found out of the house before it is wanted. The office changes what does not fit.</summary>
public static class ProposeTiers
{
    public const string FloorWords = "Coming out and setting up";

    private sealed record Taken(PriceItem Item, decimal Quantity, AddOnVerdict Verdict)
    {
        public bool InTier(int n) => Verdict.Stand == AddOnStand.Included && Item.FromTier is > 0 && Item.FromTier <= n;
    }

    public static void Into(QuoteRevision revision, QuoteBasis basis, IReadOnlyList<PriceItem> book)
    {
        var taken = Take(basis, book);
        for (var n = 1; n <= 3; n++) revision.Tiers.Add(Tier(n, basis, taken));
        revision.AddOns.AddRange(AddOnsBeside(1, basis, taken));
        revision.NotOffered = string.Join('\n', NotOffered(taken));
        Recommend(revision, basis, taken);
    }

    /// <summary>One choice by itself, taken from a design.</summary>
    /// <param name="AddOns">What can be added to it.</param>
    /// <param name="NotOffered">What the book holds and the house does not ask for, and why.</param>
    public sealed record OneTier(List<QuoteLine> Lines, List<QuoteAddOn> AddOns, IReadOnlyList<string> NotOffered);

    /// <param name="n">1 to 3.</param>
    public static OneTier For(int n, QuoteBasis basis, IReadOnlyList<PriceItem> book)
    {
        var taken = Take(basis, book);
        return new(Tier(n, basis, taken).Lines, [.. AddOnsBeside(n, basis, taken)], [.. NotOffered(taken)]);
    }

    private static List<Taken> Take(QuoteBasis basis, IReadOnlyList<PriceItem> book)
    {
        var count = new CountItems(basis, book);
        return [.. book.Where(i => !i.Retired && i.TakenBy != TakenBy.Hand).OrderBy(i => i.Use).ThenBy(i => i.Kind).ThenBy(i => i.Name, StringComparer.OrdinalIgnoreCase)
            .Select(i => new Taken(i, i.TakenBy == TakenBy.Hour ? 0 : count.Of(i), JudgeAddOn.Of(i, basis))).Where(t => t.Quantity > 0 || t.Item.TakenBy == TakenBy.Hour)];
    }

    private static IEnumerable<QuoteAddOn> AddOnsBeside(int n, QuoteBasis basis, List<Taken> taken) =>
        taken.Where(t => t.Item.Use == PriceUse.AddOn && t.Quantity > 0 && t.Verdict.Stand != AddOnStand.NotOffered && !t.InTier(n)).Select((t, i) => AddOn(t, basis.Company, i + 1));

    private static IEnumerable<string> NotOffered(List<Taken> taken) => taken.Where(t => t.Verdict.Stand == AddOnStand.NotOffered).Select(t => $"{t.Item.Name}: {t.Verdict.Why}");

    private static QuoteTier Tier(int n, QuoteBasis basis, List<Taken> taken)
    {
        var company = basis.Company;
        string[] names = [company.FirstTierName, company.SecondTierName, company.ThirdTierName];
        var tier = new QuoteTier { Position = n, Name = names[n - 1] };
        var held = taken.Where(t => t.InTier(n)).ToList();
        if (BareFan(basis, held) is { } fan) tier.Lines.Add(fan);
        tier.Lines.AddRange(held.Where(t => t.Quantity > 0).Select(t => LineOf(t.Item, t.Quantity, company)));
        var hours = Math.Ceiling(PriceQuote.LabourHours(tier) * 4) / 4;
        if (hours > 0) tier.Lines.AddRange(held.Where(t => t.Item.TakenBy == TakenBy.Hour).Select(t => HourLine(t.Item, hours, company)));
        if (tier.Lines.Count > 0 && company.PriceFloor - tier.Lines.Select(l => l.Amount).Sum() is var short_ && short_ > Money.Zero) tier.Lines.Add(new QuoteLine { Words = FloorWords, UnitPrice = short_ });
        for (var i = 0; i < tier.Lines.Count; i++) tier.Lines[i].Position = i + 1;
        return tier;
    }

    /// <summary>Says which choice the forecast speaks for; leaves it where there is no forecast.</summary>
    public static void Recommend(QuoteRevision revision, QuoteBasis basis, IReadOnlyList<PriceItem> book) => Recommend(revision, basis, Take(basis, book));

    private static void Recommend(QuoteRevision revision, QuoteBasis basis, List<Taken> taken)
    {
        if (basis.Freeze is not { } freeze) return;
        var freezes = freeze.CableAdvised || freeze.DaysAtRisk >= 1;
        var winter = JudgeAddOn.AsksForInsulation(basis) ? OfferReason.Insulation : OfferReason.FreezeGuard;
        revision.RecommendedTier = freezes ? TierWith(winter, 3) : freeze.BypassNeeded ? TierWith(OfferReason.CondensateBypass, 2) : 1;
        revision.WhyRecommended = freezes ? freeze.Conclusion : freeze.BypassNeeded ? freeze.BypassReason : $"{freeze.Conclusion} More is not needed for the winter.";

        int TierWith(OfferReason reason, int otherwise) =>
            taken.Where(t => t.Item.OfferedFor == reason && t.InTier(3)).Select(t => t.Item.FromTier).DefaultIfEmpty(otherwise).Min();
    }

    /// <summary>A line at today's price of the book.</summary>
    public static QuoteLine LineOf(PriceItem item, decimal quantity, CompanyProfile company) => new()
    {
        PriceItemId = item.Id,
        Words = item.Name,
        Quantity = quantity,
        Unit = item.Unit,
        Taxable = item.Taxable,
        UnitPrice = item.PriceAt(company.LabourPricePerHour),
        UnitCost = item.CostAt(company.LabourCostPerHour),
        LabourMinutes = item.LabourMinutes,
        OfferedFor = item.OfferedFor,
    };

    /// <summary>One line for all hours: how many there are is not for the house owner to read.</summary>
    private static QuoteLine HourLine(PriceItem item, decimal hours, CompanyProfile company)
    {
        var line = LineOf(item, 1, company);
        (line.Unit, line.UnitPrice, line.UnitCost, line.LabourMinutes) = ("each", line.UnitPrice.Times(hours), line.UnitCost.Times(hours), (int)Math.Round(item.LabourMinutes * hours, MidpointRounding.AwayFromZero));
        return line;
    }

    public static QuoteAddOn AddOnOf(PriceItem item, decimal quantity, CompanyProfile company, int position, bool recommended) => new()
    {
        PriceItemId = item.Id,
        Position = position,
        Taxable = item.Taxable,
        Reason = item.Reason,
        Quantity = quantity,
        Recommended = recommended,
        Words = quantity == 1 ? item.Name : $"{item.Name}, {TypedNumbers.Plain(quantity)} {item.Unit}",
        Price = item.PriceAt(company.LabourPricePerHour).Times(quantity),
        Cost = item.CostAt(company.LabourCostPerHour).Times(quantity),
        LabourMinutes = (int)Math.Round(item.LabourMinutes * quantity, MidpointRounding.AwayFromZero),
        OfferedFor = item.OfferedFor,
    };

    private static QuoteAddOn AddOn(Taken taken, CompanyProfile company, int position)
    {
        var addOn = AddOnOf(taken.Item, taken.Quantity, company, position, taken.Verdict.Recommended);
        addOn.Reason = $"{addOn.Reason} {taken.Verdict.Why}".Trim();
        return addOn;
    }

    /// <summary>The design's fan at its catalogue price, where the price book has no line for it.</summary>
    private static QuoteLine? BareFan(QuoteBasis basis, List<Taken> held) => basis.Fan is not { } fan || held.Any(t => t.Item.FanModel == fan.Model)
        ? null : new QuoteLine { Words = $"Fan {fan.Model}", UnitPrice = fan.Price, UnitCost = fan.Price, Taxable = true };
}
