using CsCheck;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Sizing;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Sizing;

public sealed class SeveralPointsTests
{
    private static readonly SizingInput Alone = Houses.One(("near", -40.0), ("far", -0.2));

    private static readonly FurtherPoint Second = new("garage", Houses.Test(250, 0.012, ("near", -0.5), ("far", -30.0)), [new(PieceKind.Pipe, PipeSize.Of("3in"), 6), new(PieceKind.Tee, PipeSize.Of("3in"))], 1);

    [Fact]
    public void A_second_suction_point_holds_what_one_cannot()
    {
        Assert.Null(SystemSizing.Compute(Alone).RecommendedFanId);
        var both = SystemSizing.Compute(Alone with { FurtherPoints = [Second] });
        Assert.NotNull(both.Recommended);
        Assert.Single(both.FurtherGrounds);
        Assert.Contains(both.Assumptions, a => a.StartsWith("At each hole the suction point that brings most", StringComparison.Ordinal));
    }

    [Fact]
    public void The_points_together_carry_the_fan_s_flow()
    {
        var third = new FurtherPoint("stair", Houses.Test(250, 0.004, ("near", -1.0)), [new(PieceKind.Pipe, PipeSize.Of("2in"), 3)], 1, "garage");
        foreach (var fan in SystemSizing.Compute(Alone with { FurtherPoints = [Second, third] }).Fans)
        {
            Assert.Equal(["", "garage", "stair"], fan.Point!.Points.Select(p => p.Name));
            Assert.Equal(fan.Point.FlowM3PerS, fan.Point.Points.Sum(p => p.FlowM3PerS), 1e-9);
            Assert.True(Math.Abs(fan.Point.ResidualPa) < 1e-6 * fan.Point.FanPressurePa);
            Assert.Equal(fan.Point.PitVacuumPa, fan.Point.Points[0].PitVacuumPa);
        }
    }

    [Fact]
    public void A_further_point_takes_suction_from_the_first() => Gen.Double[0.002, 0.05].Sample(flow =>
    {
        var second = Second with { Test = Houses.Test(250, flow, ("far", -30.0)) };
        var (alone, both) = (Point(Alone), Point(Alone with { FurtherPoints = [second] }));
        return both.PitVacuumPa < alone.PitVacuumPa && both.FlowM3PerS > alone.FlowM3PerS;
    });

    [Fact]
    public void Losses_and_speeds_stand_in_the_order_of_the_route()
    {
        var point = Point(Alone with { FurtherPoints = [Second] });
        Assert.Equal(Alone.Route.Count, point.Pieces.Count);
        Assert.Equal(Alone.Route.Count, point.Speeds.Count);
        Assert.Equal(0, point.Pieces[2]);
        // The tee comes in after the first pipe, so the elbows carry more than the pipe before them.
        Assert.True(point.Speeds[1].VelocityMPerS > 1.1 * point.Speeds[0].VelocityMPerS);
        Assert.Equal(point.FlowM3PerS, point.Speeds[3].VelocityMPerS * PipeSize.Of("3in").AreaM2, 1e-9);
        Assert.Equal(VelocityFlag.Fine, point.Speeds[2].Velocity);
        Assert.True(point.FanInletVacuumPa > point.PitVacuumPa);
    }

    /// <summary>Each way from a pit to the open: its ground, its branch, the route behind the junction and the mouth come to the fan's pressure.</summary>
    [Fact]
    public void Along_every_branch_the_losses_add_up_to_the_fan_s_pressure()
    {
        var third = new FurtherPoint("stair", Houses.Test(250, 0.004, ("near", -1.0)), [new(PieceKind.Pipe, PipeSize.Of("2in"), 3), new(PieceKind.Elbow90, PipeSize.Of("2in"))], 1, "garage");
        var input = Alone with { FurtherPoints = [Second, third] };
        var (sized, point) = (SystemSizing.Compute(input), Point(input));
        var mouth = SystemCurve.For(sized.Ground.Soil, input.Route, input.Site).MouthLossPa(point.FlowM3PerS);
        var behind = point.Pieces.Skip(1).Sum() + mouth;
        Assert.Equal([2, 2], point.Branches.Select(b => b.Count));
        Assert.Equal(point.FanPressurePa, point.Points[1].PitVacuumPa + point.Branches[0].Sum(p => p.LossPa) + behind, 1e-6 * point.FanPressurePa);
        Assert.Equal(point.FanPressurePa, point.Points[2].PitVacuumPa + point.Branches[1].Sum(p => p.LossPa) + point.Branches[0].Skip(1).Sum(p => p.LossPa) + behind, 1e-6 * point.FanPressurePa);
        Assert.Equal(point.Points[1].FlowM3PerS, point.Branches[0][0].FlowM3PerS, 1e-12);
        Assert.Equal(point.Points[1].FlowM3PerS + point.Points[2].FlowM3PerS, point.Branches[0][1].FlowM3PerS, 1e-9);
    }

    /// <summary>Two routes to the same curve: fans' own balances, and the balance at held pressures.</summary>
    [Fact]
    public void Every_fan_s_operating_point_lies_on_the_curve_that_the_fan_sees()
    {
        var input = Alone with { FurtherPoints = [Second] };
        var sized = SystemSizing.Compute(input);
        var curve = SystemSizing.Curve(input, sized, 0.1, 400);
        Assert.Equal((0, 0), curve[0]);
        Assert.Equal(0.1, curve[^1].FlowM3PerS, 1e-4);
        Assert.All(curve.Zip(curve.Skip(1)), pair => Assert.True(pair.Second.FlowM3PerS > pair.First.FlowM3PerS && pair.Second.PressurePa > pair.First.PressurePa));
        foreach (var point in sized.Fans.Select(f => f.Point!))
        {
            var (a, b) = curve.Zip(curve.Skip(1)).First(pair => pair.Second.FlowM3PerS >= point.FlowM3PerS);
            var onCurve = a.PressurePa + (point.FlowM3PerS - a.FlowM3PerS) / (b.FlowM3PerS - a.FlowM3PerS) * (b.PressurePa - a.PressurePa);
            Assert.Equal(point.FanPressurePa, onCurve, 2e-3 * point.FanPressurePa);
        }
    }

    /// <summary>With one point the curve has a closed form, the sum of ground, pipe and mouth at the flow.</summary>
    [Fact]
    public void With_one_point_the_curve_is_the_sum_of_its_parts()
    {
        var sized = SystemSizing.Compute(Alone);
        var parts = SystemCurve.For(sized.Ground.Soil, Alone.Route, Alone.Site);
        Assert.All(SystemSizing.Curve(Alone, sized, 0.08, 40).Skip(1), p => Assert.Equal(parts.NeededPa(p.FlowM3PerS), p.PressurePa, 1e-6 * p.PressurePa));
        Assert.Throws<ArgumentOutOfRangeException>(() => SystemSizing.Curve(Alone, sized, 9, 40));
        Assert.Throws<ArgumentOutOfRangeException>(() => SystemSizing.Curve(Alone, sized, 0.1, 0));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    public void A_point_may_join_at_the_pit_or_just_before_the_fan(int afterPiece) =>
        Assert.NotNull(SystemSizing.Compute(Alone with { FurtherPoints = [Second with { JoinsAfterPiece = afterPiece }] }).Recommended);

    [Fact]
    public void A_hole_that_only_one_test_read_is_judged_by_that_test()
    {
        var second = Second with { Test = Houses.Test(250, 0.012, ("own", -20.0)) };
        var report = SystemSizing.Compute(Alone with { FurtherPoints = [second] });
        Assert.Equal(["near", "far", "own"], report.Fans[0].Holes.Select(h => h.Label));
    }

    [Theory]
    [MemberData(nameof(Wrong))]
    public void Points_that_join_nowhere_are_refused_in_words(FurtherPoint point, string words) =>
        Assert.Contains(words, Assert.ThrowsAny<ArgumentException>(() => SystemSizing.Compute(Alone with { FurtherPoints = [point] })).Message, StringComparison.Ordinal);

    public static TheoryData<FurtherPoint, string> Wrong => new()
    {
        { Second with { Name = " " }, "Every further suction point needs a name." },
        { Second with { JoinsInto = "attic" }, "Suction point garage joins attic, which is no suction point" },
        { Second with { JoinsInto = "garage" }, "leads round in a ring" },
        { Second with { JoinsAfterPiece = 7 }, "JoinsAfterPiece is 7" },
        { Second with { JoinsAfterPiece = -1 }, "JoinsAfterPiece is -1" },
        { Second with { Branch = [new(PieceKind.Fan, PipeSize.Of("3in"))] }, "the one fan stands in the route" },
        { Second with { Branch = [new(PieceKind.Pipe, PipeSize.Of("3in"), 900)] }, "piece.LengthM is 900 m" },
    };

    private static OperatingPoint Point(SizingInput input) => SystemSizing.Compute(input).Fans.Single(f => f.FanId == 1).Point!;
}
