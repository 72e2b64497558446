using System.Globalization;
using CsCheck;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Sizing;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Sizing;

public sealed class RankingTests
{
    private static readonly SizingInput House = Houses.One(("stairs", -40.0), ("corner", -12.0));

    [Fact]
    public void The_recommended_fan_is_the_cheapest_over_ten_years_of_those_that_hold() => Gen.Select(Gen.Double[-60, -3], Gen.Double[50, 900], Gen.Double[50, 900]).Sample((corner, a, b) =>
    {
        var input = Houses.One(("corner", corner)) with { Fans = [Houses.Fans[0] with { PriceDollars = a }, Houses.Fans[1] with { PriceDollars = b }, Houses.Fans[2]] };
        var report = SystemSizing.Compute(input);
        var holding = report.Fans.Where(f => f.Holds).ToArray();
        return report.RecommendedFanId == holding.MinBy(f => f.TenYearDollars)?.FanId
            && report.Fans.Take(holding.Length).All(f => f.Holds) && report.Fans.Zip(report.Fans.Skip(1)).All(p => !p.Second.Holds || p.First.TenYearDollars <= p.Second.TenYearDollars);
    });

    [Fact]
    public void A_higher_target_never_makes_a_fan_hold() => Gen.Double[0, 20].Select(Gen.Double[0, 20]).Sample((target, more) =>
    {
        SizingReport At(double pa) => SystemSizing.Compute(House with { Site = House.Site with { TargetPa = pa } });
        var (low, high) = (At(target), At(target + more));
        return high.Fans.All(f => !f.Holds || low.Fans.Single(l => l.FanId == f.FanId).Holds);
    });

    [Fact]
    public void The_range_holds_the_prediction_and_widens_with_a_coarser_gauge() => Gen.Double[0.5, 6].Select(Gen.Double[1, 20], Gen.Double[-100, -2]).Sample((fine, coarser, corner) =>
    {
        SizingReport At(double resolution) => SystemSizing.Compute(Houses.One(("corner", corner)) with { Test = Houses.Test(250, 0.02, ("corner", corner)) with { PitResolutionPa = resolution } });
        return At(fine).Fans.Zip(At(fine + coarser).Fans).All(both =>
        {
            var (a, b) = (both.First.Holes[0], both.Second.Holes[0]);
            return a.WinterLowPa <= a.WinterPa && a.WinterPa <= a.WinterHighPa && b.WinterLowPa <= a.WinterLowPa + 1e-9 && b.WinterHighPa >= a.WinterHighPa - 1e-9;
        });
    });

    [Fact]
    public void A_range_that_reaches_below_the_target_is_said()
    {
        var judged = SystemSizing.Compute(House).Fans.SelectMany(f => f.Holes).ToArray();
        var weakest = SystemSizing.Compute(House).Fans.Single(f => f.FanId == 3);
        var target = (weakest.WeakestWinterPa + weakest.Holes.Single(h => h.Label == weakest.WeakestHole).WinterLowPa) / 2;
        var close = SystemSizing.Compute(House with { Site = House.Site with { TargetPa = target } }).Fans.Single(f => f.FanId == 3);
        Assert.NotEmpty(judged);
        Assert.True(close.Holds);
        Assert.EndsWith("The low end of its range lies below that.", close.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_fan_and_system_meet_the_system_needs_what_the_fan_gives()
    {
        var system = SystemCurve.For(new SoilResistance(8e-5, 0.8, false), House.Route, House.Site);
        var point = system.Meet(Houses.Middling)!;
        Assert.Equal(point.FanPressurePa, system.NeededPa(point.FlowM3PerS), 1e-6 * point.FanPressurePa);
        Assert.Equal(point.PipeLossPa, system.PipeLossPa(point.FlowM3PerS), 1e-6 * point.FanPressurePa);
        Assert.Equal(0, (system with { Route = [] }).PipeLossPa(0.02));
        Assert.Null((system with { Soil = new SoilResistance(0.9, 1, false) }).Meet(new([new(0, 90, 9), new(0.001, 80, 9), new(0.002, 70, 9)])));
    }

    [Fact]
    public void The_same_readings_always_give_the_same_report() =>
        Assert.Equal(Json(SystemSizing.Compute(House)), Json(SystemSizing.Compute(House)));

    [Fact]
    public void Where_a_larger_pipe_would_do_it_is_named()
    {
        SizingInput In(string size, double targetPa) => Houses.One(("corner", -12.0)) with
        {
            Route = Houses.Route(size, 20, 7),
            Fans = [Houses.Fans[0]],
            Site = Houses.Site with { TargetPa = targetPa },
        };
        double Weakest(string size) => SystemSizing.Compute(In(size, 0)).Fans[0].WeakestWinterPa;
        var report = SystemSizing.Compute(In("2in", (Weakest("2in") + Weakest("3in")) / 2));
        Assert.Null(report.RecommendedFanId);
        Assert.StartsWith("One pipe size larger throughout: the Strong would then keep", report.WouldHelp[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Where_sealing_would_do_its_share_is_worked_out_and_does_it()
    {
        var open = Houses.One(("corner", -4.0)) with { Test = Houses.Test(100, 0.05, ("corner", -4.0)), Fans = [Houses.Fans[2]], Route = Houses.Route("4in") };
        open = open with { Site = open.Site with { TargetPa = 1.3 * SystemSizing.Compute(open).Fans[0].WeakestWinterPa } };
        var report = SystemSizing.Compute(open);
        Assert.Null(report.RecommendedFanId);
        var words = report.WouldHelp.Single(h => h.StartsWith("Sealing", StringComparison.Ordinal));
        var cut = double.Parse(words.Split(" A cut of ")[1].Split(" %")[0], CultureInfo.InvariantCulture) / 100;
        var tighter = open with { Test = open.Test with { Settings = [new PfeSetting("shop vacuum", 100, 0.05 * (1 - cut - 0.006))] } };
        Assert.NotNull(SystemSizing.Compute(tighter).RecommendedFanId);
    }

    [Fact]
    public void A_second_point_says_what_share_would_have_to_arrive()
    {
        var help = SystemSizing.Compute(Houses.One(("corner", -0.1))).WouldHelp;
        Assert.Contains(help, h => h.StartsWith("A second suction point near hole corner: 0.0 % of the pit's suction arrives there now", StringComparison.Ordinal));
        Assert.Contains(help, h => h.StartsWith("Sealing joints", StringComparison.Ordinal) && !h.Contains("A cut of", StringComparison.Ordinal));
    }

    [Fact]
    public void A_target_above_the_pit_itself_is_said_to_be_out_of_reach()
    {
        var report = SystemSizing.Compute(Houses.One(("corner", -5.0)) with { Test = Houses.Test(100, 0.05, ("corner", -5.0)), Fans = [Houses.Fans[2]], Site = Houses.Site with { TargetPa = 100 } });
        Assert.Contains(report.WouldHelp, h => h.StartsWith("A second suction point alone would not do", StringComparison.Ordinal));
    }

    [Fact]
    public void A_fan_that_outruns_its_curve_is_not_guessed_at()
    {
        var open = Houses.One(("corner", -5.0)) with { Test = Houses.Test(20, 0.2, ("corner", -5.0)), Route = Houses.Route("6in", 1, 1), Fans = [new(1, "Short", new([new(0.01, 400, 30), new(0.02, 350, 30), new(0.03, 300, 30)]), 100)] };
        var report = SystemSizing.Compute(open);
        Assert.Contains("more air here than its curve was measured for", report.Fans[0].Because, StringComparison.Ordinal);
        Assert.Contains(report.WouldHelp, h => h == "A second suction point, which brings its own suction to the weak holes.");
    }

    [Fact]
    public void Air_too_fast_for_its_own_water_does_not_hold()
    {
        var fast = SystemSizing.Compute(Houses.One(("corner", -50.0)) with { Test = Houses.Test(100, 0.04, ("corner", -50.0)), Route = Houses.Route("2in", 2, 1), Fans = [Houses.Fans[0]] }).Fans[0];
        Assert.False(fast.Holds);
        Assert.Equal(VelocityFlag.TooFast, fast.Point!.Velocity);
        Assert.Contains("condensate no longer runs back", fast.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void A_hole_that_loses_its_suction_in_winter_is_named() =>
        Assert.Contains(SystemSizing.Compute(Houses.One(("corner", -0.1))).Fans, f => f.Because == "Hole corner would lose its suction in design winter.");

    [Fact]
    public void A_test_on_a_colder_day_than_design_winter_adds_nothing_back()
    {
        var cold = House with { Test = House.Test with { OutdoorC = -35 } };
        var report = SystemSizing.Compute(cold);
        Assert.Contains("The test's day pulled harder than design winter will; nothing is added back for that.", report.Assumptions);
        Assert.All(report.Fans, f => Assert.All(f.Holes, h => Assert.Equal(h.NowPa, h.WinterPa, 1e-9)));
    }

    [Fact]
    public void A_baseline_that_already_pushes_is_taken_off_what_the_fan_brings()
    {
        double Now(double off) => SystemSizing.Compute(House with { Test = House.Test with { Holes = [new("corner", null, off, [off - 12.0])] } }).Fans[0].WeakestNowPa;
        Assert.Equal(Now(0) - 1.5, Now(1.5), 1e-9);
    }

    [Fact]
    public void A_fan_tried_near_shut_off_still_has_a_range()
    {
        var tried = new PfeTest([new("Gentle", 128, null, null, Houses.Gentle)], [new("corner", null, 0, [-30.0])], -15, 21);
        var hole = SystemSizing.Compute(House with { Test = tried }).Fans.Single(f => f.FanId == 3).Holes[0];
        Assert.True(hole.WinterLowPa < hole.WinterPa && hole.WinterPa < hole.WinterHighPa);
    }

    [Fact]
    public void A_range_never_reaches_beyond_the_fan_s_curve()
    {
        var whole = SystemSizing.Compute(House).Fans.Single(f => f.FanId == 2).Point!;
        var last = 1.001 * whole.FlowM3PerS;
        var cut = Enumerable.Range(0, 9).Select(i => last * i / 8.0).Select(q => new Engineering.Fans.FanPoint(q, Houses.Middling.PressurePa(q), Houses.Middling.WattsAt(q)));
        var result = SystemSizing.Compute(House with { Fans = [new(2, "Cut short", new(cut), 200)] }).Fans[0];
        // Less loss or looser ground would carry it off the curve, so only the cases on the curve are in the range.
        Assert.Equal(whole.FlowM3PerS, result.Point!.FlowM3PerS, 1e-3 * whole.FlowM3PerS);
        Assert.True(result.Holes[0].WinterLowPa <= result.Holes[0].WinterPa && result.Holes[0].WinterPa <= result.Holes[0].WinterHighPa);
    }

    [Fact]
    public void Any_reading_on_the_tried_fan_s_curve_can_be_sized_at_any_elevation() => Gen.Double[0.001, 0.999].Select(Gen.Double[0, 3000], Gen.Double[0.1, 20]).Sample((along, elevation, resolution) =>
    {
        var site = House.Site with { ElevationM = elevation };
        var density = Engineering.Air.MoistAir.At(site.GroundC, 1, elevation).DensityKgPerM3;
        var pit = Houses.Gentle.PressurePa(along * Houses.Gentle.GreatestFlowM3PerS, density);
        var tried = new PfeTest([new("Gentle", pit, null, null, Houses.Gentle)], [new("corner", null, 0, [-0.2 * pit])], -15, 21) { PitResolutionPa = resolution };
        return SystemSizing.Compute(House with { Site = site, Test = tried }).Fans.All(f => f.Holes.All(h => h.WinterLowPa <= h.WinterPa && h.WinterPa <= h.WinterHighPa));
    });

    [Theory]
    [MemberData(nameof(Wrong))]
    public void A_design_that_cannot_be_is_refused_in_words(SizingInput input, string words) =>
        Assert.Contains(words, Assert.ThrowsAny<ArgumentException>(() => SystemSizing.Compute(input)).Message, StringComparison.Ordinal);

    public static TheoryData<SizingInput, string> Wrong => new()
    {
        { House with { Fans = [] }, "There is no fan to compare" },
        { House with { Route = [.. Houses.Route()[..3]] }, "The route ends at the fan" },
        { House with { Site = House.Site with { TargetPa = -1 } }, "TargetPa is -1 Pa" },
        { House with { Site = House.Site with { IndoorAirShare = 2 } }, "IndoorAirShare is 2" },
        { House with { Route = [new(PieceKind.Pipe, PipeSize.Of("3in"), 5, 0), .. Houses.Route()] }, "piece.Count is 0 pieces" },
        { House with { Route = [new(PieceKind.Elbow90, PipeSize.Of("3in"), LossK: 80), .. Houses.Route()] }, "piece.K is 80" },
        { House with { Test = House.Test with { Holes = [new("1", null, 0, [null])] } }, "No test hole has a reading with a fan on." },
        { House with { Fans = [Houses.Fans[0] with { LifeYears = 0 }] }, "lifeYears is 0 years" },
    };

    private static string Json(SizingReport report) => System.Text.Json.JsonSerializer.Serialize(report);
}
