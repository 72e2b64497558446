using MitigationOffice.Business.Design;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Pages.Shop;

/// <summary>How a design takes an item of the price book, as the pages say it.</summary>
public static class PriceWords
{
    private static readonly (TakenBy Value, string Words)[] Counted =
    [
        (Business.Shop.TakenBy.Job, "once a job"), (Business.Shop.TakenBy.PipeFoot, "by the foot of pipe"), (Business.Shop.TakenBy.PipeLength, "by the 10 ft length bought"),
        (Business.Shop.TakenBy.OutdoorFoot, "by the foot outdoors"), (Business.Shop.TakenBy.Fitting, "by the fitting"), (Business.Shop.TakenBy.Elbow, "by the elbow"), (Business.Shop.TakenBy.Tee, "by the tee"),
        (Business.Shop.TakenBy.Coupling, "by the coupling"), (Business.Shop.TakenBy.Reducer, "by the reducer"), (Business.Shop.TakenBy.Support, "by the support"), (Business.Shop.TakenBy.Fan, "by the fan"),
        (Business.Shop.TakenBy.WallPassage, "where it leaves through a wall"), (Business.Shop.TakenBy.RoofPassage, "where it leaves through the roof"), (Business.Shop.TakenBy.GaragePassage, "where it enters the garage"),
        (Business.Shop.TakenBy.SuctionPoint, "by the suction point"), (Business.Shop.TakenBy.Hour, "by the hour of labor"), (Business.Shop.TakenBy.Hand, "never by itself"),
    ];

    private static readonly (OfferReason Value, string Words, string Unit)[] Wanted =
    [
        (OfferReason.Always, "always", ""),
        (OfferReason.FreezeGuard, "ice is foretold: heat cable", "Days a winter at risk; empty: 1."),
        (OfferReason.Insulation, "ice is foretold and no cable would do", "Days a winter at risk; empty: 1."),
        (OfferReason.CondensateBypass, "water runs onto the fan", "Pounds of water a day; empty: as the forecast says."),
        (OfferReason.SumpLid, "the sump is open", ""),
        (OfferReason.CritterGuard, "trees stand over the roof or animals are a trouble", "Days a winter at risk of ice from which it is advised against; empty: 1."),
        (OfferReason.SecondAlarm, "there are two floors or more", "Floors, the basement counted; empty: never."),
        (OfferReason.BackdraftAlarm, "an appliance draws by the chimney", ""),
        (OfferReason.LargerPipe, "the pipe takes much of the pressure", "Percent of the fan's pressure; empty: 33."),
        (OfferReason.ExtraSuctionPoint, "the suction does not reach", "Pa at the weakest hole in design winter; empty: the design's target."),
    ];

    public static readonly IReadOnlyList<(string Value, string Words)> TakenBy = [.. Counted.Select(c => ($"{c.Value}", c.Words))];
    public static readonly IReadOnlyList<(string Value, string Words)> Reasons = [.. Wanted.Select(c => ($"{c.Value}", c.Words))];
    public static readonly IReadOnlyList<(string Value, string Words)> PipeSizes = [("", "every size"), .. PipeChoices.All];

    public static IReadOnlyList<(string Value, string Words)> FromTier(CompanyProfile company) =>
        [("1", "all choices"), ("2", $"“{company.SecondTierName}” and “{company.ThirdTierName}”"), ("3", $"“{company.ThirdTierName}”"), ("0", "no choice")];

    public static string Of(TakenBy takenBy) => Counted.First(c => c.Value == takenBy).Words;

    public static string Of(OfferReason reason) => "when " + Wanted.First(c => c.Value == reason).Words;

    public static string UnitOf(OfferReason reason) => Wanted.First(c => c.Value == reason).Unit is { Length: > 0 } unit ? unit : "In the unit of what it is wanted for.";

    public static string Choices(int fromTier) => fromTier switch { 1 => "1, 2, 3", 2 => "2, 3", 3 => "3", _ => "–" };
}
