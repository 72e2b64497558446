using CsCheck;
using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Engineering.Tests.Siting;

public class SitingProperties
{
    private static readonly Gen<decimal> Feet = Gen.Int[0, 4000].Select(hundredths => hundredths / 100m);

    private static readonly Gen<SitingRuleSet> AnySet = Gen.Int[0, SitingRuleSets.All.Count - 1].Select(index => SitingRuleSets.All[index]);

    private static readonly Gen<DischargeSite> AnySite = Gen.Select(
        Feet, Gen.Enum<DischargeMounting>(), Feet, Gen.Select(Feet, Feet, Gen.Enum<OpeningKind>()), Gen.Enum<FanLocation>(), Gen.Int[0, 180],
        (height, mounting, aboveIn, opening, fan, angle) => new DischargeSite
        {
            HeightAboveGradeFt = height,
            Mounting = mounting,
            AboveRoofIn = aboveIn,
            AboveRoofEdgeIn = aboveIn - 10m,
            Openings = [new("Window", opening.Item3, opening.Item1, opening.Item2 - 10m)],
            AdjacentBuildings = [new("Shed", opening.Item1, opening.Item2)],
            Walls = [new("Wall", opening.Item2, opening.Item1 - 20m)],
            FromVerticalDeg = angle,
            HasRainCap = angle % 2 == 0,
            Fan = fan,
        });

    [Fact]
    public void A_full_site_leaves_no_rule_without_data() => Gen.Select(AnySite, AnySet).Sample((site, set) =>
    {
        var report = DischargeSiting.Judge(site, set);
        Assert.Equal(set.Rules.Count, report.Findings.Count);
        Assert.DoesNotContain(report.Findings, finding => finding.Outcome == SitingOutcome.NotEnoughData);
    });

    [Fact]
    public void Moving_everything_further_away_never_fails_a_rule_that_passed() => Gen.Select(AnySite, AnySet, Feet).Sample((site, set, more) =>
    {
        var before = DischargeSiting.Judge(site, set).Findings;
        var after = DischargeSiting.Judge(Further(site, more), set).Findings;
        foreach (var (near, far) in before.Zip(after))
            Assert.False(near.Outcome == SitingOutcome.Passed && far.Outcome == SitingOutcome.Failed);
    });

    [Fact]
    public void The_whole_fails_exactly_when_a_binding_rule_fails() => Gen.Select(AnySite, AnySet).Sample((site, set) =>
    {
        var report = DischargeSiting.Judge(site, set);
        Assert.Equal(
            report.Findings.Any(finding => !finding.IsAdvisory && finding.Outcome == SitingOutcome.Failed),
            report.Outcome == SitingOutcome.Failed);
    });

    [Fact]
    public void A_pipe_with_the_fall_it_needs_passes() => Feet.Where(feet => feet >= 0.1m).Sample(runFt =>
    {
        var needed = PipeRules.FallNeededIn(runFt);
        Assert.Equal(SitingOutcome.Passed, PipeRules.JudgeFall(needed, runFt).Outcome);
        Assert.Equal(SitingOutcome.Failed, PipeRules.JudgeFall(needed - 0.01m, runFt).Outcome);
    });

    [Fact]
    public void Supports_are_never_further_apart_than_the_rule() => Gen.Select(Feet.Where(feet => feet > 0), Gen.Bool).Sample((runFt, upright) =>
    {
        var supports = PipeRules.SupportsNeeded(runFt, upright);
        Assert.True(runFt / supports <= (upright ? 8m : 6m));
        Assert.True(supports == 1 || runFt / (supports - 1) > (upright ? 8m : 6m));
    });

    [Fact]
    public void One_hole_in_each_large_slab_and_three_in_all_leave_nothing_missing() => Feet.Array[0, 8].Sample(areas =>
    {
        var slabs = areas.Select((area, index) => new SlabFloor($"Slab {index}", area * 10m)).ToList();
        var holes = TestHoles.Owed(slabs).Slabs.ToDictionary(slab => slab.Name, _ => 1);
        holes["Elsewhere"] = Math.Max(0, 3 - holes.Count);
        Assert.Empty(TestHoles.Missing(slabs, holes));
    });

    private static DischargeSite Further(DischargeSite site, decimal more) => site with
    {
        HeightAboveGradeFt = site.HeightAboveGradeFt + more,
        AboveRoofIn = site.AboveRoofIn + more,
        Openings = [.. site.Openings!.Select(opening => opening with { DistanceFt = opening.DistanceFt + more, TopBelowExhaustFt = opening.TopBelowExhaustFt + more })],
        AdjacentBuildings = [.. site.AdjacentBuildings!.Select(building => building with { DistanceFt = building.DistanceFt + more, NearestOpeningFt = building.NearestOpeningFt + more })],
        Walls = [.. site.Walls!.Select(wall => wall with { DistanceFt = wall.DistanceFt + more, TopAboveExhaustFt = wall.TopAboveExhaustFt - more })],
    };
}
