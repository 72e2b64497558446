using System.Text.Json;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Network;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Network;

/// <summary>Whole trees against EPANET's engine: tests/Reference/networks.mjs makes the table.</summary>
public sealed class EpanetTests
{
    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web);

    private static readonly EpanetTree[] Trees = JsonSerializer.Deserialize<EpanetTree[]>(Tables.Read("networks.json"), Web)!;

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

internal sealed record EpanetTree(
    string Name, double Exponent, double Density, double Viscosity, double[][] Fan, EpanetBranch[] Branches, EpanetPipe Discharge,
    double FanFlow, Dictionary<string, double> Flows)
{
    internal FanCurve Curve() => new(Fan.Select(point => new FanPoint(point[0], point[1] * 1.2014 / Density, 20)));

    internal AirNetwork Network() => new([.. Branches.Select(Branch)], Pipe(Discharge.Size, Discharge.LengthM, Discharge.K), Density, Viscosity);

    private NetworkBranch Branch(EpanetBranch b) =>
        new(b.Name, Pipe(b.Size, b.LengthM, b.K), b.Joins, b.Conductance is { } g ? new SoilResistance(g, Exponent, false) : null);

    private static RoutePiece[] Pipe(string size, double lengthM, double k) =>
        [new(PieceKind.Pipe, PipeSize.Of(size), lengthM), new(PieceKind.Tee, PipeSize.Of(size), LossK: k)];
}

internal sealed record EpanetBranch(string Name, string Size, double LengthM, double K, string? Joins, double? Conductance);

internal sealed record EpanetPipe(string Size, double LengthM, double K);
