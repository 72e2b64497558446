using CsCheck;
using MathNet.Numerics;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Slab;

public class CoverageTests
{
    private static readonly (double X, double Y)[] Spots =
        [(10.1, 9.2), (9.2, 11.0), (6.6, 9.3), (11.9, 10.6), (6.4, 7.9), (9.1, 5.3), (12.8, 9.4), (8.0, 12.2), (11.3, 6.2), (5.2, 10.1)];

    // Readings made from the Bessel solution (Hantush and Jacob), not from this program, with 8 % random misreading.
    [Theory]
    [InlineData(1.5, 1)]
    [InlineData(2.0, 2)]
    [InlineData(2.0, 3)]
    public void The_fit_finds_the_reach_behind_noisy_readings(double reach, int seed)
    {
        var noise = new Random(seed);
        var readings = Spots.Select((spot, at) => new HoleReading
        {
            Name = $"hole {at + 1}",
            At = new(spot.X, spot.Y),
            VacuumPa = Exact(reach, spot) * Math.Exp(0.08 * (noise.NextDouble() * 2 - 1)),
        });
        var slab = SlabCoverage.Compute(Wide([.. readings]));
        Assert.Equal(reach, slab.ReachM, reach * 0.05);
        Assert.InRange(reach, slab.ReachLowM * 0.98, slab.ReachHighM * 1.02);
        Assert.False(slab.IsWeak, string.Join(" ", slab.Weaknesses));
        Assert.InRange(slab.TypicalMissFactor, 1.0, 1.12);
    }

    [Fact]
    public void The_fit_gives_back_the_reach_and_the_footing_of_its_own_map() =>
        Gen.Select(Gen.Double[1.2, 6], Gen.Double[0.5, 8]).Sample((reach, footing) =>
        {
            var plan = Plans.Plan(Plans.Box(0, 0, 10, 8), 0.25, Plans.Footing(5, -1, 5, 9));
            var made = SlabCoverage.Compute(Plans.Unfitted(plan, reach, Plans.Pit(2, 4, 500)) with { AssumedFootingM = footing }).Map;
            var readings = new[] { (3.625, 4.125), (2.125, 6.625), (4.375, 1.125), (6.125, 4.125), (7.625, 2.625), (9.125, 6.125) }
                .Select(spot => new HoleReading { Name = "h", At = new(spot.Item1, spot.Item2), VacuumPa = Plans.Nearest(made, spot.Item1, spot.Item2).VacuumPa });
            var slab = SlabCoverage.Compute(new CoverageInput { Plan = plan, SuctionPoints = [Plans.Pit(2, 4, 500)], Readings = [.. readings], ResolutionPa = 0.001 });
            Assert.True(slab.FootingFitted);
            Assert.Equal(reach, slab.ReachM, reach * 0.002);
            Assert.Equal(footing, slab.FootingM, footing * 0.01);
        }, iter: 8);

    [Fact]
    public void Fewer_than_three_holes_make_the_map_weak_in_words()
    {
        var two = SlabCoverage.Compute(Wide(Readings(2).Take(2)));
        Assert.Contains(two.Weaknesses, said => said.Contains("Only two test holes", StringComparison.Ordinal));
        var one = SlabCoverage.Compute(Wide(Readings(2).Take(1)));
        Assert.Contains(one.Weaknesses, said => said.Contains("Only one test hole could", StringComparison.Ordinal));
        Assert.Equal(double.PositiveInfinity, one.ReachHighM);
        var none = SlabCoverage.Compute(Wide([]));
        Assert.Contains(none.Weaknesses, said => said.Contains("proves nothing", StringComparison.Ordinal));
        Assert.Equal(3, none.ReachM);
    }

    [Fact]
    public void A_poor_fit_is_said()
    {
        var slab = SlabCoverage.Compute(Wide(Readings(2).Select((reading, at) => reading with { VacuumPa = reading.VacuumPa * (at % 2 == 0 ? 3 : 0.3) })));
        Assert.Contains(slab.Weaknesses, said => said.StartsWith("Poor fit", StringComparison.Ordinal));
        Assert.True(slab.ReachLowM < slab.ReachM && slab.ReachM < slab.ReachHighM);
    }

    [Fact]
    public void Readings_that_do_not_fade_leave_the_reach_at_its_end()
    {
        var slab = SlabCoverage.Compute(Wide(Readings(2).Select(reading => reading with { VacuumPa = 398 })));
        Assert.Contains(slab.Weaknesses, said => said.Contains("at the end of what the map can tell", StringComparison.Ordinal));
    }

    [Fact]
    public void Scattered_readings_at_one_distance_leave_the_reach_wide()
    {
        var readings = Enumerable.Range(0, 3).Select(at => new HoleReading
        {
            Name = "h",
            At = new(9 + Math.Cos(at * 2.1), 9 + Math.Sin(at * 2.1)),
            VacuumPa = at == 1 ? 140 : 25,
        });
        Assert.Contains(SlabCoverage.Compute(Wide(readings)).Weaknesses, said => said.Contains("leave the reach between", StringComparison.Ordinal));
    }

    [Fact]
    public void A_reading_under_the_resolution_only_bounds_the_map()
    {
        var far = new HoleReading { Name = "far", At = new(1, 1), VacuumPa = 0 };
        var with = SlabCoverage.Compute(Wide(Readings(2).Append(far)) with { ResolutionPa = 1 });
        var without = SlabCoverage.Compute(Wide(Readings(2)));
        Assert.Equal(without.ReachM, with.ReachM, 0.02);
    }

    [Fact]
    public void A_hole_beside_the_pit_or_outside_is_left_out_and_named()
    {
        var near = new HoleReading { Name = "near", At = new(9.3, 9), VacuumPa = 5 };
        var outside = new HoleReading { Name = "yard", At = new(30, 3), VacuumPa = 5 };
        var slab = SlabCoverage.Compute(Wide(Readings(2).Append(near).Append(outside)));
        Assert.Equal(2, slab.Weaknesses.Count(said => said.Contains("was left out", StringComparison.Ordinal)));
        Assert.Equal(2, slab.ReachM, 0.05);
        Assert.Equal(2, slab.Holes.Count(hole => !hole.Used));
    }

    [Fact]
    public void A_footing_that_no_reading_tells_of_is_assumed_and_said()
    {
        var plan = Plans.Plan(Plans.Box(0, 0, 12, 4), 0.25, Plans.Footing(9, -1, 9, 5));
        var readings = new[] { 3.0, 4.0, 5.0 }.Select(x => new HoleReading { Name = "h", At = new(x, 2.1), VacuumPa = 100 * Math.Exp(-x) });
        var slab = SlabCoverage.Compute(new CoverageInput { Plan = plan, SuctionPoints = [Plans.Pit(1, 2)], Readings = [.. readings] });
        Assert.False(slab.FootingFitted);
        Assert.Contains(slab.Weaknesses, said => said.Contains("No reading tells how much the footings hinder", StringComparison.Ordinal));
    }

    // Arithmetic: T is the measured flow over the computed flow/T, and c = T/λ².
    [Fact]
    public void A_measured_flow_gives_the_layers_conductance()
    {
        var input = Wide(Readings(2));
        var slab = SlabCoverage.Compute(input with { SuctionPoints = [input.SuctionPoints[0] with { FlowM3PerS = 0.02 }] });
        Assert.Equal(0.02, slab.Map.Suction[0].FlowM3PerS!.Value, 1e-12);
        Assert.Equal(0.02 / slab.Map.Suction[0].FlowOverConductancePa, slab.ConductanceM3PerSPa!.Value, 1e-15);
        Assert.Equal(slab.ConductanceM3PerSPa.Value / slab.ReachM / slab.ReachM, slab.LeakinessM3PerSPaM2!.Value, 1e-15);
        Assert.Null(SlabCoverage.Compute(input).ConductanceM3PerSPa);
        Assert.Contains(SlabCoverage.Compute(input).Assumptions, said => said.StartsWith("No flow was measured", StringComparison.Ordinal));
        Assert.NotEmpty(slab.Sources);
    }

    [Fact]
    public void The_map_says_share_and_weakest_spot()
    {
        var slab = SlabCoverage.Compute(Plans.Unfitted(Plans.Plan(Plans.Box(0, 0, 10, 5)), 2, Plans.Pit(1, 2.5)));
        Assert.True(slab.Map.WeakestSpot.Centre.XM > 9.5);
        Assert.StartsWith(FormattableString.Invariant($"{slab.Map.ShareBeyondTarget * 100:0} % of the floor has at least 1 Pa"), slab.Map.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void A_higher_target_is_met_by_less_floor() =>
        Gen.Select(Plans.AnyEll, Plans.AnyPit, Gen.Double[0.1, 20], Gen.Double[1.1, 5]).Sample((plan, pit, target, more) =>
            SlabCoverage.Compute(Plans.Unfitted(plan, 2, pit) with { TargetPa = target * more }).Map.ShareBeyondTarget
                <= SlabCoverage.Compute(Plans.Unfitted(plan, 2, pit) with { TargetPa = target }).Map.ShareBeyondTarget, iter: 20);

    // A pit is a point in the sheet: close to it the map is good to about a hundredth of the pit's vacuum.
    [Fact]
    public void A_second_point_weakens_no_place() =>
        Gen.Select(Plans.AnyEllWithFooting, Plans.AnyPit, Gen.Double[2.2, 3.5], Gen.Double[0.5, 1.5]).Sample((plan, pit, x, y) =>
        {
            var slab = SlabCoverage.Compute(Plans.Unfitted(plan, 2, pit));
            var second = slab.WhatIf(pit with { At = new(x, y) });
            Assert.All(slab.Map.Cells.Zip(second.Cells), pair => Assert.True(pair.Second.VacuumPa >= pair.First.VacuumPa - 0.01 * pit.PitVacuumPa));
            Assert.True(second.BalanceError < 1e-6);
        }, iter: 20);

    [Fact]
    public void The_proposed_place_is_at_least_as_good_as_any_other() =>
        Gen.Select(Plans.AnyEllWithFooting, Plans.AnyPit, Gen.Int.Array[6]).Sample((plan, pit, tries) =>
        {
            var slab = SlabCoverage.Compute(Plans.Unfitted(plan, 1.2, pit) with { TargetPa = 5 });
            var best = slab.BestSecondPoint(pit.PitVacuumPa)!;
            foreach (var pick in tries)
            {
                var cell = slab.Map.Cells[(int)((uint)pick % slab.Map.Cells.Count)];
                if (cell.Centre.DistanceM(pit.At) < 0.8 || cell.AreaM2 < 0.06) continue;
                Assert.True(slab.WhatIf(pit with { At = cell.Centre, PitRadiusM = 0.15 }).ShareBeyondTarget <= best.Map.ShareBeyondTarget + 1e-9);
            }
        }, iter: 6);

    [Fact]
    public void On_a_large_plan_the_search_widens_its_stride_and_still_finds_the_far_end()
    {
        var slab = SlabCoverage.Compute(Plans.Unfitted(Plans.Plan(Plans.Box(0, 0, 30, 8)), 2, Plans.Pit(4, 4)) with { TargetPa = 3 });
        var best = slab.BestSecondPoint(250)!;
        Assert.True(best.Place.At.XM > 12);
        Assert.InRange(best.PlacesTried, 500, 2500);
        Assert.True(best.Map.ShareBeyondTarget > slab.Map.ShareBeyondTarget);
    }

    [Fact]
    public void Two_wide_pits_close_together_share_the_flow()
    {
        SuctionPlace Wide(double x) => Plans.Pit(x, 2) with { PitRadiusM = 0.6 };
        var map = SlabCoverage.Compute(Plans.Unfitted(Plans.Plan(Plans.Box(0, 0, 8, 4)), 1.5, Wide(3.75), Wide(4.25))).Map;
        Assert.True(map.BalanceError < 1e-6);
        Assert.Equal(map.Suction[0].FlowOverConductancePa, map.Suction[1].FlowOverConductancePa, 1e-6 * map.Suction[0].FlowOverConductancePa);
    }

    // No allocation in the inner loop: a search over every place takes no more memory than one over a hundredth of them.
    [Fact]
    public void Trying_more_places_takes_no_more_memory()
    {
        var slab = SlabCoverage.Compute(Plans.Unfitted(Plans.Plan(Plans.Box(0, 0, 8, 4)), 1.5, Plans.Pit(1, 2)));
        slab.BestSecondPoint(250);
        var few = Allocated(() => slab.BestSecondPoint(250, isAllowed: place => place.XM > 7.7));
        var all = Allocated(() => slab.BestSecondPoint(250));
        Assert.InRange(all, few - 2000, few + 2000);

        static long Allocated(Func<SecondPoint?> search)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            search();
            return GC.GetAllocatedBytesForCurrentThread() - before;
        }
    }

    [Fact]
    public void Places_that_may_not_be_drilled_are_not_proposed()
    {
        var slab = SlabCoverage.Compute(Plans.Unfitted(Plans.Plan(Plans.Box(0, 0, 8, 4)), 1.5, Plans.Pit(1, 2)));
        Assert.True(slab.BestSecondPoint(250, isAllowed: place => place.YM < 1)!.Place.At.YM < 1);
        Assert.Null(slab.BestSecondPoint(250, isAllowed: _ => false));
    }

    [Fact]
    public void Input_out_of_range_is_refused_by_name()
    {
        var good = Plans.Unfitted(Plans.Plan(Plans.Box(0, 0, 8, 4)), 2, Plans.Pit(1, 2));
        Refused("outside every slab", good with { SuctionPoints = [Plans.Pit(9, 2)] });
        Refused("Pit vacuum", good with { SuctionPoints = [Plans.Pit(1, 2, 0)] });
        Refused("Number of suction points", good with { SuctionPoints = [] });
        Refused("Grid", good with { Plan = good.Plan with { GridM = 0.5 } });
        Refused("Corners of slab 'slab'", good with { Plan = Plans.Plan(new SlabArea { Name = "slab", Corners = [new(0, 0), new(1, 1)] }) });
        Refused("Area of slab 'slab'", good with { Plan = Plans.Plan(Plans.Box(0, 0, 0.1, 0.1)) });
        Refused("Number of grid cells", good with { Plan = Plans.Plan(Plans.Box(0, 0, 90, 90)) });
        Refused("Target", good with { TargetPa = 0 });
        Refused("Footing across", good with { Plan = Plans.Plan(Plans.Box(0, 0, 8, 4), 0.25, Plans.Footing(2000, 0, 1, 1)) });
        Assert.Throws<ArgumentOutOfRangeException>(() => SlabCoverage.Compute(good).BestSecondPoint(0));

        static void Refused(string name, CoverageInput input) =>
            Assert.Contains(name, Assert.Throws<ArgumentOutOfRangeException>(() => SlabCoverage.Compute(input)).Message, StringComparison.Ordinal);
    }

    private static double Exact(double reach, (double X, double Y) spot) =>
        400 * SpecialFunctions.BesselK0(new PlanPoint(9, 9).DistanceM(new(spot.X, spot.Y)) / reach) / SpecialFunctions.BesselK0(0.15 / reach);

    private static IEnumerable<HoleReading> Readings(double reach) =>
        Spots.Select((spot, at) => new HoleReading { Name = $"hole {at + 1}", At = new(spot.X, spot.Y), VacuumPa = Exact(reach, spot) });

    private static CoverageInput Wide(IEnumerable<HoleReading> readings) => new()
    {
        Plan = Plans.Plan(Plans.Box(0, 0, 18, 18)),
        SuctionPoints = [Plans.Pit(9, 9, 400)],
        Readings = [.. readings],
    };
}
