using CsCheck;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Slab;

/// <summary>What a PFE test makes of good, odd and missing readings.</summary>
public sealed class PfeReadingTests
{
    private static readonly FanCurve Curve = new([new(0, 300, 15), new(0.02, 200, 18), new(0.04, 20, 20)]);

    [Fact]
    public void A_reading_above_shut_off_names_wrong_fan_wrong_reading_or_blocked_pipe()
    {
        var found = PfeAnalysis.Of(Test([new("tried", 350, null, null, Curve), new("vacuum", 150, 0.02)], new PfeHole("1", 3, 0, [-5.0, -2.0])));
        Assert.Contains(found.Warnings, w => w.StartsWith("tried: 1.41 inWC is off this fan's curve (0.08 to 1.20 inWC). Wrong fan", StringComparison.Ordinal));
        Assert.Equal("vacuum", Assert.Single(found.Flows).Label);
    }

    [Fact]
    public void A_measured_flow_far_from_the_curve_is_used_and_named()
    {
        var found = PfeAnalysis.Of(Test([new("tried", 200, 0.04, 18, Curve)], new PfeHole("1", 3, 0, [-5.0])));
        Assert.Contains(found.Warnings, w => w.Contains("differ by more than 30 %", StringComparison.Ordinal));
        Assert.True(found.Flows[0].Measured);
        Assert.Equal((0.036, 0.04, 0.044), (Math.Round(found.Flows[0].LowM3PerS, 9, MidpointRounding.AwayFromZero), found.Flows[0].FlowM3PerS, Math.Round(found.Flows[0].HighM3PerS, 9, MidpointRounding.AwayFromZero)));
        Assert.DoesNotContain(found.Warnings, w => w.Contains(" W were measured", StringComparison.Ordinal));
    }

    [Fact]
    public void A_flow_read_off_the_curve_has_the_range_of_its_slope()
    {
        var flow = PfeAnalysis.Of(Test([new("tried", 200, null, null, Curve)], new PfeHole("1", 3, 0, [-5.0]))).Flows[0];
        Assert.Equal(0.02 + 6.2 / Curve.SlopePaSPerM3(0.02), flow.LowM3PerS, 1e-4);
        Assert.Equal(0.02 - 6.2 / Curve.SlopePaSPerM3(0.02), flow.HighM3PerS, 1e-4);
    }

    [Theory]
    [InlineData(299, 300)]
    [InlineData(21, 20)]
    public void At_the_edge_of_the_curve_the_range_ends_there(double pit, double edge)
    {
        var flow = PfeAnalysis.Of(Test([new("tried", pit, null, null, Curve)], new PfeHole("1", 3, 0, [-5.0]))).Flows[0];
        Assert.Equal(Curve.FlowAt(edge)!.Value, edge == 300 ? flow.LowM3PerS : flow.HighM3PerS, 1e-6);
    }

    [Fact]
    public void Settings_that_hardly_differ_fit_no_exponent()
    {
        var found = PfeAnalysis.Of(Test([new("a", 200, 0.02), new("b", 210, 0.022)], new PfeHole("1", 3, 0, [-5.0, -5.2])));
        Assert.True(found.Soil.ExponentAssumed);
        Assert.Contains("Soil exponent assumed 1: the settings lie too close together to fit it.", found.Assumptions);
    }

    [Theory]
    [InlineData(1.32, 1.0, "The settings fit a soil exponent of 1.32; 1.0 is used, the nearest that flow through soil can have.")]
    [InlineData(0.45, 0.5, "The settings fit a soil exponent of 0.45; 0.5 is used, the nearest that flow through soil can have.")]
    public void An_exponent_that_no_soil_has_is_held_and_said(double read, double used, string words)
    {
        var found = PfeAnalysis.Of(Test([new("a", 100, 0.01), new("b", 200, 0.01 * Math.Pow(2, read))], new PfeHole("1", 3, 0, [-5.0, -5.2])));
        Assert.Equal(used, found.Soil.Exponent);
        Assert.Contains(words, found.Assumptions);
    }

    [Fact]
    public void A_hole_whose_pressure_rises_is_named_and_counts_as_nothing()
    {
        var found = PfeAnalysis.Of(Test([new("vacuum", 200, 0.02)], new PfeHole("1", 3, 0, [2.0])));
        Assert.Contains(found.Warnings, w => w.Contains("the pressure rose by 2.0 Pa where it should fall", StringComparison.Ordinal));
        Assert.Equal(0, found.Holes[0].Ratio);
    }

    [Fact]
    public void A_hole_with_more_suction_than_the_pit_is_named() =>
        Assert.Contains(PfeAnalysis.Of(Test([new("vacuum", 20, 0.02)], new PfeHole("1", 3, 0, [-30.0]))).Warnings, w => w.Contains("more suction than the pit itself", StringComparison.Ordinal));

    [Fact]
    public void A_hole_without_a_fan_off_reading_is_taken_at_zero_and_said()
    {
        var found = PfeAnalysis.Of(Test([new("vacuum", 200, 0.02)], new PfeHole("1", 3, null, [-4.0])));
        Assert.Contains("Hole 1: no reading with the fan off; 0 Pa taken.", found.Assumptions);
        Assert.Equal(0.02, found.Holes[0].Ratio, 1e-12);
    }

    [Fact]
    public void A_hole_without_any_reading_is_left_out_and_said()
    {
        var found = PfeAnalysis.Of(Test([new("vacuum", 200, 0.02)], new PfeHole("1", 3, 0, [-4.0]), new PfeHole("2", 3, 0, [null])));
        Assert.Equal("1", Assert.Single(found.Holes).Label);
        Assert.Contains("Hole 2 has no reading with a fan on; it is left out.", found.Warnings);
    }

    [Theory]
    [MemberData(nameof(Impossible))]
    public void A_test_that_cannot_be_read_is_refused_in_words(PfeTest test, string words) =>
        Assert.Contains(words, Assert.ThrowsAny<ArgumentException>(() => PfeAnalysis.Of(test)).Message, StringComparison.Ordinal);

    public static TheoryData<PfeTest, string> Impossible => new()
    {
        { new PfeTest([], [new("1", 3, 0, [])], 0, 20), "needs one fan or vacuum" },
        { new PfeTest([new("a", 200, 0.02)], [], 0, 20), "at least one test hole" },
        { new PfeTest([new("a", 200, 0.02)], [new("1", 3, 0, [-1.0, -2.0])], 0, 20), "has 2 readings for 1 settings" },
        { new PfeTest([new("a", 0, 0.02)], [new("1", 3, 0, [-1.0])], 0, 20), "setting.PitVacuumPa is 0 Pa" },
        { new PfeTest([new("a", 200, 0.02)], [new("1", 3, 0, [-9000.0])], 0, 20), "reading is -9000 Pa" },
    };

    [Fact]
    public void Transfer_times_pit_gives_the_readings_back() => Gen.Select(Gen.Double[20, 400], Gen.Double[0, 1], Gen.Double[-3, 3]).Sample((pit, share, off) =>
        Math.Abs(PfeAnalysis.Of(Test([new("vacuum", pit, 0.02)], new PfeHole("1", 3, off, [off - share * pit]))).Holes[0].Ratio - share) < 1e-9);

    [Fact]
    public void The_range_of_a_transfer_holds_it_and_widens_with_a_coarser_gauge() => Gen.Select(Gen.Double[50, 400], Gen.Double[0.01, 0.9], Gen.Double[1, 20]).Sample((pit, share, coarser) =>
    {
        HoleTransfer Found(double resolution) => PfeAnalysis.Of(Test([new("vacuum", pit, 0.02)], new PfeHole("1", 3, 0, [-share * pit])) with { PitResolutionPa = resolution }).Holes[0];
        var (fine, coarse) = (Found(1), Found(1 + coarser));
        return fine.Low <= share && share <= fine.High && coarse.Low <= fine.Low && coarse.High >= fine.High;
    });

    [Fact]
    public void Ground_draws_and_needs_the_same() => Gen.Select(Gen.Double[-6, -2], Gen.Double[0.5, 1], Gen.Double[0.1, 2000]).Sample((g, n, p) =>
    {
        var soil = new SoilResistance(Math.Pow(10, g), n, false);
        return Math.Abs(soil.PitVacuumPa(soil.FlowM3PerS(p)) / p - 1) < 1e-9 && soil.FlowM3PerS(-p) == 0 && soil.PitVacuumPa(-1) == 0;
    });

    [Fact]
    public void A_setting_without_measured_or_readable_flow_is_left_out_of_the_ground()
    {
        var found = PfeAnalysis.Of(Test([new("a", 200, 0.02), new("shop vacuum", 400), new("zero", 100, 0)], new PfeHole("1", 3, 0, [-5.0, -10.0, -2.5])));
        Assert.Equal("a", Assert.Single(found.Flows).Label);
        Assert.Equal(0.025, found.Holes[0].Ratio, 1e-12);
    }

    private static PfeTest Test(PfeSetting[] settings, params PfeHole[] holes) => new(settings, holes, 0, 20);
}
