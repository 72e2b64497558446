using CsCheck;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Sizing;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Sizing;

public sealed class SystemSizingTests
{
    private const double Cfm = 4.719474432e-4;
    private const double InWC = 249.08891;

    /// <summary>Two fans whose curves pass the readings below; the curves are made up to fit, the readings are common practice, no source.</summary>
    private static readonly FanCurve Big = Curve((0, 1.25, 38), (50, 1.14, 41.5), (97, 0.9, 42), (125, 0.65, 42), (165, 0.05, 41));
    private static readonly FanCurve Small = Curve((0, 0.8, 13), (25, 0.75, 14.2), (60, 0.555, 15.2), (80, 0.32, 16), (100, 0.02, 16));

    /// <summary>Source: common practice, no source. A 42 W fan gave 6.0 Pa at the weakest hole, a 15 W fan 3.7 Pa, 3.0 Pa once the pipe was in,
    /// and the smaller was right; a hole beside the pit read 213 Pa while the manometer read 0.9 inWC.</summary>
    [Fact]
    public void The_smaller_fan_that_still_holds_wins_and_one_sentence_says_why()
    {
        var report = SystemSizing.Compute(Input(length: 12));
        var small = report.Fans.Single(f => f.FanId == 15);
        Assert.Equal(3.0, small.WeakestNowPa, 0.15);
        Assert.Equal(15, report.RecommendedFanId);
        Assert.Contains("The 15 W fan (15 W) holds", report.Why, StringComparison.Ordinal);
        Assert.Matches(@"the 42 W fan \(4[0-4] W\) pulls more than is needed and costs about \$\d+ more a year", report.Why);
        Assert.Equal(213, report.Ground.Holes.Single(h => h.Label == "beside the pit").Ratio * 0.9 * InWC, 0.5);
    }

    /// <summary>Source: common practice, no source: the smaller fan saves about $26 a year at 11 ¢/kWh, 42 W less 15.2 W over 8760 h.</summary>
    [Fact]
    public void The_smaller_fan_saves_about_26_dollars_of_electricity()
    {
        var input = Input(length: 12);
        var report = SystemSizing.Compute(input with { Site = input.Site with { IndoorAirShare = 0 } });
        var (small, big) = (report.Fans.Single(f => f.FanId == 15), report.Fans.Single(f => f.FanId == 42));
        Assert.Equal(26, big.ElectricityDollarsPerYear - small.ElectricityDollarsPerYear, 1.5);
        Assert.Equal(0, small.HouseAirDollarsPerYear);
        Assert.Matches(@"costs about \$2[4-7] more a year\.$", report.Why);
    }

    /// <summary>Source: common practice, no source: the readings themselves come back when the fans stand right on the pit.</summary>
    [Fact]
    public void Right_on_the_pit_the_fans_give_the_readings_back()
    {
        var input = Input(length: 12);
        var stub = new RoutePiece[] { new(PieceKind.Fan, PipeSize.Of("6in")), new(PieceKind.Pipe, PipeSize.Of("6in"), 0.1) };
        var report = SystemSizing.Compute(input with { Route = stub });
        Assert.Equal(6.0, report.Fans.Single(f => f.FanId == 42).WeakestNowPa, 0.1);
        Assert.Equal(3.7, report.Fans.Single(f => f.FanId == 15).WeakestNowPa, 0.1);
    }

    [Fact]
    public void The_balance_of_fan_and_system_closes()
    {
        foreach (var fan in SystemSizing.Compute(Input(length: 13)).Fans)
            Assert.True(Math.Abs(fan.Point!.ResidualPa) < 1e-6 * fan.Point.FanPressurePa);
    }

    [Fact]
    public void A_longer_pipe_never_helps() => Gen.Double[1, 60].Select(Gen.Double[1.01, 2]).Sample((length, more) =>
    {
        var (near, far) = (SystemSizing.Compute(Input(length)), SystemSizing.Compute(Input(length * more)));
        return near.Fans.All(n => n.WeakestNowPa >= far.Fans.Single(f => f.FanId == n.FanId).WeakestNowPa);
    });

    [Fact]
    public void A_colder_design_winter_leaves_less() => Gen.Double[-40, 0].Select(Gen.Double[0.1, 15]).Sample((design, colder) =>
    {
        var (mild, hard) = (SystemSizing.Compute(Input(13, design)), SystemSizing.Compute(Input(13, Math.Max(-60, design - colder))));
        return mild.Fans.All(m => m.WeakestWinterPa >= hard.Fans.Single(f => f.FanId == m.FanId).WeakestWinterPa);
    });

    [Fact]
    public void Where_no_fan_holds_the_report_says_what_would()
    {
        var report = SystemSizing.Compute(Input(13, targetPa: 60));
        Assert.Null(report.RecommendedFanId);
        Assert.StartsWith("No fan of the catalogue keeps 60.0 Pa", report.Why, StringComparison.Ordinal);
        Assert.Contains(report.WouldHelp, h => h.StartsWith("A second suction point", StringComparison.Ordinal));
    }

    [Fact]
    public void A_fan_too_weak_for_the_route_is_said_to_be_off_its_curve()
    {
        var input = Input(13);
        var weak = input with { Fans = [new(1, "toy", Curve((20, 0.02, 3), (25, 0.01, 3), (30, 0.005, 3)), 50)] };
        var toy = SystemSizing.Compute(weak).Fans.Single();
        Assert.Null(toy.Point);
        Assert.Contains("too weak", toy.Because, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true, "exactly one fan")]
    [InlineData(false, "The route has no pipe")]
    public void A_route_without_an_end_is_refused_in_words(bool pipe, string words)
    {
        var route = pipe ? new RoutePiece[] { new(PieceKind.Pipe, PipeSize.Of("4in"), 5) } : [new(PieceKind.Fan, PipeSize.Of("4in"))];
        Assert.Contains(words, Assert.Throws<ArgumentException>(() => SystemSizing.Compute(Input(13) with { Route = route })).Message, StringComparison.Ordinal);
    }

    /// <summary>Source: arithmetic: with nothing but the ground in the way, the pit has the fan's whole pressure.</summary>
    [Fact]
    public void Without_pipe_the_pit_has_what_the_fan_gives()
    {
        var system = SystemCurve.For(new SoilResistance(1e-4, 1, true), [], Input(1).Site);
        var point = system.Meet(Big)!;
        Assert.Equal(point.FanPressurePa, point.PitVacuumPa, 1e-6);
        Assert.Equal(point.FlowM3PerS, 1e-4 * point.PitVacuumPa, 1e-9);
    }

    private static SizingInput Input(double length, double designC = -23.3, double targetPa = 1)
    {
        var size = PipeSize.Of("4in");
        var site = new SizingSite(0, designC, 21.1, 10, 2.4, targetPa, 11, 4300, 0.8, 1.2, 0.5);
        var (bigPit, smallPit) = (0.9 * InWC, 0.9 * InWC * 3.7 / 6.0);
        var test = new PfeTest(
            [new("42 W fan", bigPit, null, 42, Big), new("15 W fan", smallPit, null, 15.2, Small)],
            [new("far", 9, 0, [-6.0, -3.7]), new("beside the pit", 0.5, 0, [-213, -213 * 3.7 / 6.0])], -12, 21.1);
        RoutePiece[] route =
        [
            new(PieceKind.Pipe, size, length), new(PieceKind.Elbow90, size, Count: 5), new(PieceKind.Fan, size), new(PieceKind.Pipe, size, 4.5, Outdoors: true, RiseM: 4.5),
        ];
        return new(site, test, route, [new(42, "42 W fan", Big, 300), new(15, "15 W fan", Small, 280)]);
    }

    private static FanCurve Curve(params (double Cfm, double InWC, double Watts)[] points) =>
        new(points.Select(p => new FanPoint(p.Cfm * Cfm, p.InWC * InWC, p.Watts)));
}
