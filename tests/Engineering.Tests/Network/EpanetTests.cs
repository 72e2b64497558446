namespace MitigationOffice.Engineering.Tests.Network;

/// <summary>Whole trees against EPANET's engine: tests/Reference/networks.mjs makes the table.</summary>
public sealed class EpanetTests
{
    private static readonly EpanetTree[] Trees = EpanetTree.Read(Tables.Read("networks.json"));

    public static TheoryData<string> Names => new(Trees.Select(tree => tree.Name));

    /// <summary>Source: EPANET 2 through epanet-js 0.9.0; tolerance 1 % in every flow.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Every_flow_is_within_1_percent_of_EPANET(string name)
    {
        var tree = Trees.Single(t => t.Name == name);
        var solution = tree.Network().SolveOnCurve(tree.Curve());
        Assert.Equal(1, solution.FlowM3PerS / tree.FanFlow, 1e-2);
        foreach (var branch in solution.Branches) Assert.Equal(1, branch.FlowM3PerS / tree.Flows[branch.Name], 1e-2);
    }

    [Fact]
    public void The_table_holds_one_two_three_five_and_eight_suction_points() =>
        Assert.Equal([1, 1, 2, 3, 5, 8], Trees.Select(tree => tree.Branches.Count(branch => branch.Conductance is not null)));
}
