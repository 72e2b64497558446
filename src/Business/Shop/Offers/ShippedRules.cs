namespace MitigationOffice.Business.Shop.Offers;

/// <summary>The rule of each kind of addition, which holds for every item of the price book that has none of its own. The numbers in them are house rules.</summary>
public static class ShippedRules
{
    private const string NoOutdoorPipe = "not offered when outdoor_ft = 0: No pipe of the route is outdoors.";
    private const string Reaches = "In design winter {weakest_pa:0.0} Pa are foretold at hole {weakest_hole}[ with the {several_points} suction points of the design], where {limit or target_pa:0.0} Pa are wanted.";

    private static readonly Dictionary<OfferReason, string> Texts = new()
    {
        [OfferReason.Always] = """
            included, recommended when from_tier > 0
            offered
            """,
        // Where no cable would do, the forecast speaks for insulation; never for both.
        [OfferReason.FreezeGuard] = $$"""
            {{NoOutdoorPipe}}
            included, recommended when days_at_risk is missing: {why_no_forecast}
            not offered when cable_w_per_ft is missing and days_at_risk >= 1: {forecast}
            included, recommended when days_at_risk_high >= limit or 1: {forecast}
            included: {forecast}
            """,
        [OfferReason.Insulation] = $$"""
            {{NoOutdoorPipe}}
            offered when days_at_risk is missing: {why_no_forecast}
            included, recommended when cable_w_per_ft is missing and days_at_risk >= 1 and days_at_risk >= limit or 1: {forecast}
            included when cable_w_per_ft is missing and days_at_risk >= 1: {forecast}
            not offered when days_at_risk_high < 1: {forecast}
            offered when insulation_r is there: R {insulation_r:0.#} around the outdoor pipe does the heat cable's work without electricity; take one of them, not both.
            not offered: No usual thickness of insulation keeps this pipe above freezing.
            """,
        [OfferReason.CondensateBypass] = $$"""
            {{NoOutdoorPipe}}
            included, recommended when days_at_risk is missing: {why_no_forecast}
            included, recommended when condensate_lb >= limit: {bypass_reason}
            included, recommended when limit is missing and bypass_needed is yes: {bypass_reason}
            offered: {bypass_reason}
            """,
        [OfferReason.SumpLid] = """
            included, recommended when sump_open is yes: This house has an open sump.
            not offered when sump_sealed is yes: The sump is sealed already.
            offered, recommended when sump_on_plan is yes: The floor plan has a sump pit; the inquiry does not say whether it is sealed.
            not offered: The house has no sump.
            """,
        [OfferReason.CritterGuard] = """
            not offered when under_trees is no and animals is no: No trees stand over the roof, and no animals are a trouble.
            offered when days_at_risk is missing and under_trees is yes: Trees stand over this roof; how much frost a mesh would gather was not forecast.
            offered when days_at_risk is missing: Animals are a trouble here; how much frost a mesh would gather was not forecast.
            offered when days_at_risk_high >= limit or 1 and under_trees is yes: Trees stand over this roof, but on up to {days_at_risk_high:0} days a winter ice is foretold, and a mesh ices up sooner than an open mouth: look at it in the cold, or take it off.
            offered when days_at_risk_high >= limit or 1: Animals are a trouble here, but on up to {days_at_risk_high:0} days a winter ice is foretold, and a mesh ices up sooner than an open mouth: look at it in the cold, or take it off.
            offered, recommended when under_trees is yes: Trees stand over this roof, and hardly any ice is foretold for the mouth.
            offered, recommended: Animals are a trouble here, and hardly any ice is foretold for the mouth.
            """,
        [OfferReason.SecondAlarm] = """
            not offered when floors < 2: The house has {floors:0.#} floor, so one alarm is heard.
            offered, recommended when floors >= limit: The house has {floors:0.#} floors, the basement counted.
            offered: The house has {floors:0.#} floors, the basement counted.
            """,
        [OfferReason.BackdraftAlarm] = """
            offered, recommended when chimney_appliances is there: Draws by the chimney alone: {chimney_appliances}.
            not offered when appliances_listed is no: No furnace, heater or other appliance is written down for this house.
            not offered: No appliance of the house draws by the chimney alone.
            """,
        [OfferReason.LargerPipe] = """
            not offered when pipe_share_percent is missing: What the pipe takes was not computed.
            not offered when has_this_pipe is yes: The design has that pipe already.
            offered, recommended when pipe_speed is there: The pipe takes {pipe_share_percent:0} % of the pressure of the {fan_model}, and the air in it {pipe_speed}.
            offered, recommended when pipe_share_percent >= limit or 33: The pipe takes {pipe_share_percent:0} % of the pressure of the {fan_model}; a larger one leaves more for the ground.
            not offered: The pipe takes {pipe_share_percent:0} % of the pressure of the {fan_model}; a larger one would gain little.
            """,
        // Points beyond the first answer the footings already.
        [OfferReason.ExtraSuctionPoint] = $$"""
            offered when weakest_pa is missing and footings is there: A footing divides: {footings}.
            offered when weakest_pa is missing and computed is no
            not offered when weakest_pa is missing: What the suction reaches was not computed.
            offered, recommended when weakest_pa < limit or target_pa: {{Reaches}}[ A footing divides: {footings}.]
            offered when footings is there: {{Reaches}} A footing divides: {footings}.
            offered when weakest_low_pa < limit or target_pa: {{Reaches}} As the gauges can be read it may be as little as {weakest_low_pa:0.0} Pa.
            not offered: {{Reaches}}
            """,
    };

    private static readonly Dictionary<OfferReason, OfferRule> Read = Texts.ToDictionary(t => t.Key, t => ReadOfferRule.Of(t.Value) is { Rule: { } rule } read ? rule : throw new InvalidOperationException(string.Join(' ', ReadOfferRule.Of(t.Value).Problems)));

    public static string TextOf(OfferReason reason) => Texts[reason].ReplaceLineEndings("\n");

    /// <summary>The item's own rule, else that of its kind.</summary>
    public static OfferRule Of(PriceItem item) => item.OwnRule.Length > 0 && ReadOfferRule.Of(item.OwnRule).Rule is { } own ? own : Read[item.OfferedFor];

    public static string TextOf(PriceItem item) => item.OwnRule.Length > 0 ? item.OwnRule : TextOf(item.OfferedFor);

    /// <summary>A rule as it is kept: its lines trimmed, empty where it is that of a kind, which then goes with the kind.</summary>
    public static string Kept(string typed)
    {
        var text = string.Join('\n', typed.Split('\n', StringSplitOptions.TrimEntries).Where(l => l.Length > 0));
        return Texts.Values.Any(t => t.ReplaceLineEndings("\n") == text) ? "" : text;
    }
}
