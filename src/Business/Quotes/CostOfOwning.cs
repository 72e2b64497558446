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
        var (years, chosen) = (YearsOf(revision), addOns.ToList());
        var cable = tier.Lines.Exists(l => l.OfferedFor == OfferReason.FreezeGuard) || chosen.Exists(a => a.OfferedFor == OfferReason.FreezeGuard);
        var fans = FansLater(years, revision.FanLifeYears);
        return new(years, PriceQuote.Of(revision, tier, chosen).Total, revision.ElectricityPerYear.Times(years), cable ? revision.HeatCablePerYear.Times(years) : Money.Zero,
            revision.HouseAirPerYear.Times(years), fans, revision.FanReplacement.Times(fans));
    }

    /// <summary>The choices side by side, from the price to the sum; what costs nothing anywhere is left out.</summary>
    public static IReadOnlyList<OwningRow> Rows(IReadOnlyList<Owning> choices)
    {
        if (choices.Count == 0) return [];
        var (years, fans) = (choices[0].Years, choices[0].Fans);
        OwningRow[] parts =
        [
            new("Price, tax included", [.. choices.Select(c => c.Price)]), new("Electricity for the fan", [.. choices.Select(c => c.Electricity)]),
            new("Electricity for the heat cable", [.. choices.Select(c => c.HeatCable)]), new("Heat of the house air drawn out", [.. choices.Select(c => c.HouseAir)]),
            new(fans == 1 ? "One more fan" : $"{fans} more fans", [.. choices.Select(c => c.FanReplacements)]),
        ];
        return [parts[0], .. parts[1..].Where(p => p.Amounts.Any(a => a != Money.Zero)), new($"Over {years} {(years == 1 ? "year" : "years")}", [.. choices.Select(c => c.Total)], IsTotal: true)];
    }

    /// <summary>Fans bought after the first: 10 years at 8 years a fan take 1, at 10 years none; a life of 0 is not known, and none.</summary>
    public static int FansLater(int years, int lifeYears) => lifeYears <= 0 || years <= 0 ? 0 : (years - 1) / lifeYears;

    /// <summary>What the sums rest on, in sentences.</summary>
    public static IReadOnlyList<string> Assumptions(QuoteRevision r) =>
    [
        "Prices stay as they are today; no interest is reckoned.",
        "The fan runs all year.",
        r.FanLifeYears > 0 ? string.Create(CultureInfo.InvariantCulture, $"A fan lasts {r.FanLifeYears} years; another one, fitted, costs {r.FanReplacement}.") : "No fan is replaced: how long it lasts is not known.",
        r.HeatCablePerYear > Money.Zero ? $"A heat cable uses {r.HeatCablePerYear} of electricity a winter, where one is chosen." : "No electricity of a heat cable is in it.",
        r.HouseAirPerYear > Money.Zero ? $"The heat of the house air that the fan draws out is put at {r.HouseAirPerYear} a year; how much of the air comes from the house is assumed." : "The heat of house air that the fan draws out is not in it.",
    ];

    /// <summary>What the design's report says of the running cost, and what the book asks for another fan.</summary>
    public static void Fill(QuoteRevision revision, QuoteBasis basis, IReadOnlyList<PriceItem> book)
    {
        revision.ElectricityPerYear = Dollars(basis.Running?.ElectricityDollarsPerYear);
        revision.HouseAirPerYear = Dollars(basis.Running?.HouseAirDollarsPerYear);
        revision.HeatCablePerYear = basis.Freeze is { CableWPerFt: not null } freeze ? Dollars(freeze.CableDollarsPerWinter) : Money.Zero;
        if (basis.Fan is not { } fan) return;
        revision.FanLifeYears = Math.Clamp(fan.ExpectedLifeYears, 0, 100);
        var items = book.Where(i => i is { Retired: false, Use: PriceUse.Part, TakenBy: TakenBy.Fan } && (i.FanModel.Length == 0 || i.FanModel == fan.Model)).ToList();
        revision.FanReplacement = items.Select(i => i.PriceAt(basis.Company.LabourPricePerHour)).Sum() + (items.Exists(i => i.FanModel == fan.Model) ? Money.Zero : fan.Price);
    }

    private static Money Dollars(double? dollars) => Money.FromDollars((decimal)(dollars ?? 0));
}
