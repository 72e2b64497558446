using MitigationOffice.Engineering.Siting;
using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Tests.Siting;

public class DischargeSitingTests
{
    private static readonly SitingRuleSet Pennsylvania = SitingRuleSets.Get("us-pa");
    private static readonly SitingRuleSet Epa = SitingRuleSets.Get("us-epa-1994");
    private static readonly SitingRuleSet Irc = SitingRuleSets.Get("us-irc-af103");
    private static readonly SitingRuleSet Harmonised = SitingRuleSets.Get("us-rms-mf-2018");

    private static readonly DischargeSite Good = new()
    {
        HeightAboveGradeFt = 12m,
        Mounting = DischargeMounting.ThroughPitchedRoof,
        AboveRoofIn = 12m,
        Openings = [],
        AdjacentBuildings = [],
        Walls = [],
        FromVerticalDeg = 0m,
        HasRainCap = false,
        Fan = FanLocation.Attic,
    };

    private static SitingOutcome Rule(string id, DischargeSite site, SitingRuleSet set) =>
        DischargeSiting.Judge(site, set).Findings.Single(finding => finding.RuleId == id).Outcome;

    // Source: 25 Pa. Code 240.308(b): 10 ft from an opening unless 2 ft above its top; exact edges by the text.
    [Theory]
    [InlineData(9.0, 1.0, SitingOutcome.Failed)]
    [InlineData(9.0, 2.5, SitingOutcome.Passed)]
    [InlineData(9.0, 2.0, SitingOutcome.Passed)]
    [InlineData(9.0, 1.99, SitingOutcome.Failed)]
    [InlineData(10.0, 1.0, SitingOutcome.Passed)]
    [InlineData(9.99, 1.0, SitingOutcome.Failed)]
    [InlineData(9.0, -3.0, SitingOutcome.Failed)]
    [InlineData(9.0, null, SitingOutcome.NotEnoughData)]
    [InlineData(10.0, null, SitingOutcome.Passed)]
    public void A_window_is_far_enough_away_or_far_enough_below(double distanceFt, double? topBelowFt, SitingOutcome outcome)
    {
        var site = Good with { Openings = [new("Kitchen window", OpeningKind.Window, (decimal)distanceFt, (decimal?)topBelowFt)] };
        Assert.Equal(outcome, DischargeSiting.Judge(site, Pennsylvania).Outcome);
        Assert.Equal(outcome, Rule("openings", site, Epa));
        Assert.Equal(outcome, Rule("openings", site, Irc));
    }

    // Source: 25 Pa. Code 240.308(b): a chimney is not an opening.
    [Fact]
    public void A_chimney_is_no_opening_in_Pennsylvania()
    {
        var site = Good with { Openings = [new("Chimney", OpeningKind.Chimney, 3m, -2m)] };
        Assert.Equal(SitingOutcome.Passed, Rule("openings", site, Pennsylvania));
        Assert.Equal(SitingOutcome.Failed, Rule("openings", site, Epa));
    }

    [Fact]
    public void A_failing_window_counts_before_an_unmeasured_one()
    {
        var site = Good with { Openings = [new("Door", OpeningKind.Door, 5m, null), new("Window", OpeningKind.Window, 6m, 0.5m)] };
        var finding = DischargeSiting.Judge(site, Pennsylvania).Findings.Single(found => found.RuleId == "openings");
        Assert.Equal(SitingOutcome.Failed, finding.Outcome);
        Assert.Equal("Window is 6 ft away and its top 0.5 ft below the discharge.", finding.Why);
    }

    // Source: 25 Pa. Code 240.308(b), EPA 402-R-93-078 14.2.8 (from memory), IRC AF103: 12 in over the roof; RMS-MF 2018, 6.4.9 to 6.4.11: 1 ft pitched, 18 in flat.
    [Theory]
    [InlineData("us-pa", DischargeMounting.ThroughPitchedRoof, 11.0, SitingOutcome.Failed)]
    [InlineData("us-pa", DischargeMounting.ThroughPitchedRoof, 12.0, SitingOutcome.Passed)]
    [InlineData("us-pa", DischargeMounting.ThroughFlatRoof, 12.0, SitingOutcome.Passed)]
    [InlineData("us-epa-1994", DischargeMounting.ThroughPitchedRoof, 11.9, SitingOutcome.Failed)]
    [InlineData("us-epa-1994", DischargeMounting.ThroughFlatRoof, 12.0, SitingOutcome.Passed)]
    [InlineData("us-irc-af103", DischargeMounting.ThroughPitchedRoof, 11.0, SitingOutcome.Failed)]
    [InlineData("us-irc-af103", DischargeMounting.ThroughFlatRoof, 12.0, SitingOutcome.Passed)]
    [InlineData("us-rms-mf-2018", DischargeMounting.ThroughPitchedRoof, 12.0, SitingOutcome.Passed)]
    [InlineData("us-rms-mf-2018", DischargeMounting.ThroughFlatRoof, 17.9, SitingOutcome.Failed)]
    [InlineData("us-rms-mf-2018", DischargeMounting.ThroughFlatRoof, 18.0, SitingOutcome.Passed)]
    [InlineData("us-pa", DischargeMounting.SideOfHouse, null, SitingOutcome.DoesNotApply)]
    [InlineData("us-pa", DischargeMounting.ThroughPitchedRoof, null, SitingOutcome.NotEnoughData)]
    [InlineData("us-pa", null, 20.0, SitingOutcome.NotEnoughData)]
    public void A_pipe_through_the_roof_ends_well_above_it(string set, DischargeMounting? mounting, double? aboveIn, SitingOutcome outcome) =>
        Assert.Equal(outcome, Rule("roof", Good with { Mounting = mounting, AboveRoofIn = (decimal?)aboveIn }, SitingRuleSets.Get(set)));

    // Source: 25 Pa. Code 240.308(b): above the immediate roof edge; RMS-MF 2018, 6.4.9 to 6.4.11: 6 in above the edge, 20 ft above grade below it.
    [Theory]
    [InlineData("us-pa", 0.0, 30.0, SitingOutcome.Failed)]
    [InlineData("us-pa", 0.5, 30.0, SitingOutcome.Passed)]
    [InlineData("us-epa-1994", -1.0, 30.0, SitingOutcome.Failed)]
    [InlineData("us-epa-1994", 1.0, 12.0, SitingOutcome.Passed)]
    [InlineData("us-rms-mf-2018", 6.0, 12.0, SitingOutcome.Passed)]
    [InlineData("us-rms-mf-2018", 5.9, 12.0, SitingOutcome.Failed)]
    [InlineData("us-rms-mf-2018", 0.0, 25.0, SitingOutcome.Failed)]
    [InlineData("us-rms-mf-2018", -1.0, 20.0, SitingOutcome.Passed)]
    [InlineData("us-rms-mf-2018", -1.0, 19.9, SitingOutcome.Failed)]
    [InlineData("us-rms-mf-2018", -1.0, null, SitingOutcome.NotEnoughData)]
    [InlineData("us-rms-mf-2018", null, 25.0, SitingOutcome.NotEnoughData)]
    public void A_pipe_on_the_side_ends_above_the_roof_edge(string set, double? aboveEdgeIn, double? heightFt, SitingOutcome outcome)
    {
        var site = Good with { Mounting = DischargeMounting.SideOfHouse, AboveRoofIn = null, AboveRoofEdgeIn = (decimal?)aboveEdgeIn, HeightAboveGradeFt = (decimal?)heightFt };
        Assert.Equal(outcome, Rule("roof-edge", site, SitingRuleSets.Get(set)));
        Assert.Equal(SitingOutcome.DoesNotApply, Rule("roof-edge", site with { Mounting = DischargeMounting.ThroughFlatRoof }, SitingRuleSets.Get(set)));
        Assert.Equal(SitingOutcome.NotEnoughData, Rule("roof-edge", site with { Mounting = null }, SitingRuleSets.Get(set)));
    }

    // Source: 25 Pa. Code 240.308(b): 10 ft above grade; a 45 degree elbow allowed; no rain cap; 5 ft from a rising wall.
    [Theory]
    [InlineData(10.0, SitingOutcome.Passed)]
    [InlineData(9.99, SitingOutcome.Failed)]
    [InlineData(null, SitingOutcome.NotEnoughData)]
    public void The_discharge_is_ten_feet_above_grade(double? heightFt, SitingOutcome outcome) =>
        Assert.Equal(outcome, Rule("height", Good with { HeightAboveGradeFt = (decimal?)heightFt }, Pennsylvania));

    [Theory]
    [InlineData(0.0, SitingOutcome.Passed)]
    [InlineData(45.0, SitingOutcome.Passed)]
    [InlineData(46.0, SitingOutcome.Failed)]
    [InlineData(180.0, SitingOutcome.Failed)]
    [InlineData(null, SitingOutcome.NotEnoughData)]
    public void The_discharge_points_upward(double? degrees, SitingOutcome outcome)
    {
        var site = Good with { FromVerticalDeg = (decimal?)degrees };
        Assert.Equal(outcome, Rule("direction", site, Pennsylvania));
        Assert.Equal(outcome, Rule("direction", site, Harmonised));
    }

    [Fact]
    public void A_direction_that_is_only_advised_does_not_fail_the_whole()
    {
        var report = DischargeSiting.Judge(Good with { FromVerticalDeg = 90m }, Epa);
        var finding = report.Findings.Single(found => found.RuleId == "direction");
        Assert.Equal(SitingOutcome.Failed, finding.Outcome);
        Assert.True(finding.IsAdvisory);
        Assert.Equal(SitingOutcome.Passed, report.Outcome);
    }

    [Theory]
    [InlineData(true, SitingOutcome.Failed)]
    [InlineData(false, SitingOutcome.Passed)]
    [InlineData(null, SitingOutcome.NotEnoughData)]
    public void A_rain_cap_fails(bool? cap, SitingOutcome outcome) =>
        Assert.Equal(outcome, DischargeSiting.Judge(Good with { HasRainCap = cap }, Pennsylvania).Outcome);

    [Theory]
    [InlineData(4.9, 1.0, SitingOutcome.Failed)]
    [InlineData(5.0, 1.0, SitingOutcome.Passed)]
    [InlineData(4.9, 0.0, SitingOutcome.Passed)]
    [InlineData(4.9, -1.0, SitingOutcome.Passed)]
    public void A_wall_that_rises_above_is_five_feet_away(double distanceFt, double riseFt, SitingOutcome outcome) =>
        Assert.Equal(outcome, Rule("rising-wall", Good with { Walls = [new("Gable", (decimal)distanceFt, (decimal)riseFt)] }, Pennsylvania));

    // Source: 25 Pa. Code 240.308(b): 10 ft from adjacent buildings; EPA 402-R-93-078, 14.2.8, from memory: from their openings.
    [Theory]
    [InlineData(9.9, 12.0, SitingOutcome.Failed, SitingOutcome.Passed)]
    [InlineData(10.0, null, SitingOutcome.Passed, SitingOutcome.Passed)]
    [InlineData(8.0, 9.9, SitingOutcome.Failed, SitingOutcome.Failed)]
    [InlineData(8.0, 10.0, SitingOutcome.Failed, SitingOutcome.Passed)]
    [InlineData(8.0, null, SitingOutcome.Failed, SitingOutcome.NotEnoughData)]
    public void A_building_next_door_is_ten_feet_away(double distanceFt, double? openingFt, SitingOutcome pennsylvania, SitingOutcome epa)
    {
        var site = Good with { AdjacentBuildings = [new("Shed", (decimal)distanceFt, (decimal?)openingFt)] };
        Assert.Equal(pennsylvania, Rule("adjacent", site, Pennsylvania));
        Assert.Equal(epa, Rule("adjacent", site, Epa));
    }

    // Source: 25 Pa. Code 240.308(c).
    [Theory]
    [InlineData(FanLocation.Outdoors, SitingOutcome.Passed, "The fan stands outdoors.")]
    [InlineData(FanLocation.Attic, SitingOutcome.Passed, "The fan stands in the attic.")]
    [InlineData(FanLocation.Garage, SitingOutcome.Passed, "The fan stands in the garage.")]
    [InlineData(FanLocation.GarageUnderLivingSpace, SitingOutcome.Failed, "The fan stands in a garage under living space.")]
    [InlineData(FanLocation.ConditionedSpace, SitingOutcome.Failed, "The fan stands in conditioned space.")]
    [InlineData(FanLocation.Basement, SitingOutcome.Failed, "The fan stands in the basement.")]
    [InlineData(FanLocation.CrawlSpaceUnderLivingSpace, SitingOutcome.Failed, "The fan stands in a crawl space under living space.")]
    [InlineData(FanLocation.WindowWell, SitingOutcome.Failed, "The fan stands in a window well.")]
    [InlineData(FanLocation.BelowGrade, SitingOutcome.Failed, "The fan stands below grade.")]
    public void The_fan_stands_where_it_may(FanLocation fan, SitingOutcome outcome, string why)
    {
        var finding = DischargeSiting.Judge(Good with { Fan = fan }, Pennsylvania).Findings.Single(found => found.RuleId == "fan");
        Assert.Equal((outcome, why), (finding.Outcome, finding.Why));
    }

    [Fact]
    public void Nothing_measured_is_not_enough_data_for_every_rule()
    {
        foreach (var set in SitingRuleSets.All)
        {
            var report = DischargeSiting.Judge(new DischargeSite(), set);
            Assert.Equal(SitingOutcome.NotEnoughData, report.Outcome);
            Assert.All(report.Findings, finding => Assert.Equal(SitingOutcome.NotEnoughData, finding.Outcome));
            Assert.All(report.Findings, finding => Assert.StartsWith("Not enough data: ", finding.Why, StringComparison.Ordinal));
        }
    }

    [Fact]
    public void A_good_site_passes_every_rule_set()
    {
        foreach (var set in SitingRuleSets.All)
            Assert.Equal(SitingOutcome.Passed, DischargeSiting.Judge(Good with { AboveRoofIn = 18m }, set).Outcome);
    }

    [Fact]
    public void Every_finding_carries_the_citation_of_its_rule()
    {
        var report = DischargeSiting.Judge(Good, Epa);
        Assert.Equal(new Citation("EPA 402-R-93-078, 14.3", Certainty.FromMemory), report.Findings.Single(found => found.RuleId == "fan").Source);
        Assert.Equal(new Citation("EPA 402-R-93-078, 14.2.8 and 14.3", Certainty.FromMemory), report.Findings.Single(found => found.RuleId == "height").Source);
        Assert.Equal(Certainty.Published, DischargeSiting.Judge(Good, Pennsylvania).Findings[0].Source.Certainty);
        Assert.Equal(Epa.Rules.Select(rule => rule.Text), report.Findings.Select(found => found.Rule));
    }

    [Fact]
    public void What_was_found_is_said_in_feet_and_inches()
    {
        var site = Good with
        {
            HeightAboveGradeFt = 9.5m,
            AboveRoofIn = 11m,
            AdjacentBuildings = [new("Shed", 8.25m, 9m)],
            Walls = [new("Gable", 3m, 2.5m)],
            Openings = [new("Vent", OpeningKind.AirIntake, 4m, null)],
        };
        Assert.Equal(
        [
            "The discharge is 9.5 ft above grade.",
            "Not enough data: how far the top of Vent lies below the discharge was not measured.",
            "Shed is 8.25 ft away.",
            "The discharge is 11 in above the roof; 12 in are needed.",
            "The pipe comes through the roof.",
            "The discharge points 0 degrees away from straight up.",
            "There is no rain cap.",
            "Gable is 3 ft away and rises 2.5 ft above the discharge.",
            "The fan stands in the attic.",
        ],
        DischargeSiting.Judge(site, Pennsylvania).Findings.Select(finding => finding.Why));
        Assert.Equal("An opening of Shed is 9 ft away.", DischargeSiting.Judge(site, Epa).Findings.Single(found => found.RuleId == "adjacent").Why);
    }

    [Fact]
    public void Measurements_out_of_range_are_refused()
    {
        Refused(Good with { HeightAboveGradeFt = 1001m }, "The height above grade is 1001 ft");
        Refused(Good with { AboveRoofIn = 12_001m }, "The height above the roof is 12001 in");
        Refused(Good with { AboveRoofEdgeIn = -12_001m }, "The height above the roof edge is -12001 in");
        Refused(Good with { FromVerticalDeg = 181m }, "The angle from straight up is 181 degrees");
        Refused(Good with { Openings = [new("Door", OpeningKind.Door, -1m, null)] }, "The distance from Door is -1 ft");
        Refused(Good with { Openings = [new("Door", OpeningKind.Door, 1m, 1001m)] }, "The top of Door below the discharge is 1001 ft");
        Refused(Good with { AdjacentBuildings = [new("Shed", -1m)] }, "The distance from Shed is -1 ft");
        Refused(Good with { AdjacentBuildings = [new("Shed", 1m, -1m)] }, "The distance from the nearest opening of Shed is -1 ft");
        Refused(Good with { Walls = [new("Gable", 1001m, 1m)] }, "The distance from Gable is 1001 ft; it must lie from 0 to 1000 ft");

        static void Refused(DischargeSite site, string message) => Assert.Contains(
            message, Assert.Throws<ArgumentOutOfRangeException>(() => DischargeSiting.Judge(site, Pennsylvania)).Message, StringComparison.Ordinal);
    }
}
