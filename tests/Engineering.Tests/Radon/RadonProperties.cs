using CsCheck;
using MitigationOffice.Engineering.Radon;
using static MitigationOffice.Engineering.Tests.Radon.RadonNumbers;

namespace MitigationOffice.Engineering.Tests.Radon;

public class RadonProperties
{
    private static readonly Gen<RadonConcentration> AnyRadon =
        Gen.Int[0, 500_000].Select(thousandths => RadonConcentration.FromPciPerL(thousandths / 1000m));

    private static readonly Gen<RadonConcentration> SomeRadon = AnyRadon.Where(radon => radon.PciPerL > 0);

    [Fact]
    public void Units_return_after_a_round_trip() => AnyRadon.Sample(radon =>
        Assert.True(Math.Abs(RadonConcentration.FromBqPerM3(radon.BqPerM3).PciPerL - radon.PciPerL) < 1e-20m));

    [Fact]
    public void The_reported_value_is_never_further_than_half_a_tenth() => AnyRadon.Sample(radon =>
        Assert.True(Math.Abs(radon.ReportedPciPerL - radon.PciPerL) <= 0.05m && decimal.IsInteger(radon.ReportedPciPerL * 10m)));

    [Fact]
    public void Reporting_keeps_order() => Gen.Select(AnyRadon, AnyRadon).Sample((first, second) =>
        Assert.True(first > second || first.ReportedPciPerL <= second.ReportedPciPerL));

    [Fact]
    public void A_higher_result_never_has_a_lower_level() => Gen.Select(AnyRadon, AnyRadon).Where((a, b) => a <= b).Sample((lower, higher) =>
    {
        Assert.True(RadonLevels.EpaLevelOf(lower) <= RadonLevels.EpaLevelOf(higher));
        Assert.True(RadonLevels.WhoLevelOf(lower) <= RadonLevels.WhoLevelOf(higher));
    });

    [Fact]
    public void An_average_lies_between_the_least_and_the_most() => AnyRadon.List[1, 12].Sample(results =>
    {
        var average = RadonConcentration.Average(results);
        Assert.True(average >= results.Min() && average <= results.Max());
    });

    [Fact]
    public void A_pair_is_judged_alike_in_either_order() => Gen.Select(AnyRadon, AnyRadon).Sample((first, second) =>
    {
        Assert.Equal(RadonStatistics.JudgeDuplicates(first, second), RadonStatistics.JudgeDuplicates(second, first));
        Assert.Equal(TwoResults.Decide(first, second).Decision, TwoResults.Decide(second, first).Decision);
    });

    [Fact]
    public void A_relative_difference_lies_from_nought_to_two_hundred() => Gen.Select(SomeRadon, AnyRadon).Sample((first, second) =>
        Assert.InRange(RadonStatistics.RelativePercentDifference(first, second), 0m, 200m));

    [Fact]
    public void A_relative_difference_does_not_depend_on_the_unit() => Gen.Select(SomeRadon, AnyRadon).Sample((first, second) =>
    {
        var (a, b) = (first.BqPerM3, second.BqPerM3);
        var inBecquerels = 100m * Math.Abs(a - b) / ((a + b) / 2m);
        Assert.True(Math.Abs(RadonStatistics.RelativePercentDifference(first, second) - inBecquerels) < 1e-18m);
    });

    [Fact]
    public void A_device_that_reads_its_reference_has_no_error() => SomeRadon.Sample(reference =>
    {
        var finding = RadonStatistics.JudgeSpike(reference, reference);
        Assert.Equal((0m, ControlZone.Within), (finding.RelativePercentError, finding.Zone));
    });

    [Fact]
    public void Two_results_ask_for_another_test_only_across_the_action_level() => Gen.Select(AnyRadon, AnyRadon).Sample((first, second) =>
    {
        if (TwoResults.Decide(first, second).Decision != TwoResultDecision.TestAgainFirst)
            return;
        Assert.NotEqual(first.ReportedPciPerL >= 4m, second.ReportedPciPerL >= 4m);
        Assert.True(Math.Max(first.PciPerL, second.PciPerL) >= 2m * Math.Min(first.PciPerL, second.PciPerL));
    });

    [Fact]
    public void More_tests_never_owe_fewer_checks() => Gen.Select(Gen.Int[0, 5000], Gen.Int[0, 5000]).Where((a, b) => a <= b).Sample((fewer, more) =>
    {
        var (low, high) = (QualityChecksOwed.ForMonth(new(fewer, fewer, fewer)), QualityChecksOwed.ForMonth(new(more, more, more)));
        Assert.True(low.Duplicates <= high.Duplicates && low.Blanks <= high.Blanks && low.Spikes <= high.Spikes
            && low.SpikesByShare <= high.SpikesByShare && low.MonitorComparisons <= high.MonitorComparisons);
        Assert.True(high.Spikes <= 6 && high.Duplicates <= 50 && high.Blanks <= 25);
    });

    [Fact]
    public void Exposure_adds_up_over_hours() => Gen.Select(AnyRadon, Gen.Int[0, 4000], Gen.Int[0, 4000]).Sample((radon, first, second) =>
        Assert.True(Math.Abs(
            WorkerExposure.WorkingLevelMonths(radon, first) + WorkerExposure.WorkingLevelMonths(radon, second)
            - WorkerExposure.WorkingLevelMonths(radon, first + second)) < 1e-18m));

    [Fact]
    public void Decay_over_two_spans_is_the_product_of_both() => Gen.Select(Gen.Double[0, 50], Gen.Double[0, 50]).Sample((first, second) =>
        Assert.Equal(RadonDecay.ShareLeft(first) * RadonDecay.ShareLeft(second), RadonDecay.ShareLeft(first + second), 1e-12));

    [Fact]
    public void The_hours_of_a_monitor_are_all_accounted_for() =>
        Gen.Select(Gen.Int[4, 30], AnyRadon.Array[0, 120]).Sample((dropped, hours) =>
        {
            var finding = new MonitorSeries(At("2025-01-01 00:00"), [.. hours.Select(hour => new MonitorHour(hour))])
                .Judge(new() { DropFirstHours = dropped });
            Assert.Equal(hours.Length, finding.HoursDroppedFirst + finding.HoursUsed);
            Assert.Equal(finding.HoursUsed >= 46, finding.IsValid);
            if (finding.HoursUsed > 0)
                Assert.Equal(RadonConcentration.Average(hours[dropped..]), finding.Average);
        });

    [Fact]
    public void One_hour_cut_from_inside_always_invalidates() =>
        Gen.Select(Gen.Int[5, 98], AnyRadon.Array[100]).Sample((cut, hours) =>
            Assert.False(new MonitorSeries(At("2025-01-01 00:00"), [.. hours.Select((hour, index) => new MonitorHour(hour, index == cut))])
                .Judge(new() { ShortestHours = 1 }).IsValid));

    [Fact]
    public void A_lower_result_never_turns_a_valid_verdict_worse() => Gen.Select(AnyRadon, AnyRadon).Where((a, b) => a <= b).Sample((lower, higher) =>
        Assert.True(Outcome(lower) <= Outcome(higher)));

    [Fact]
    public void Separate_places_are_never_averaged() => AnyRadon.List[1, 8].Sample(results =>
    {
        var test = PostMitigationVerdictTests.Charcoal("1");
        var devices = results.Select((result, index) => test.Devices[0] with { Name = $"{index}", Result = result });
        var verdict = PostMitigationVerdict.Draw(test with { Devices = [.. devices] });
        Assert.Equal(results.OrderDescending(), verdict.Locations.Select(place => place.Result));
        Assert.Equal(results.Max(), verdict.Deciding);
    });

    private static TestOutcome Outcome(RadonConcentration result)
    {
        var test = PostMitigationVerdictTests.Charcoal("1");
        return PostMitigationVerdict.Draw(test with { Devices = [test.Devices[0] with { Result = result }] }).Outcome;
    }
}
