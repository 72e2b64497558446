using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>What a design asks for, as far as the price book counts it.</summary>
public sealed record TakeOff(decimal PipeFeet, decimal OutdoorFeet, int Fittings, Fan? Fan)
{
    public static readonly TakeOff ByHand = new(0, 0, 0, null);

    /// <summary>What the engine says of the outdoor run in winter, where it was computed.</summary>
    public FreezeResult? Freeze { get; init; }

    public static TakeOff Of(SuctionDesign design, Fan? fan, FreezeResult? freeze) => new(
        Feet(design.Pieces), Feet(design.Pieces.Where(p => p.Place == PiecePlace.Outdoors)),
        design.Pieces.Where(p => p.Kind is not (PieceKind.Pipe or PieceKind.Fan)).Sum(p => p.Count), fan)
    { Freeze = freeze };

    private static decimal Feet(IEnumerable<RoutePiece> pieces) =>
        Math.Ceiling((decimal)(pieces.Where(p => p.Kind == PieceKind.Pipe).Sum(p => p.LengthM * Math.Max(1, p.Count)) / 0.3048) - 0.001m);
}

/// <summary>Proposes three tiers from the price book: the first holds its parts; the second adds what keeps water and
/// alarms in order; the third adds all protection against the winter. Which is which is read from the items' names; the
/// office changes what does not fit.</summary>
public static class ProposeTiers
{
    private static readonly string[] Winter = ["freeze", "frost", "heat cable", "heating cable", "heat trace", "insulat", "winter", "ice "];
    private static readonly string[] Sure = ["condensate", "bypass", "drain", "sump", "water alarm"];

    public static void Into(QuoteRevision revision, CompanyProfile company, House house, TakeOff takeOff, IReadOnlyList<PriceItem> book)
    {
        var items = book.Where(i => !i.Retired).OrderBy(i => i.Kind).ThenBy(i => i.Name, StringComparer.OrdinalIgnoreCase).ToList();
        var parts = items.Where(i => i.Use == PriceUse.Part).ToList();
        var addOns = items.Where(i => i.Use == PriceUse.AddOn && Fits(i, house)).ToList();
        string[] names = [company.FirstTierName, company.SecondTierName, company.ThirdTierName];
        for (var n = 1; n <= 3; n++)
        {
            var tier = new QuoteTier { Position = n, Name = names[n - 1] };
            if (FanLine(takeOff, parts) is { } fan) tier.Lines.Add(fan);
            tier.Lines.AddRange(parts.Concat(addOns.Where(a => FromTier(a, takeOff.Freeze) <= n)).Select(i => LineOf(i, Quantity(i, takeOff), company)));
            for (var i = 0; i < tier.Lines.Count; i++) tier.Lines[i].Position = i + 1;
            revision.Tiers.Add(tier);
        }

        revision.AddOns.AddRange(addOns.Select((item, i) => AddOnOf(item, Quantity(item, takeOff), company, i + 1, recommended: IsAdvised(item, takeOff.Freeze))));
        GiveReasons(revision, addOns, takeOff.Freeze);
    }

    /// <summary>Puts what was computed for this house behind the book's reasons, and says which choice it speaks for.</summary>
    private static void GiveReasons(QuoteRevision revision, List<PriceItem> addOns, FreezeResult? freeze)
    {
        if (freeze is null) return;
        foreach (var (addOn, item) in revision.AddOns.Zip(addOns))
        {
            if (Named(item, Winter)) addOn.Reason = $"{addOn.Reason} {freeze.Conclusion}".Trim();
            else if (Named(item, ["condensate", "bypass"])) addOn.Reason = $"{addOn.Reason} {freeze.BypassReason}".Trim();
        }

        var freezes = freeze.CableAdvised || freeze.DaysAtRisk >= 1;
        revision.RecommendedTier = freezes ? 3 : freeze.BypassNeeded ? 2 : 1;
        revision.WhyRecommended = freezes ? freeze.Conclusion : freeze.BypassNeeded ? freeze.BypassReason : $"{freeze.Conclusion} More is not needed for the winter.";
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
    };

    public static QuoteAddOn AddOnOf(PriceItem item, decimal quantity, CompanyProfile company, int position, bool recommended) => new()
    {
        PriceItemId = item.Id,
        Position = position,
        Taxable = item.Taxable,
        Reason = item.Reason,
        Recommended = recommended,
        Words = quantity == 1 ? item.Name : $"{item.Name}, {TypedNumbers.Plain(quantity)} {item.Unit}",
        Price = item.PriceAt(company.LabourPricePerHour).Times(quantity),
        Cost = item.CostAt(company.LabourCostPerHour).Times(quantity),
    };

    /// <summary>The tier from which an add-on is part of the price: 4 for those that are only offered beside. Against the winter goes
    /// the cable, or the insulation where the forecast says that no cable would do; never both.</summary>
    private static int FromTier(PriceItem item, FreezeResult? freeze)
    {
        if (!Named(item, Winter)) return Named(item, Sure) ? 2 : 4;
        var insulate = freeze is { CableWPerFt: null, DaysAtRisk: >= 1 };
        return Named(item, ["insulat"]) == insulate ? 3 : 4;
    }

    /// <summary>Winter protection is advised only where the forecast sees ice, or where nothing was forecast.</summary>
    private static bool IsAdvised(PriceItem item, FreezeResult? freeze) =>
        FromTier(item, freeze) <= 3 && (!Named(item, Winter) || freeze is not { DaysAtRiskHigh: < 1 });

    private static bool Fits(PriceItem item, House house) => house.Sump != SumpKind.None || !Named(item, ["sump"]);

    private static bool Named(PriceItem item, string[] words) => words.Any(w => item.Name.Contains(w, StringComparison.OrdinalIgnoreCase));

    private static decimal Quantity(PriceItem item, TakeOff takeOff)
    {
        if (item.Unit == "ft") return Math.Max(1, item.Use == PriceUse.AddOn ? takeOff.OutdoorFeet : takeOff.PipeFeet);
        return Named(item, ["elbow", "fitting"]) ? Math.Max(1, takeOff.Fittings) : 1;
    }

    private static QuoteLine? FanLine(TakeOff takeOff, List<PriceItem> parts)
    {
        if (takeOff.Fan is not { } fan || parts.Any(p => p.Name.Contains(fan.Model, StringComparison.OrdinalIgnoreCase))) return null;
        return new QuoteLine { Words = $"Fan {fan.Model}", UnitPrice = fan.Price, UnitCost = fan.Price, Taxable = true };
    }
}
