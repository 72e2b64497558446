using CsCheck;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Network;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Network;

public sealed class AirNetworkTests
{
    private const double Cfm = 4.719474432e-4;
    private const double InWC = 249.08891;
    private const double Density = 1.2014;
    private const double Viscosity = 1.825e-5;

    private static readonly FanCurve Fan = new([new(0, 400, 30), new(0.03, 330, 40), new(0.06, 180, 45), new(0.09, 5, 44)]);
    private static readonly SoilResistance Ground = new(1e-4, 1, false);

    /// <summary>Source: arithmetic: a fan of 2.0 − 0.01·Q inWC on a system of 1e-4·Q² inWC meets at 100 cfm and 1.00 inWC; tolerance 1e-6.</summary>
    [Fact]
    public void A_straight_fan_on_square_ground_runs_where_the_quadratic_says()
    {
        var fan = new FanCurve([new(0, 2 * InWC, 10), new(80 * Cfm, 1.2 * InWC, 10), new(200 * Cfm, 0, 10)]);
        var ground = new SoilResistance(Cfm / Math.Sqrt(1e-4 * InWC), 0.5, false);
        var solution = new AirNetwork([new("pit", [], null, ground)], [], Density, Viscosity).SolveOnCurve(fan);
        Assert.Equal(100, solution.FlowM3PerS / Cfm, 1e-6);
        Assert.Equal(1.00, solution.FanPressurePa / InWC, 1e-6);
        Assert.Equal(1.00, solution.Branches[0].StartVacuumPa / InWC, 1e-6);
        Assert.Equal(1.00, solution.FanInletVacuumPa / InWC, 1e-6);
        Assert.Equal(10, solution.Watts!.Value, 1e-9);
    }

    [Fact]
    public void Two_hundred_random_trees_balance_to_a_millionth_of_the_fan() => Gen.Select(RandomTrees.Tree, RandomTrees.Fan).Sample((tree, fan) =>
    {
        var solution = new AirNetwork(tree.Branches, tree.Discharge, Density, Viscosity).Solve(fan);
        return solution.ResidualPa < 1e-6 * fan.GreatestPressurePa && solution.Steps < 100;
    }, iter: 200);

    [Fact]
    public void Two_thousand_trees_with_lift_and_ground_of_any_tightness_balance_too() => Gen.Select(RandomTrees.Tree, RandomTrees.Fan, Gen.Double[0.9, 1.6], Gen.Double[-9, 0]).Sample((tree, fan, outdoor, g) =>
    {
        var branches = tree.Branches.Select((b, i) => b.Soil is null || i % 2 == 0 ? b : b with { Soil = b.Soil with { ConductanceG = Math.Pow(10, g) } }).ToArray();
        var solution = new AirNetwork(branches, tree.Discharge, Density, Viscosity, outdoor).Solve(fan);
        return solution.ResidualPa < 1e-6 * fan.GreatestPressurePa && solution.Steps < 40;
    }, iter: 2000);

    [Fact]
    public void At_every_junction_as_much_air_comes_as_goes() => Gen.Select(RandomTrees.Tree, RandomTrees.Fan).Sample((tree, fan) =>
    {
        var flows = new AirNetwork(tree.Branches, tree.Discharge, Density, Viscosity).Solve(fan).Branches.ToDictionary(b => b.Name, b => b.FlowM3PerS);
        return tree.Branches.Where(b => b.Soil is null).All(b =>
            Math.Abs(tree.Branches.Where(up => up.JoinsInto == b.Name).Sum(up => flows[up.Name]) - flows[b.Name]) <= 1e-12 + 1e-9 * flows[b.Name]);
    });

    [Fact]
    public void Every_pit_draws_what_its_ground_gives_at_its_suction() => Gen.Select(RandomTrees.Tree, RandomTrees.Fan).Sample((tree, fan) =>
    {
        var solution = new AirNetwork(tree.Branches, tree.Discharge, Density, Viscosity).Solve(fan);
        return tree.Branches.Zip(solution.Branches).Where(both => both.First.Soil is not null).All(both =>
            Math.Abs(both.First.Soil!.PitVacuumPa(both.Second.FlowM3PerS) - both.Second.StartVacuumPa) < 2e-6 * fan.GreatestPressurePa);
    });

    [Fact]
    public void No_pit_has_more_suction_than_the_fan_gives() => Gen.Select(RandomTrees.Tree, RandomTrees.Fan).Sample((tree, fan) =>
    {
        var solution = new AirNetwork(tree.Branches, tree.Discharge, Density, Viscosity).Solve(fan);
        return solution.Branches.All(b => b.FlowM3PerS >= 0 && b.StartVacuumPa <= solution.FanPressurePa + 1e-6 * fan.GreatestPressurePa);
    });

    [Fact]
    public void The_order_in_which_branches_are_written_does_not_matter() => Gen.Select(RandomTrees.Tree, RandomTrees.Fan).Sample((tree, fan) =>
    {
        var there = new AirNetwork(tree.Branches, tree.Discharge, Density, Viscosity).SolveFlowM3PerS(fan);
        var back = new AirNetwork([.. tree.Branches.Reverse()], tree.Discharge, Density, Viscosity).SolveFlowM3PerS(fan);
        return Math.Abs(there - back) <= 1e-6 * there;
    });

    [Fact]
    public void Tighter_ground_at_one_point_draws_less_in_all_and_more_at_the_others() => Gen.Double[0.1, 0.95].Sample(tighter =>
    {
        var (before, after) = (Pair(1e-4), Pair(1e-4 * tighter));
        return after.FlowM3PerS < before.FlowM3PerS && after.Branches[1].FlowM3PerS < before.Branches[1].FlowM3PerS && after.Branches[2].FlowM3PerS > before.Branches[2].FlowM3PerS;
    });

    [Fact]
    public void A_longer_trunk_takes_from_every_pit() => Gen.Double[1, 40].Select(Gen.Double[1.01, 3]).Sample((length, more) =>
    {
        var (near, far) = (Pair(1e-4, length), Pair(1e-4, length * more));
        return near.Branches.Zip(far.Branches).All(both => both.Second.FlowM3PerS < both.First.FlowM3PerS);
    });

    [Fact]
    public void Two_equal_points_share_equally()
    {
        var solution = Pair(1e-4, farGround: 1e-4, farLength: 3);
        Assert.Equal(solution.Branches[1].FlowM3PerS, solution.Branches[2].FlowM3PerS, 1e-12);
        Assert.Equal(solution.FlowM3PerS / 2, solution.Branches[1].FlowM3PerS, 1e-12);
    }

    [Fact]
    public void A_branch_cut_in_two_is_still_the_same_branch()
    {
        var whole = new AirNetwork([new("a", Pipe("3in", 12), null, Ground)], Pipe("3in", 3), Density, Viscosity).SolveFlowM3PerS(Fan);
        var cut = new AirNetwork([new("b", Pipe("3in", 7)), new("a", Pipe("3in", 5), "b", Ground)], Pipe("3in", 3), Density, Viscosity).SolveFlowM3PerS(Fan);
        Assert.Equal(whole, cut, 1e-9);
    }

    [Fact]
    public void Cold_outdoor_air_lifts_the_warm_column()
    {
        NetworkBranch[] branches = [new("a", [new(PieceKind.Pipe, PipeSize.Of("4in"), 6, RiseM: 6)], null, Ground)];
        var still = new AirNetwork(branches, [], Density, Viscosity).Solve(Fan);
        var cold = new AirNetwork(branches, [], Density, Viscosity, outdoorDensityKgPerM3: 1.4).Solve(Fan);
        var lost = cold.Pieces.Sum(piece => piece.LossPa);
        Assert.True(cold.FlowM3PerS > still.FlowM3PerS);
        Assert.Equal(cold.FanPressurePa - lost + (1.4 - Density) * 9.80665 * 6, cold.Branches[0].StartVacuumPa, 1e-6);
    }

    [Fact]
    public void A_rise_lifts_as_much_before_the_fan_as_after_it_and_twice_as_much_twice()
    {
        double Flow(double before, double after, int count = 1)
        {
            RoutePiece Stack(double rise) => new(PieceKind.Pipe, PipeSize.Of("4in"), 6, count, RiseM: rise);
            return new AirNetwork([new("a", [Stack(before)], null, Ground)], [Stack(after)], Density, Viscosity, outdoorDensityKgPerM3: 1.5).SolveFlowM3PerS(Fan);
        }

        Assert.Equal(Flow(6, 0), Flow(0, 6), 1e-9);
        Assert.Equal(Flow(3, 3, 2), Flow(6, 0, 2), 1e-9);
        Assert.True(Flow(6, 0) > Flow(0, 0) && Flow(0, 0) > Flow(0, -6));
    }

    [Fact]
    public void Pipes_of_one_size_in_a_row_lose_what_one_of_their_length_loses()
    {
        double Flow(params RoutePiece[] pieces) => new AirNetwork([new("a", pieces, null, new(4e-4, 1, false))], Pipe("3in", 2), Density, Viscosity).SolveFlowM3PerS(Fan);
        var size = PipeSize.Of("3in");
        var one = Flow(new RoutePiece(PieceKind.Pipe, size, 12), new(PieceKind.Elbow90, size, LossK: 1.5));
        var many = Flow(new RoutePiece(PieceKind.Pipe, size, 4), new(PieceKind.Elbow90, size, LossK: 0.9), new(PieceKind.Pipe, size, 8), new(PieceKind.Elbow45, size, LossK: 0.6));
        Assert.Equal(one, many, 1e-9);
        Assert.True(Flow(new RoutePiece(PieceKind.Pipe, size, 8), new(PieceKind.Elbow90, size, LossK: 0.9)) > 1.01 * one);
    }

    [Fact]
    public void The_suction_found_last_at_each_pit_is_that_of_the_report()
    {
        var network = new AirNetwork(Trunked(1e-4, 5, 5e-5, 9), Pipe("4in", 4), Density, Viscosity);
        var pits = network.Solve(Fan).Branches.Where(b => b.IsSuctionPoint).ToArray();
        for (var i = 0; i < pits.Length; i++) Assert.Equal(pits[i].StartVacuumPa, network.LastPitVacuumPa(i), 1e-9);
        Assert.False(network.Solve(Fan).Branches[0].IsSuctionPoint);
    }

    [Fact]
    public void A_gauge_before_the_fan_shows_pit_suction_pipe_loss_and_the_speed_of_the_air()
    {
        var solution = new AirNetwork([new("a", Pipe("3in", 10), null, Ground)], Pipe("3in", 2), Density, Viscosity).Solve(Fan);
        var velocity = solution.Pieces[0].VelocityMPerS;
        Assert.Equal(solution.Branches[0].StartVacuumPa + solution.Pieces[0].LossPa + 0.5 * Density * velocity * velocity, solution.FanInletVacuumPa, 1e-6);
    }

    [Fact]
    public void Bad_fittings_cost_flow()
    {
        double Flow(double factor) => new AirNetwork([new("a", [.. Pipe("3in", 5), new(PieceKind.Elbow90, PipeSize.Of("3in"), Count: 4)], null, new(4e-4, 1, false))], Pipe("3in", 2), Density, Viscosity, fittingFactor: factor).SolveFlowM3PerS(Fan);
        Assert.True(Flow(0.5) > Flow(1) && Flow(1) > Flow(2));
    }

    [Fact]
    public void A_balance_beyond_the_curve_is_a_named_error()
    {
        var network = new AirNetwork([new("a", [], null, new(0.5, 1, false))], [], Density, Viscosity);
        Assert.False(network.Solve(Fan).OnCurve);
        Assert.Null(network.Solve(Fan).Watts);
        var refused = Assert.Throws<OffFanCurveException>(() => network.SolveOnCurve(Fan));
        Assert.Contains("off the fan's curve, which was measured from 0 to 90 L/s", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Solving_allocates_nothing()
    {
        var network = new AirNetwork(Trunked(1e-4, 5, 5e-5, 9), Pipe("4in", 4), Density, Viscosity);
        network.SolveFlowM3PerS(Fan);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 100; i++) network.SolveFlowM3PerS(Fan);
        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
    }

    [Theory]
    [MemberData(nameof(NoTrees))]
    public void What_is_no_tree_is_refused_in_words(NetworkBranch[] branches, string words) =>
        Assert.Contains(words, Assert.ThrowsAny<ArgumentException>(() => new AirNetwork(branches, [], Density, Viscosity)).Message, StringComparison.Ordinal);

    public static TheoryData<NetworkBranch[], string> NoTrees => new()
    {
        { [new("a", [], null, Ground), new("a", [], "a", Ground)], "Two branches are called 'a'" },
        { [new("a", [])], "suctionPoints is 0 suction points" },
        { [.. Enumerable.Range(0, 13).Select(i => new NetworkBranch($"p{i}", [], "t", Ground)), new("t", [])], "suctionPoints is 13 suction points" },
        { [new("a", [], "nowhere", Ground)], "Branch 'a' joins into 'nowhere', which does not exist" },
        { [new("a", [], null, Ground), new("b", [], null, Ground)], "Exactly one branch must end at the fan; 2 do" },
        { [new("t", [], null, Ground), new("a", [], "b"), new("b", [], "a")], "leads round in a ring" },
        { [new("t", []), new("a", [], "t", Ground), new("b", [], "t")], "Branch 'b' begins nowhere" },
        { [new("t", [], null, Ground), new("a", [], "t", Ground)], "Branch 't' begins at a suction point" },
    };

    [Theory]
    [InlineData(0.1, 1.8e-5, 1, "densityKgPerM3 is 0.1 kg/m³")]
    [InlineData(1.2, 1.8e-3, 1, "viscosityPaS is 0.0018 Pa·s")]
    [InlineData(1.2, 1.8e-5, 9, "fittingFactor is 9")]
    public void Air_out_of_range_is_refused_with_value_and_range(double density, double viscosity, double factor, string words) =>
        Assert.Contains(words, Assert.Throws<ArgumentOutOfRangeException>(() => new AirNetwork([new("a", [], null, Ground)], [], density, viscosity, null, factor)).Message, StringComparison.Ordinal);

    private static NetworkSolution Pair(double nearGround, double trunk = 6, double farGround = 6e-5, double farLength = 12) =>
        new AirNetwork(Trunked(nearGround, trunk, farGround, farLength), Pipe("4in", 4), Density, Viscosity).Solve(Fan);

    private static NetworkBranch[] Trunked(double near, double trunk, double far, double farLength) =>
    [
        new("trunk", Pipe("4in", trunk)), new("near", Pipe("3in", 3), "trunk", new(near, 1, false)), new("far", Pipe("3in", farLength), "trunk", new(far, 1, false)),
    ];

    private static RoutePiece[] Pipe(string size, double length) => [new(PieceKind.Pipe, PipeSize.Of(size), length)];
}
