using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>What a design costs to run: by the year, and when its fan is worn out.</summary>
/// <param name="HeatCable">Of a winter, where a cable is chosen.</param>
/// <param name="FanReplacement">Another fan, fitted.</param>
/// <param name="FanLifeYears">0: not known.</param>
public sealed record RunningCost(Money Electricity, Money HeatCable, Money HouseAir, Money FanReplacement, int FanLifeYears)
{
    public static readonly RunningCost None = new(Money.Zero, Money.Zero, Money.Zero, Money.Zero, 0);

    /// <summary>Of the quote's own design.</summary>
    public static RunningCost Of(QuoteRevision r) => new(r.ElectricityPerYear, r.HeatCablePerYear, r.HouseAirPerYear, r.FanReplacement, r.FanLifeYears);

    /// <summary>Of the design the choice stands on.</summary>
    public static RunningCost Of(QuoteRevision r, QuoteTier t) =>
        t.SuctionDesignId is null ? Of(r) : new(t.ElectricityPerYear, t.HeatCablePerYear, t.HouseAirPerYear, t.FanReplacement, t.FanLifeYears);

    /// <summary>What the design's report says, and what the book asks for another fan.</summary>
    public static RunningCost From(QuoteBasis basis, IReadOnlyList<PriceItem> book) => new(
        Dollars(basis.Running?.ElectricityDollarsPerYear), basis.Freeze is { CableWPerFt: not null } freeze ? Dollars(freeze.CableDollarsPerWinter) : Money.Zero, Dollars(basis.Running?.HouseAirDollarsPerYear),
        basis.Fan is { } fan ? Another(fan, basis.Company, book) : Money.Zero, Math.Clamp(basis.Fan?.ExpectedLifeYears ?? 0, 0, 100));

    public void Into(QuoteRevision r) =>
        (r.ElectricityPerYear, r.HeatCablePerYear, r.HouseAirPerYear, r.FanReplacement, r.FanLifeYears) = (Electricity, HeatCable, HouseAir, FanReplacement, FanLifeYears);

    public void Into(QuoteTier t) =>
        (t.ElectricityPerYear, t.HeatCablePerYear, t.HouseAirPerYear, t.FanReplacement, t.FanLifeYears) = (Electricity, HeatCable, HouseAir, FanReplacement, FanLifeYears);

    private static Money Another(Fan fan, CompanyProfile company, IReadOnlyList<PriceItem> book)
    {
        var items = book.Where(i => i is { Retired: false, Use: PriceUse.Part, TakenBy: TakenBy.Fan } && (i.FanModel.Length == 0 || i.FanModel == fan.Model)).ToList();
        return items.Select(i => i.PriceAt(company.LabourPricePerHour)).Sum() + (items.Exists(i => i.FanModel == fan.Model) ? Money.Zero : fan.Price);
    }

    private static Money Dollars(double? dollars) => Money.FromDollars((decimal)(dollars ?? 0));
}
