using System.Globalization;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

public enum AddOnStand
{
    /// <summary>Part of the price from the item's tier on, and offered beside the tiers before.</summary>
    Included,

    /// <summary>Offered beside all tiers.</summary>
    Offered,
    NotOffered,
}

/// <param name="Why">One sentence with its numbers; empty where nothing was found out.</param>
public sealed record AddOnVerdict(AddOnStand Stand, bool Recommended, string Why);

/// <summary>Whether a house asks for what an item of the price book is offered for.</summary>
public static class JudgeAddOn
{
    /// <summary>From this share of the fan's pressure on, a larger pipe is recommended: a house rule.</summary>
    public const decimal PipeSharePercent = 33;

    private const double PoundsPerKg = 2.20462262;

    public static AddOnVerdict Of(PriceItem item, QuoteBasis basis) => item.OfferedFor switch
    {
        OfferReason.FreezeGuard => FreezeGuard(item, basis),
        OfferReason.Insulation => Insulation(item, basis),
        OfferReason.CondensateBypass => Bypass(item, basis),
        OfferReason.SumpLid => SumpLid(basis.House),
        OfferReason.CritterGuard => CritterGuard(item, basis),
        OfferReason.SecondAlarm => SecondAlarm(item, basis.House),
        OfferReason.BackdraftAlarm => BackdraftAlarm(basis.House),
        OfferReason.LargerPipe => LargerPipe(item, basis),
        OfferReason.ExtraSuctionPoint => ExtraSuctionPoint(item, basis),
        _ => new(item.FromTier > 0 ? AddOnStand.Included : AddOnStand.Offered, item.FromTier > 0, ""),
    };

    /// <summary>Where no cable would do, the forecast speaks for insulation; never for both.</summary>
    public static bool AsksForInsulation(QuoteBasis basis) => basis.Freeze is { CableWPerFt: null, DaysAtRisk: >= 1 };

    private static AddOnVerdict FreezeGuard(PriceItem item, QuoteBasis basis)
    {
        if (NoOutdoorPipe(basis) is { } none) return none;
        if (basis.Freeze is not { } freeze) return NotForecast(AddOnStand.Included, true, basis);
        if (AsksForInsulation(basis)) return new(AddOnStand.NotOffered, false, freeze.Conclusion);
        return new(AddOnStand.Included, (decimal)freeze.DaysAtRiskHigh >= (item.RecommendedFrom ?? 1), freeze.Conclusion);
    }

    private static AddOnVerdict Insulation(PriceItem item, QuoteBasis basis)
    {
        if (NoOutdoorPipe(basis) is { } none) return none;
        if (basis.Freeze is not { } freeze) return NotForecast(AddOnStand.Offered, false, basis);
        if (AsksForInsulation(basis)) return new(AddOnStand.Included, (decimal)freeze.DaysAtRisk >= (item.RecommendedFrom ?? 1), freeze.Conclusion);
        if (freeze.DaysAtRiskHigh < 1) return new(AddOnStand.NotOffered, false, freeze.Conclusion);
        return freeze.InsulationR is { } r
            ? new(AddOnStand.Offered, false, Say($"R {r:0.#} around the outdoor pipe does the heat cable's work without electricity; take one of them, not both."))
            : new(AddOnStand.NotOffered, false, "No usual thickness of insulation keeps this pipe above freezing.");
    }

    private static AddOnVerdict Bypass(PriceItem item, QuoteBasis basis)
    {
        if (NoOutdoorPipe(basis) is { } none) return none;
        if (basis.Freeze is not { } freeze) return NotForecast(AddOnStand.Included, true, basis);
        var needed = item.RecommendedFrom is { } pounds ? (decimal)(freeze.CondensateKgPerDay * PoundsPerKg) >= pounds : freeze.BypassNeeded;
        return new(needed ? AddOnStand.Included : AddOnStand.Offered, needed, freeze.BypassReason);
    }

    private static AddOnVerdict SumpLid(House house) => house.Sump switch
    {
        SumpKind.Open => new(AddOnStand.Included, true, "This house has an open sump."),
        SumpKind.Sealed => new(AddOnStand.NotOffered, false, "The sump is sealed already."),
        _ => new(AddOnStand.NotOffered, false, "The house has no sump."),
    };

    private static AddOnVerdict CritterGuard(PriceItem item, QuoteBasis basis)
    {
        if (!basis.House.UnderTrees) return new(AddOnStand.NotOffered, false, "No trees stand over the roof.");
        if (basis.Freeze is not { } freeze) return new(AddOnStand.Offered, false, "Trees stand over this roof; how much frost a mesh would gather was not forecast.");
        var icy = (decimal)freeze.DaysAtRiskHigh >= (item.RecommendedFrom ?? 1);
        return new(AddOnStand.Offered, !icy, icy
            ? Say($"Trees stand over this roof, but on up to {Whole(freeze.DaysAtRiskHigh)} days a winter ice is foretold, and a mesh ices up sooner than an open mouth: look at it in the cold, or take it off.")
            : "Trees stand over this roof, and hardly any ice is foretold for the mouth.");
    }

    private static AddOnVerdict SecondAlarm(PriceItem item, House house)
    {
        var floors = (decimal)house.StoreysAboveGrade + (house.Areas.Exists(a => a.Kind == FoundationKind.Basement) ? 1 : 0);
        if (floors < 2) return new(AddOnStand.NotOffered, false, Say($"The house has {floors:0.#} floor, so one alarm is heard."));
        return new(AddOnStand.Offered, item.RecommendedFrom is { } from && floors >= from, Say($"The house has {floors:0.#} floors, the basement counted."));
    }

    private static AddOnVerdict BackdraftAlarm(House house)
    {
        var natural = house.Appliances.Where(a => a.Draft == Draft.Natural).Select(a => a.Name).ToList();
        return natural.Count == 0
            ? new(AddOnStand.NotOffered, false, "No appliance of the house draws by the chimney alone.")
            : new(AddOnStand.Offered, true, $"Draws by the chimney alone: {string.Join(", ", natural)}.");
    }

    private static AddOnVerdict LargerPipe(PriceItem item, QuoteBasis basis)
    {
        if (basis.Running is not { FanPressurePa: > 0 } running) return new(AddOnStand.NotOffered, false, "What the pipe takes was not computed.");
        var share = (decimal)((running.FanPressurePa - running.PitVacuumPa) / running.FanPressurePa * 100);
        var takes = Say($"The pipe takes {share:0} % of the pressure of the {running.Model}");
        if (basis.TakeOff.Pipes.Any(p => p.Size == item.PipeSize)) return new(AddOnStand.NotOffered, false, "The design has that pipe already.");
        if (running.SpeedWords is { } speed) return new(AddOnStand.Offered, true, $"{takes}, and the air in it {(speed.StartsWith("too", StringComparison.Ordinal) ? "is " : "")}{speed}.");
        return share >= (item.RecommendedFrom ?? PipeSharePercent)
            ? new(AddOnStand.Offered, true, takes + "; a larger one leaves more for the ground.")
            : new(AddOnStand.NotOffered, false, takes + "; a larger one would gain little.");
    }

    private static AddOnVerdict ExtraSuctionPoint(PriceItem item, QuoteBasis basis)
    {
        // Points beyond the first answer the footings already.
        var several = basis.TakeOff.SuctionPoints > 1;
        var divided = several ? [] : basis.House.Areas.Where(a => a.FootingDivides).Select(a => a.Name).ToList();
        var footing = divided.Count == 0 ? "" : $" A footing divides: {string.Join(", ", divided)}.";
        if (basis.Running is not { WeakestHole: { } hole } running)
            return new(divided.Count > 0 || basis.Report is null ? AddOnStand.Offered : AddOnStand.NotOffered, false, footing.Length > 0 ? footing.Trim() : basis.Report is null ? "" : "What the suction reaches was not computed.");
        var target = item.RecommendedFrom ?? (decimal)basis.Report!.TargetPa;
        var weakest = (decimal)running.WeakestWinterPa;
        var with = several ? Say($" with the {basis.TakeOff.SuctionPoints} suction points of the design") : "";
        var reaches = Say($"In design winter {weakest:0.0} Pa are foretold at hole {hole}{with}, where {target:0.0} Pa are wanted.").Replace("-", "−", StringComparison.Ordinal);
        if (weakest < target) return new(AddOnStand.Offered, true, reaches + footing);
        return divided.Count > 0 || (decimal)running.WeakestWinterLowPa < target
            ? new(AddOnStand.Offered, false, reaches + (footing.Length > 0 ? footing : Say($" As the gauges can be read it may be as little as {running.WeakestWinterLowPa:0.0} Pa.").Replace("-", "−", StringComparison.Ordinal)))
            : new(AddOnStand.NotOffered, false, reaches);
    }

    private static AddOnVerdict? NoOutdoorPipe(QuoteBasis basis) =>
        basis.TakeOff is { IsByHand: false, OutdoorFeet: 0 } ? new(AddOnStand.NotOffered, false, "No pipe of the route is outdoors.") : null;

    private static AddOnVerdict NotForecast(AddOnStand stand, bool recommended, QuoteBasis basis) =>
        new(stand, recommended, basis.Report?.WhyNoFreeze ?? "");

    private static string Whole(double number) => Say($"{Math.Round(number, MidpointRounding.AwayFromZero):0}");

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
