using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Engineering.Tests.Siting;

public class PipeAndHoleTests
{
    // Source: ANSI/AARST SGM-SF 2017, 6.2.2: 1/8 in per ft toward the suction point.
    [Theory]
    [InlineData(1, 8, SitingOutcome.Passed)]
    [InlineData(1, 9, SitingOutcome.Failed)]
    [InlineData(0, 4, SitingOutcome.Failed)]
    [InlineData(-2, 4, SitingOutcome.Failed)]
    [InlineData(2.5, 20, SitingOutcome.Passed)]
    public void A_level_pipe_falls_an_eighth_of_an_inch_per_foot(double fallIn, double runFt, SitingOutcome outcome) =>
        Assert.Equal(outcome, PipeRules.JudgeFall((decimal)fallIn, (decimal)runFt).Outcome);

    [Fact]
    public void The_finding_on_the_fall_says_what_was_found()
    {
        var finding = PipeRules.JudgeFall(1m, 9m);
        Assert.Equal("It falls 0.111 in per ft; 0.125 in per ft are needed.", finding.Why);
        Assert.Equal(PipeRules.FallSource, finding.Source);
        Assert.False(finding.IsAdvisory);
        Assert.Equal(2.5m, PipeRules.FallNeededIn(20m));
    }

    // Source: EPA 402-R-93-078, 14.2.3, from memory: every 6 ft level, 8 ft upright.
    [Theory]
    [InlineData(20, false, 4)]
    [InlineData(20, true, 3)]
    [InlineData(6, false, 1)]
    [InlineData(6.1, false, 2)]
    [InlineData(16, true, 2)]
    [InlineData(16.1, true, 3)]
    [InlineData(0, false, 0)]
    public void Pipe_is_held_every_six_feet_across_and_eight_feet_up(double runFt, bool upright, int supports) =>
        Assert.Equal(supports, PipeRules.SupportsNeeded((decimal)runFt, upright));

    // Source: ANSI/AARST SGM-SF 2017, 13.3.3.2.
    [Fact]
    public void Each_large_slab_needs_a_test_hole_and_a_house_three()
    {
        SlabFloor[] slabs = [new("Basement", 900m), new("Garage", 400m), new("Landing", 50m)];
        var owed = TestHoles.Owed(slabs);
        Assert.Equal(3, owed.InHouse);
        Assert.Equal(["Basement", "Garage"], owed.Slabs.Select(slab => slab.Name));
        Assert.Equal(TestHoles.Source, owed.Source);
    }

    [Fact]
    public void A_slab_of_sixty_four_square_feet_needs_none_of_its_own()
    {
        Assert.Empty(TestHoles.Owed([new("Landing", 64m)]).Slabs);
        Assert.Single(TestHoles.Owed([new("Landing", 64.1m)]).Slabs);
        var five = Enumerable.Range(1, 5).Select(i => new SlabFloor($"Slab {i}", 100m)).ToList();
        Assert.Equal(5, TestHoles.Owed(five).InHouse);
        Assert.Equal(3, TestHoles.Owed([]).InHouse);
    }

    [Fact]
    public void Missing_test_holes_are_named()
    {
        SlabFloor[] slabs = [new("Basement", 900m), new("Garage", 400m)];
        Assert.Equal(
            ["Garage is larger than 64 ft² and has no test hole.", "The house has 2 test holes; 3 are owed."],
            TestHoles.Missing(slabs, new Dictionary<string, int> { ["Basement"] = 2, ["Garage"] = 0 }));
        Assert.Equal(
            ["Garage is larger than 64 ft² and has no test hole."],
            TestHoles.Missing(slabs, new Dictionary<string, int> { ["Basement"] = 3 }));
        Assert.Empty(TestHoles.Missing(slabs, new Dictionary<string, int> { ["Basement"] = 2, ["Garage"] = 1 }));
    }

    // Source: ANSI/AARST SGM-SF 2017, 6.3.7.
    [Theory]
    [InlineData(2, 3, 45.0, SitingOutcome.Failed)]
    [InlineData(2, 3, 40.0, SitingOutcome.Passed)]
    [InlineData(2, 3, 40.1, SitingOutcome.Failed)]
    [InlineData(2, 3, null, SitingOutcome.NotEnoughData)]
    [InlineData(3, 4, null, SitingOutcome.Passed)]
    [InlineData(4, 3, 90.0, SitingOutcome.Passed)]
    [InlineData(3, 3, 90.0, SitingOutcome.Failed)]
    [InlineData(2, 5, 90.0, SitingOutcome.Failed)]
    public void A_small_downspout_carries_forty_cubic_feet_at_most(double sideIn, double otherIn, double? cfm, SitingOutcome outcome)
    {
        var finding = SmallDuct.Judge((decimal)sideIn, (decimal)otherIn, (decimal?)cfm);
        Assert.Equal(outcome, finding.Outcome);
        Assert.Equal(SmallDuct.Source, finding.Source);
    }

    [Fact]
    public void The_finding_on_a_downspout_says_what_was_found()
    {
        Assert.Equal("The analysis shows 45 cfm.", SmallDuct.Judge(2m, 3m, 45m).Why);
        Assert.Equal("The downspout is 3 by 4 in or larger.", SmallDuct.Judge(3m, 4m, 45m).Why);
        Assert.StartsWith("Not enough data", SmallDuct.Judge(2m, 3m, null).Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Sizes_out_of_range_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => PipeRules.JudgeFall(1m, 0m));
        Assert.Throws<ArgumentOutOfRangeException>(() => PipeRules.JudgeFall(12_001m, 1m));
        Assert.Throws<ArgumentOutOfRangeException>(() => PipeRules.FallNeededIn(-1m));
        Assert.Throws<ArgumentOutOfRangeException>(() => PipeRules.SupportsNeeded(-1m, true));
        Assert.Throws<ArgumentOutOfRangeException>(() => TestHoles.Owed([new("Basement", -1m)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => SmallDuct.Judge(0m, 3m, null));
        Assert.Throws<ArgumentOutOfRangeException>(() => SmallDuct.Judge(3m, 0m, null));
        var refused = Assert.Throws<ArgumentOutOfRangeException>(() => SmallDuct.Judge(2m, 3m, -1m));
        Assert.Contains("The flow of the system is -1 cfm; it must lie from 0 to 2000 cfm", refused.Message, StringComparison.Ordinal);
    }
}
