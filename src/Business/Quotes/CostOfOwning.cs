using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>What one choice costs over the years.</summary>
public sealed record Owning(int Years, Money Price, Money Electricity, Money HeatCable, Money HouseAir, int Fans, Money FanReplacements)
{
    public Money Total => Price + Electricity + HeatCable + HouseAir + FanReplacements;
}

/// <summary>One line of the schedule, a sum for each choice.</summary>
public sealed record OwningRow(string Words, IReadOnlyList<Money> Amounts, bool IsTotal = false);

/// <summary>Price and running cost over the years that the owner of the house cares about; every part is rounded to the cent once.</summary>
public static class CostOfOwning
{
    public const int UsualYears = 10;
    public const int MostYears = 40;

    /// <summary>A quote from before the years were asked for tells ten.</summary>
    public static int YearsOf(QuoteRevision revision) => revision.OwningYears > 0 ? revision.OwningYears : UsualYears;

    public static Owning Of(QuoteRevision revision, QuoteTier tier, IEnumerable<QuoteAddOn> addOns)
    {
        var (years, chosen, running) = (YearsOf(revision), addOns.ToList(), RunningCost.Of(revision, tier));
        var cable = tier.Lines.Exists(l => l.OfferedFor == OfferReason.FreezeGuard) || chosen.Exists(a => a.OfferedFor == OfferReason.FreezeGuard);
        var fans = FansLater(years, running.FanLifeYears);
        return new(years, PriceQuote.Of(revision, tier, chosen).Total, running.Electricity.Times(years), cable ? running.HeatCable.Times(years) : Money.Zero,
            running.HouseAir.Times(years), fans, running.FanReplacement.Times(fans));
    }

    /// <summary>The choices side by side, from the price to the sum; what costs nothing anywhere is left out.</summary>
    public static IReadOnlyList<OwningRow> Rows(IReadOnlyList<Owning> choices)
    {
        if (choices.Count == 0) return [];
        var (years, fans) = (choices[0].Years, choices.Select(c => c.Fans).Distinct().ToList());
        OwningRow[] parts =
        [
            new("Price, tax included", [.. choices.Select(c => c.Price)]), new("Electricity for the fan", [.. choices.Select(c => c.Electricity)]),
            new("Electricity for the heat cable", [.. choices.Select(c => c.HeatCable)]), new("Heat of the house air drawn out", [.. choices.Select(c => c.HouseAir)]),
            new(fans is not [var same] ? "Further fans" : same == 1 ? "One more fan" : $"{same} more fans", [.. choices.Select(c => c.FanReplacements)]),
        ];
        return [parts[0], .. parts[1..].Where(p => p.Amounts.Any(a => a != Money.Zero)), new($"Over {years} {(years == 1 ? "year" : "years")}", [.. choices.Select(c => c.Total)], IsTotal: true)];
    }

    /// <summary>Fans bought after the first: 10 years at 8 years a fan take 1, at 10 years none; a life of 0 is not known, and none.</summary>
    public static int FansLater(int years, int lifeYears) => lifeYears <= 0 || years <= 0 ? 0 : (years - 1) / lifeYears;

    /// <summary>What the sums rest on, in sentences; where choices stand on different designs, each group says its own.</summary>
    public static IReadOnlyList<string> Assumptions(QuoteRevision r)
    {
        string[] all = ["Prices stay as they are today; no interest is reckoned.", "The fan runs all year."];
        var groups = r.Tiers.OrderBy(t => t.Position).GroupBy(t => RunningCost.Of(r, t)).ToList();
        return groups.Count <= 1 ? [.. all, .. Assumed(groups.Count == 0 ? RunningCost.Of(r) : groups[0].Key)]
            : [.. all, .. groups.SelectMany(g => Assumed(g.Key).Select(words => $"{string.Join(" and ", g.Select(t => $"“{t.Name}”"))}: {words}"))];
    }

    private static string[] Assumed(RunningCost c) =>
    [
        c.FanLifeYears > 0 ? string.Create(CultureInfo.InvariantCulture, $"A fan lasts {c.FanLifeYears} years; another one, fitted, costs {c.FanReplacement}.") : "No fan is replaced: how long it lasts is not known.",
        c.HeatCable > Money.Zero ? $"A heat cable uses {c.HeatCable} of electricity a winter, where one is chosen." : "No electricity of a heat cable is in it.",
        c.HouseAir > Money.Zero ? $"The heat of the house air that the fan draws out is put at {c.HouseAir} a year; how much of the air comes from the house is assumed." : "The heat of house air that the fan draws out is not in it.",
    ];
}
