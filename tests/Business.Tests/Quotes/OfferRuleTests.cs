using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Shop.Offers;

namespace MitigationOffice.Business.Tests.Quotes;

/// <summary>When an addition is included, offered or not offered: rules that the owner writes.</summary>
public sealed class OfferRuleTests
{
    private static readonly FreezeResult Icy = new()
    {
        Conclusion = "Ice is foretold.", DaysAtRisk = 6, DaysAtRiskLow = 2, DaysAtRiskHigh = 14.4, OutdoorM = 6, CableWPerFt = 5, InsulationR = 2, BypassNeeded = true, BypassReason = "Water runs back.", CondensateKgPerDay = 0.5, DaysUntilShut = 9,
        Assumptions = [], Warnings = [], Cautions = [], Sources = [],
    };

    private static QuoteBasis Basis(FreezeResult? freeze = null, FanResult? running = null)
    {
        var house = new House { Street = "1 Elm", City = "Birchford", State = "MN", Zip = "55999", Sump = SumpKind.Open, AnimalsTrouble = true };
        house.Areas.Add(new FoundationArea { Name = "Crawl [east]", Kind = FoundationKind.CrawlSpace, FootingDivides = true });
        house.Appliances.Add(new Appliance { Name = "Heater {old}", Draft = Draft.Natural });
        house.EarlierTests.AddRange([new EarlierTest { PCiL = 9.4m }, new EarlierTest { PCiL = 12.6m }]);
        var report = new DesignReport
        {
            EngineVersion = "1", Recommendation = "", ShownFan = running?.Model, TargetPa = 1, DesignWinterC = -25, WinterLossPa = 1, Soil = new() { Conductance = 1, Exponent = 0.6, ExponentAssumed = true, Settings = [], Holes = [] },
            Fans = running is null ? [] : [running], Losses = [], SystemCurve = [], Freeze = freeze, WhyNoFreeze = freeze is null ? "It does not reach this case." : null, Assumptions = [], Warnings = [], Origins = [],
        };
        return new(new CompanyProfile(), house, TakeOff.Of([new() { Position = 1, Kind = PieceKind.Pipe, LengthM = 3.048, Place = PiecePlace.Outdoors }])) { Report = report };
    }

    private static readonly FanResult Running = new() { Model = "Test 9", Holds = true, Why = "", OnCurve = true, FanPressurePa = 200, PitVacuumPa = 120, Watts = 61, WeakestHole = "4", WeakestWinterPa = -0.4, WeakestWinterLowPa = -1, SpeedWords = "too fast" };

    private static PriceItem Own(string rule, decimal? limit = null) => new() { Code = "X", Name = "X", Use = PriceUse.AddOn, OwnRule = rule, RecommendedFrom = limit, PipeSize = "4in" };

    private static AddOnVerdict Judged(string rule, QuoteBasis basis, decimal? limit = null)
    {
        Assert.Empty(ReadOfferRule.Of(rule).Problems);
        return JudgeAddOn.Of(Own(rule, limit), basis);
    }

    [Fact]
    public void Every_fact_a_rule_may_look_at_is_known_of_some_house()
    {
        var known = AddOnFacts.Of(Own("", 3), Basis(Icy, Running)).Keys.Concat(AddOnFacts.Of(Own(""), Basis()).Keys).Append("several_points").ToHashSet();
        Assert.Equal(OfferFacts.All.Select(f => f.Name).Order(), known.Order());
        Assert.All(AddOnFacts.Of(Own("", 3), Basis(Icy, Running)), f => Assert.Equal(OfferFacts.Find(f.Key)!.Kind, f.Value switch { decimal => OfferFactKind.Number, bool => OfferFactKind.YesNo, _ => OfferFactKind.Words }));
    }

    [Fact]
    public void An_owner_s_own_addition_is_judged_by_any_fact_and_the_first_line_that_holds_decides()
    {
        const string rule = """
            not offered when crawl_space is no: No crawl space.
            included, recommended when crawl_space is yes and level_before_pcil >= limit or 20: {level_before_pcil:0.0} pCi/L were measured over a crawl space.
            offered when computed is yes
            """;
        Assert.Equal(new AddOnVerdict(AddOnStand.Included, true, "12.6 pCi/L were measured over a crawl space."), Judged(rule, Basis(), 12));
        Assert.Equal(new AddOnVerdict(AddOnStand.Offered, false, ""), Judged(rule, Basis()));
        var dry = Basis();
        dry.House.Areas.Clear();
        Assert.Equal(new AddOnVerdict(AddOnStand.NotOffered, false, "No crawl space."), Judged(rule, dry));
        Assert.Equal(AddOnStand.NotOffered, Judged("offered when crawl_space is no", Basis()).Stand);
    }

    [Fact]
    public void What_nobody_knows_is_missing_and_no_comparison_with_it_holds()
    {
        const string rule = "included when days_at_risk < 1\nincluded when days_at_risk >= 0\noffered when days_at_risk is missing: {why_no_forecast}";
        Assert.Equal(new AddOnVerdict(AddOnStand.Offered, false, "It does not reach this case."), Judged(rule, Basis()));
        Assert.Equal(AddOnStand.Included, Judged(rule, Basis(Icy)).Stand);
        Assert.Equal(AddOnStand.NotOffered, Judged("offered when outdoor_ft < limit", Basis()).Stand);
    }

    /// <summary>What a fact says is put in as it is, braces and brackets too; a minus is one.</summary>
    [Fact]
    public void A_sentence_shows_its_facts_and_leaves_out_a_part_whose_fact_is_missing()
    {
        Assert.Equal("Heater {old} and Crawl [east], yes, up to 14 days, −0.4 Pa, 20.", Judged("offered: {chimney_appliances} and {footings}, {animals}, up to {days_at_risk_high:0} days, {weakest_pa:0.0} Pa, {limit or 20}.", Basis(Icy, Running)).Why);
        Assert.Equal("Always.", Judged("offered: Always.[ With {days_at_risk:0} days at {outdoor_ft} ft.]", Basis()).Why);
        Assert.Equal("Always. With 6 days at 10 ft.", Judged("offered: Always.[ With {days_at_risk:0} days at {outdoor_ft} ft.]", Basis(Icy)).Why);
    }

    [Theory]
    [InlineData("", "The rule has no line.")]
    [InlineData("offered\nincluded when dayz > 3", "Line 2 of the rule: there is no fact “dayz”. The page of a price line lists")]
    [InlineData("offered when days_at_risk > 3o", "“3o” is no number; write it as 33 or 0.5.")]
    [InlineData("offered when days_at_risk > 1,5", "“1,5” is no number")]
    [InlineData("offered when days_at_risk >", "“” is no number")]
    [InlineData("offered when days_at_risk > 99999999", "99999999 is beyond 1000000.")]
    [InlineData("offered when days_at_risk > forecast", "“forecast” is no number.")]
    [InlineData("offered when days_at_risk", "“days_at_risk” is no condition.")]
    [InlineData("offered when sump_open > 1", "“sump_open” is no number and cannot be compared with one.")]
    [InlineData("offered when days_at_risk is yes", "“days_at_risk” is no matter of yes and no.")]
    [InlineData("offered when sump_open is yes 3", "“3” behind “is yes” says nothing")]
    [InlineData("maybe when sump_open is yes", "does not begin with “included”, “offered” or “not offered”")]
    [InlineData("not offered, recommended", "What is not offered cannot be recommended.")]
    [InlineData("offered: up to {dayz} days", "there is no fact “dayz”.")]
    [InlineData("offered: up to {days_at_risk:F9} days", "asks for no form of a number")]
    [InlineData("offered: up to {days_at_risk days", "A brace in its sentence is not closed")]
    [InlineData("offered: so[ and so", "A square bracket in its sentence is not closed")]
    public void What_cannot_be_a_rule_is_refused_in_words(string rule, string words) =>
        Assert.Contains(words, string.Join('\n', ReadOfferRule.Of(rule).Problems), StringComparison.Ordinal);

    [Fact]
    public void A_rule_as_it_came_with_the_program_is_not_kept_and_goes_with_its_kind()
    {
        foreach (var reason in Enum.GetValues<OfferReason>()) Assert.Equal("", ShippedRules.Kept(ShippedRules.TextOf(reason).Replace("\n", " \r\n", StringComparison.Ordinal)));
        Assert.Equal("offered\nnot offered", ShippedRules.Kept("\r\n offered \r\n\r\nnot offered"));
    }

    [Fact]
    public void A_rule_goes_out_in_the_price_file_and_comes_in_again_and_a_wrong_one_is_refused_by_line()
    {
        var item = Own("offered, recommended when under_trees is yes: Look, up there.\nnot offered");
        var (items, problems) = PriceBookFile.Read(PriceBookFile.Write([item]));
        Assert.Empty(problems);
        Assert.Equal(item.OwnRule, Assert.Single(items).OwnRule);
        item.OwnRule = "offered when dayz > 3";
        Assert.Contains("“own_rule”: Line 1 of the rule: there is no fact “dayz”.", Assert.Single(PriceBookFile.Read(PriceBookFile.Write([item])).Problems), StringComparison.Ordinal);
    }
}
