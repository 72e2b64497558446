using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Shop.Offers;

namespace MitigationOffice.Business.Quotes.Phases;

/// <summary>Proposes the work of a second phase: one more suction point at the price of the book, joined by as much pipe as the design
/// has indoors (a house rule; how far the next pit lies is not known before the test). For the office to change.</summary>
public static class ProposePhase
{
    /// <summary>The level from which EPA advises fixing a house, pCi/L.</summary>
    public const decimal Level = 4.0m;

    /// <summary>Null where the price book holds no further suction point.</summary>
    public static QuotePhase? Of(QuoteBasis basis, IReadOnlyList<PriceItem> book, DateOnly from)
    {
        if (PointOf(book) is not { } point) return null;
        var company = basis.Company;
        var feet = basis.TakeOff.IsByHand ? 0 : Math.Max(0, basis.TakeOff.PipeFeet - basis.TakeOff.OutdoorFeet);
        var size = basis.TakeOff.Pipes.MaxBy(p => p.Feet)?.Size ?? "";
        var pipe = feet > 0 ? book.FirstOrDefault(i => i is { Retired: false, Use: PriceUse.Part, TakenBy: TakenBy.PipeFoot } && i.PipeSize == size) : null;
        var (work, metres) = (point.PriceAt(company.LabourPricePerHour), pipe?.PriceAt(company.LabourPricePerHour).Times(feet) ?? Money.Zero);
        var joined = pipe is null ? "joined to the system" : string.Create(CultureInfo.InvariantCulture, $"joined to the system by about {feet:0.#} ft of pipe");
        return new QuotePhase
        {
            Level = Level,
            Unit = RadonUnit.PCiPerL,
            Scope = $"One more suction point, {joined}: {point.Name}. The house is tested again afterwards.",
            Price = work + metres,
            Cost = point.CostAt(company.LabourCostPerHour) + (pipe?.CostAt(company.LabourCostPerHour).Times(feet) ?? Money.Zero),
            LabourMinutes = (int)Math.Round(point.LabourMinutes + (pipe?.LabourMinutes ?? 0) * feet, MidpointRounding.AwayFromZero),
            Taxable = work >= metres ? point.Taxable : pipe!.Taxable,
            ValidUntil = from.AddYears(1),
        };
    }

    /// <summary>Whether the forecast leaves a doubt that one pit is enough, without asking for a further one at once.</summary>
    public static bool IsInDoubt(QuoteBasis basis, IReadOnlyList<PriceItem> book) =>
        basis.Running?.WeakestHole is not null && PointOf(book) is { } point && JudgeAddOn.Of(point, basis) is { Stand: not AddOnStand.NotOffered, Recommended: false };

    private static PriceItem? PointOf(IReadOnlyList<PriceItem> book) => book.FirstOrDefault(i => i is { Retired: false, OfferedFor: OfferReason.ExtraSuctionPoint });
}
