namespace MitigationOffice.Business.Shop;

/// <summary>For a price book from before these columns: how an item is taken, read off its name and unit.</summary>
public static class GuessTaking
{
    private static readonly (OfferReason Reason, string[] Words)[] Known =
    [
        (OfferReason.Insulation, ["insulat"]),
        (OfferReason.FreezeGuard, ["freeze", "frost", "heat cable", "heating cable", "heat trace", "winter", "ice "]),
        (OfferReason.CondensateBypass, ["condensate", "bypass", "drain"]),
        (OfferReason.SumpLid, ["sump", "water alarm"]),
        (OfferReason.CritterGuard, ["critter", "animal", "bird", "squirrel"]),
        (OfferReason.SecondAlarm, ["second alarm"]),
        (OfferReason.BackdraftAlarm, ["carbon monoxide"]),
        (OfferReason.ExtraSuctionPoint, ["second suction", "further suction", "extra suction"]),
    ];

    public static OfferReason ReasonOf(PriceItem item) => item.Use == PriceUse.Part ? OfferReason.Always : Known.FirstOrDefault(k => Named(item, k.Words)).Reason;

    public static int FromTierOf(PriceItem item) => item.Use == PriceUse.Part ? 1 : ReasonOf(item) switch
    {
        OfferReason.FreezeGuard or OfferReason.Insulation => 3,
        OfferReason.CondensateBypass or OfferReason.SumpLid => 2,
        _ => 0,
    };

    public static TakenBy TakenByOf(PriceItem item) =>
        item.Unit == "ft" ? item.Use == PriceUse.AddOn ? TakenBy.OutdoorFoot : TakenBy.PipeFoot
        : item.Unit is "hour" or "h" ? TakenBy.Hour
        : Named(item, ["elbow", "fitting"]) ? TakenBy.Fitting
        : TakenBy.Job;

    private static bool Named(PriceItem item, string[] words) => words.Any(w => item.Name.Contains(w, StringComparison.OrdinalIgnoreCase));
}
