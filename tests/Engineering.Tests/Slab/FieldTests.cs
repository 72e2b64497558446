using CsCheck;
using MathNet.Numerics;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Slab;

public class FieldTests
{
    // Hantush and Jacob (1955), steady leaky aquifer: p(r) = p_w·K0(r/λ)/K0(r_w/λ); Bessel function from MathNet.Numerics.
    [Theory]
    [InlineData(0.0, 0.0)]
    [InlineData(0.125, 0.125)]
    [InlineData(0.05, 0.09)]
    public void One_pit_in_a_wide_slab_follows_the_Bessel_solution(double offsetX, double offsetY)
    {
        const double reach = 2;
        var (x, y) = (10 + offsetX, 10 + offsetY);
        var map = SlabCoverage.Compute(Plans.Unfitted(Plans.Plan(Plans.Box(0, 0, 20, 20)), reach, Plans.Pit(x, y))).Map;
        foreach (var distance in new[] { reach / 2, reach, 2 * reach })
            foreach (var direction in new[] { 0.0, 0.5, 1.0, 2.2 })
            {
                var cell = Plans.Nearest(map, x + distance * Math.Cos(direction), y + distance * Math.Sin(direction));
                var exact = 250 * K0(cell.Centre.DistanceM(new(x, y)) / reach) / K0(0.15 / reach);
                Assert.Equal(exact, cell.VacuumPa, exact * 0.01);
            }
    }

    // The flow of the same solution: Q = 2πT·p_w·(r_w/λ)·K1(r_w/λ)/K0(r_w/λ).
    [Fact]
    public void One_pit_in_a_wide_slab_draws_the_flow_of_the_Bessel_solution()
    {
        var map = SlabCoverage.Compute(Plans.Unfitted(Plans.Plan(Plans.Box(0, 0, 20, 20)), 2, Plans.Pit(10, 10))).Map;
        var exact = 2 * Math.PI * 250 * 0.075 * SpecialFunctions.BesselK1(0.075) / K0(0.075);
        Assert.Equal(exact, Assert.Single(map.Suction).FlowOverConductancePa, exact * 0.01);
    }

    // Image solution: along an impervious straight footing a second, equal pit stands mirrored.
    [Fact]
    public void A_footing_that_lets_nothing_through_mirrors_the_pit()
    {
        const double reach = 2;
        var plan = Plans.Plan(Plans.Box(3, 3, 18, 18), 0.25, Plans.Footing(12, -1, 12, 25));
        var map = SlabCoverage.Compute(Plans.Unfitted(plan, reach, Plans.Pit(10.5, 12)) with { AssumedFootingM = 100 }).Map;
        var strength = 250 / (K0(0.15 / reach) + K0(3 / reach));
        foreach (var (x, y) in new[] { (11.6, 12.0), (8.5, 12.0), (10.5, 14.0), (11.8, 15.0) })
        {
            var cell = Plans.Nearest(map, x, y);
            var exact = strength * (K0(cell.Centre.DistanceM(new(10.5, 12)) / reach) + K0(cell.Centre.DistanceM(new(13.5, 12)) / reach));
            Assert.Equal(exact, cell.VacuumPa, exact * 0.03);
        }
        Assert.True(Plans.Nearest(map, 13, 12).VacuumPa < 0.05 * Plans.Nearest(map, 11, 12).VacuumPa);
    }

    // Second, independent solution: a narrow strip solved by hand with hyperbolic functions. Behind the pit's cell p falls
    // as a·e^(−x/λ) + b·e^(x/λ); at the footing the flow is the same on both sides and p drops by its length times the slope;
    // at the far end the slope is nought.
    [Theory]
    [InlineData(0.5)]
    [InlineData(2.0)]
    [InlineData(10.0)]
    public void A_footing_across_a_strip_follows_the_solution_by_hand(double footingM)
    {
        const double reach = 2.5, length = 10, at = 4.0;
        var plan = Plans.Plan(Plans.Box(0, 0, length, 0.1), 0.1, Plans.Footing(at, -1, at, 1));
        var map = SlabCoverage.Compute(Plans.Unfitted(plan, reach, Plans.Pit(0.05, 0.05)) with { AssumedFootingM = footingM }).Map;
        var first = map.Cells.First(cell => cell.Centre.XM > 1);
        foreach (var cell in map.Cells.Where(cell => cell.Centre.XM > 1))
        {
            var exact = first.VacuumPa * Strip(cell.Centre.XM, at, length, reach, footingM) / Strip(first.Centre.XM, at, length, reach, footingM);
            Assert.Equal(exact, cell.VacuumPa, exact * 0.01);
        }
    }

    private static double Strip(double x, double at, double length, double reach, double footing)
    {
        if (x > at) return Math.Cosh((length - x) / reach);
        var behind = Math.Cosh((length - at) / reach);
        var slope = -Math.Sinh((length - at) / reach) / reach;
        var before = behind - footing * slope;
        return before * Math.Cosh((at - x) / reach) - slope * reach * Math.Sinh((at - x) / reach);
    }

    [Fact]
    public void A_slanting_footing_hinders_as_much_as_a_straight_one()
    {
        var straight = Plans.Plan(Plans.Box(0, 0, 20, 20), 0.25, Plans.Footing(10, -5, 10, 25));
        var slant = Plans.Plan(Plans.Box(0, 0, 20, 20), 0.25, Plans.Footing(-10, -9.9, 30, 30.1));
        var one = SlabCoverage.Compute(Plans.Unfitted(straight, 2, Plans.Pit(8.5, 10)) with { AssumedFootingM = 3 }).Map;
        var half = 1.5 / Math.Sqrt(2);
        var other = SlabCoverage.Compute(Plans.Unfitted(slant, 2, Plans.Pit(10 + half, 10.1 - half)) with { AssumedFootingM = 3 }).Map;
        var behindOne = Plans.Nearest(one, 11.5, 10).VacuumPa;
        var behindOther = Plans.Nearest(other, 10 - half, 10.1 + half).VacuumPa;
        Assert.Equal(behindOne, behindOther, behindOne * 0.10);
    }

    // Saum, AARST Symposium 1996 (field observation): the percent drop per distance is constant far from the pit. In a
    // strip the sheet has exactly e^(−Δ/λ).
    [Fact]
    public void Far_from_the_pit_each_metre_takes_the_same_share()
    {
        var map = SlabCoverage.Compute(Plans.Unfitted(Plans.Plan(Plans.Box(0, 0, 30, 1)), 2, Plans.Pit(0.5, 0.5))).Map;
        foreach (var x in new[] { 4.125, 8.125, 12.125, 16.125 })
            Assert.Equal(Math.Exp(-0.5), Plans.Nearest(map, x + 1, 0.4).VacuumPa / Plans.Nearest(map, x, 0.4).VacuumPa, 0.003);
    }

    [Fact]
    public void Two_slabs_that_share_a_wall_are_parted_as_by_a_footing()
    {
        var together = new SlabPlan { Areas = [Plans.Box(0, 0, 5, 4), Plans.Box(5, 0, 5, 4, "garage")] };
        var single = Plans.Plan(Plans.Box(0, 0, 10, 4), 0.25, Plans.Footing(5, -1, 5, 5));
        var a = SlabCoverage.Compute(Plans.Unfitted(together, 2, Plans.Pit(2, 2))).Map;
        var b = SlabCoverage.Compute(Plans.Unfitted(single, 2, Plans.Pit(2, 2))).Map;
        Assert.Equal(Plans.Nearest(b, 7, 2).VacuumPa, Plans.Nearest(a, 7, 2).VacuumPa, 1e-9);
    }

    [Fact]
    public void The_cells_fill_the_plan() =>
        Plans.AnyEll.Sample(plan =>
        {
            var corners = plan.Areas[0].Corners;
            var area = corners[1].XM * corners[5].YM - (corners[1].XM - corners[3].XM) * (corners[5].YM - corners[3].YM);
            var map = SlabCoverage.Compute(Plans.Unfitted(plan, 3, Plans.Pit(1, 1))).Map;
            Assert.Equal(area, map.Cells.Sum(cell => cell.AreaM2), area * 0.001);
        }, iter: 20);

    [Fact]
    public void What_the_pits_draw_leaks_through_the_slab() =>
        Gen.Select(Plans.AnyEllWithFooting, Plans.AnyPit, Gen.Double[0.6, 20]).Sample((plan, pit, reach) =>
            SlabCoverage.Compute(Plans.Unfitted(plan, reach, pit)).Map.BalanceError < 1e-6, iter: 20);

    [Fact]
    public void No_place_has_more_vacuum_than_the_pit_nor_less_than_none() =>
        Gen.Select(Plans.AnyEllWithFooting, Plans.AnyPit, Gen.Double[0.6, 20]).Sample((plan, pit, reach) =>
            SlabCoverage.Compute(Plans.Unfitted(plan, reach, pit)).Map.Cells.All(cell =>
                cell.VacuumPa > 0 && (cell.VacuumPa < pit.PitVacuumPa || cell.Centre.DistanceM(pit.At) < 0.4)), iter: 20);

    [Fact]
    public void Twice_the_pit_vacuum_is_twice_the_vacuum_everywhere() =>
        Gen.Select(Plans.AnyEll, Plans.AnyPit, Gen.Double[0.6, 20]).Sample((plan, pit, reach) =>
        {
            var one = SlabCoverage.Compute(Plans.Unfitted(plan, reach, pit)).Map;
            var two = SlabCoverage.Compute(Plans.Unfitted(plan, reach, pit with { PitVacuumPa = 2 * pit.PitVacuumPa })).Map;
            Assert.All(one.Cells.Zip(two.Cells), pair => Assert.Equal(2 * pair.First.VacuumPa, pair.Second.VacuumPa, 1e-6));
        }, iter: 20);

    // Beyond the four cells that carry the pit the equations alone decide, and there the rule holds strictly. Those four
    // cells' values are the lattice's, tied to the pit's rim by an equivalent radius that knows no leakage; its error, of the
    // order of (cell/reach)², shrinks as the reach grows, and that may lower a cell at the rim by up to half a percent.
    [Fact]
    public void A_longer_reach_weakens_no_place() =>
        Gen.Select(Plans.AnyEllWithFooting, Plans.AnyPit, Gen.Double[0.6, 15], Gen.Double[1.05, 2]).Sample((plan, pit, reach, more) =>
        {
            const double cellDiagonalM = 0.36;
            var shorter = SlabCoverage.Compute(Plans.Unfitted(plan, reach, pit)).Map;
            var longer = SlabCoverage.Compute(Plans.Unfitted(plan, reach * more, pit)).Map;
            Assert.All(shorter.Cells.Zip(longer.Cells), pair =>
            {
                var allowed = pair.First.Centre.DistanceM(pit.At) > cellDiagonalM ? 1e-9 : 0.01;
                Assert.True(pair.Second.VacuumPa >= pair.First.VacuumPa - allowed * pit.PitVacuumPa);
            });
        }, iter: 200);

    [Fact]
    public void A_stronger_footing_lets_the_pits_draw_less() =>
        Gen.Select(Plans.AnyEllWithFooting, Plans.AnyPit, Gen.Double[0.05, 20], Gen.Double[1.2, 4]).Sample((plan, pit, footing, more) =>
        {
            var input = Plans.Unfitted(plan, 3, pit);
            var weak = SlabCoverage.Compute(input with { AssumedFootingM = footing }).Map.Suction[0].FlowOverConductancePa;
            var strong = SlabCoverage.Compute(input with { AssumedFootingM = footing * more }).Map.Suction[0].FlowOverConductancePa;
            Assert.True(strong <= weak + 1e-9);
        }, iter: 20);

    [Fact]
    public void Pit_and_place_may_change_roles() =>
        Gen.Select(Plans.AnyEllWithFooting, Gen.Int[0, 5], Gen.Int[0, 5], Gen.Int[0, 5], Gen.Int[0, 5]).Sample((plan, ax, ay, bx, by) =>
        {
            PlanPoint a = new(ax * 0.25 + 0.125, ay * 0.25 + 0.125), b = new(bx * 0.25 + 0.125, by * 0.25 + 0.125);
            if (a.DistanceM(b) < 0.3) return;
            var fromA = SlabCoverage.Compute(Plans.Unfitted(plan, 3, Plans.Pit(a.XM, a.YM))).Map;
            var fromB = SlabCoverage.Compute(Plans.Unfitted(plan, 3, Plans.Pit(b.XM, b.YM))).Map;
            var ab = Plans.Nearest(fromA, b.XM, b.YM).VacuumPa / fromA.Suction[0].FlowOverConductancePa;
            var ba = Plans.Nearest(fromB, a.XM, a.YM).VacuumPa / fromB.Suction[0].FlowOverConductancePa;
            Assert.Equal(ab, ba, 1e-9 * ab + 1e-12);
        }, iter: 20);

    [Fact]
    public void Moving_the_whole_plan_changes_nothing() =>
        Gen.Select(Plans.AnyEll, Plans.AnyPit, Gen.Double[-50, 50], Gen.Double[-50, 50]).Sample((plan, pit, dx, dy) =>
        {
            var moved = plan with { Areas = [plan.Areas[0] with { Corners = [.. plan.Areas[0].Corners.Select(corner => new PlanPoint(corner.XM + dx, corner.YM + dy))] }] };
            var here = SlabCoverage.Compute(Plans.Unfitted(plan, 3, pit)).Map;
            var there = SlabCoverage.Compute(Plans.Unfitted(moved, 3, pit with { At = new(pit.At.XM + dx, pit.At.YM + dy) })).Map;
            Assert.Equal(here.WeakestSpot.VacuumPa, there.WeakestSpot.VacuumPa, 1e-6 * here.WeakestSpot.VacuumPa + 1e-9);
            Assert.Equal(here.Suction[0].FlowOverConductancePa, there.Suction[0].FlowOverConductancePa, 1e-4);
        }, iter: 20);

    private static double K0(double x) => SpecialFunctions.BesselK0(x);
}
