namespace MitigationOffice.Business.Shop.Offers;

public enum OfferFactKind
{
    Number,
    YesNo,
    Words,
}

/// <param name="Name">As a rule writes it.</param>
/// <param name="Words">What it is, with its unit.</param>
public sealed record OfferFact(string Name, OfferFactKind Kind, string Words);

/// <summary>What a rule may look at: a house, its design and its forecast. A fact that nobody knows of a house is missing there.</summary>
public static class OfferFacts
{
    public static readonly IReadOnlyList<OfferFact> All =
    [
        Number("limit", "the line's own “Recommended from”"),
        Number("from_tier", "the choice from which on the line is part of the price; 0: of none"),
        Number("days_at_risk", "days a winter on which ice closes the outdoor pipe; missing without a forecast"),
        Number("days_at_risk_high", "the same at its highest"),
        Number("days_until_shut", "days of hard cold until the pipe is shut"),
        Number("cable_w_per_ft", "heat cable that keeps the pipe open, W per ft; missing where none would do"),
        Number("insulation_r", "insulation that does the cable's work, R; missing where none would do"),
        Number("condensate_lb", "water that runs back onto the fan, pounds a day"),
        YesNo("bypass_needed", "the forecast asks for a condensate bypass"),
        Words("forecast", "what the forecast concludes"),
        Words("bypass_reason", "what the forecast says of a bypass"),
        Words("why_no_forecast", "why there is no forecast"),
        Number("outdoor_ft", "pipe outdoors, ft; missing without a route"),
        Number("pipe_ft", "pipe of the whole route, ft; missing without a route"),
        Number("suction_points", "suction points of the design"),
        Number("several_points", "the same where there is more than one, else missing"),
        Number("pipe_share_percent", "share of the fan's pressure that the pipe takes, percent"),
        YesNo("has_this_pipe", "the design has the pipe size of the line already"),
        Words("pipe_speed", "what there is to say of the air's speed in the pipe"),
        Words("fan_model", "the fan computed with"),
        Number("fan_watts", "what that fan draws, W"),
        YesNo("computed", "the design was computed"),
        Number("weakest_pa", "suction foretold at the weakest hole in design winter, Pa"),
        Number("weakest_low_pa", "the same at its lowest as the gauges can be read"),
        Number("target_pa", "suction the design wants there, Pa"),
        Words("weakest_hole", "the name of that hole"),
        YesNo("sump_open", "the house has an open sump"),
        YesNo("sump_sealed", "the house has a sealed sump"),
        YesNo("sump_on_plan", "a sump pit is drawn on the floor plan"),
        YesNo("under_trees", "trees stand over the roof"),
        YesNo("animals", "animals are a trouble"),
        YesNo("vermiculite", "vermiculite is suspected"),
        YesNo("basement", "the house has a basement"),
        YesNo("crawl_space", "the house has a crawl space"),
        Number("floors", "floors, the basement counted"),
        Number("level_before_pcil", "the highest radon level on record before the work, pCi/L"),
        YesNo("appliances_listed", "what burns fuel or blows air is written down"),
        Words("chimney_appliances", "the appliances that draw by the chimney alone; missing where there are none"),
        Words("footings", "the parts of the house that a footing divides, where one suction point is planned"),
    ];

    private static readonly Dictionary<string, OfferFact> ByName = All.ToDictionary(f => f.Name, StringComparer.OrdinalIgnoreCase);

    public static OfferFact? Find(string name) => ByName.GetValueOrDefault(name);

    private static OfferFact Number(string name, string words) => new(name, OfferFactKind.Number, words);

    private static OfferFact YesNo(string name, string words) => new(name, OfferFactKind.YesNo, words);

    private static OfferFact Words(string name, string words) => new(name, OfferFactKind.Words, words);
}
