using MitigationOffice.Engineering.Radon;
using static MitigationOffice.Engineering.Tests.Radon.RadonNumbers;

namespace MitigationOffice.Engineering.Tests.Radon;

public class RadonStatisticsTests
{
    // Source: limits ANSI/AARST MS-QA 2019, 3.5 and Table 7.1; the percentages are arithmetic on made-up pairs.
    [Theory]
    [InlineData("4.8", "5.6", "5.2", "15.38", ControlZone.Within)]
    [InlineData("4.0", "5.0", "4.5", "22.22", ControlZone.Within)]
    [InlineData("5.0", "7.0", "6.0", "33.33", ControlZone.Warning)]
    [InlineData("4.0", "5.8", "4.9", "36.73", ControlZone.Control)]
    [InlineData("4.0", "5.75", "4.875", "35.90", ControlZone.Warning)]
    [InlineData("2.0", "3.9", "2.95", "64.41", ControlZone.Warning)]
    [InlineData("2.1", "4.2", "3.15", "66.67", ControlZone.Warning)]
    [InlineData("4.3", "5.7", "5.0", "28.00", ControlZone.Warning)]
    [InlineData("4.31", "5.7", "5.005", "27.77", ControlZone.Within)]
    [InlineData("4.1", "5.9", "5.0", "36.00", ControlZone.Control)]
    [InlineData("3.0", "5.0", "4.0", "50.00", ControlZone.Control)]
    [InlineData("2.25", "3.75", "3.0", "50.00", ControlZone.Warning)]
    [InlineData("2.26", "3.75", "3.005", "49.58", ControlZone.Within)]
    [InlineData("1.33", "2.67", "2.0", "67.00", ControlZone.Control)]
    public void A_pair_is_judged_by_its_relative_difference(string first, string second, string mean, string percent, ControlZone zone)
    {
        var finding = RadonStatistics.JudgeDuplicates(PciPerL(first), PciPerL(second));
        Assert.Equal(D(mean), finding.Mean.PciPerL);
        Assert.Equal(D(percent), Math.Round(finding.RelativePercentDifference!.Value, 2, MidpointRounding.AwayFromZero));
        Assert.Equal(zone, finding.Zone);
        Assert.Same(RadonSources.PairLimits, finding.Source);
    }

    // Source: ANSI/AARST MS-QA 2019, Table 7.1: below 2.0 a difference of at most 1.0 pCi/L.
    [Theory]
    [InlineData("1.2", "2.1", "0.9", ControlZone.Within)]
    [InlineData("1.0", "2.0", "1.0", ControlZone.Within)]
    [InlineData("0.9", "2.0", "1.1", ControlZone.Control)]
    [InlineData("0", "0", "0", ControlZone.Within)]
    public void A_low_pair_is_judged_by_its_difference(string first, string second, string difference, ControlZone zone)
    {
        var finding = RadonStatistics.JudgeDuplicates(PciPerL(first), PciPerL(second));
        Assert.Equal(D(difference), finding.DifferencePciPerL);
        Assert.Null(finding.RelativePercentDifference);
        Assert.Equal(zone, finding.Zone);
    }

    // Source: ANSI/AARST MS-QA 2019, 3.5.1, 3.5.2, Table 7.1.
    [Fact]
    public void The_band_of_limits_is_chosen_by_the_average()
    {
        Assert.Equal(new PairLimits(14, 28, 36, null), PairLimits.For(PciPerL("4.0")));
        Assert.Equal(new PairLimits(25, 50, 67, null), PairLimits.For(PciPerL("3.999")));
        Assert.Equal(new PairLimits(25, 50, 67, null), PairLimits.For(PciPerL("2.0")));
        Assert.Equal(new PairLimits(null, null, null, 1.0m), PairLimits.For(PciPerL("1.999")));
    }

    // Source: ANSI/AARST MS-QA 2019, 5.3.3: outside ±20 % warns, outside ±30 % is out of control.
    [Theory]
    [InlineData("12.5", "25", ControlZone.Warning)]
    [InlineData("13.5", "35", ControlZone.Control)]
    [InlineData("12.0", "20", ControlZone.Within)]
    [InlineData("12.01", "20.1", ControlZone.Warning)]
    [InlineData("13.0", "30", ControlZone.Warning)]
    [InlineData("13.01", "30.1", ControlZone.Control)]
    [InlineData("8.0", "-20", ControlZone.Within)]
    [InlineData("7.5", "-25", ControlZone.Warning)]
    [InlineData("6.9", "-31", ControlZone.Control)]
    public void A_spike_is_judged_by_its_relative_error(string measured, string percent, ControlZone zone)
    {
        var finding = RadonStatistics.JudgeSpike(PciPerL(measured), PciPerL("10.0"));
        Assert.Equal(D(percent), finding.RelativePercentError);
        Assert.Equal(zone, finding.Zone);
    }

    // Source: arithmetic: |a − b|/√2 over the mean is the sample standard deviation of two values over their mean.
    [Fact]
    public void The_coefficient_of_variation_of_a_pair_is_its_sample_deviation_over_its_mean()
    {
        var ours = RadonStatistics.CoefficientOfVariation(PciPerL("4.8"), PciPerL("5.6"));
        var theirs = 100 * MathNet.Numerics.Statistics.Statistics.StandardDeviation([4.8, 5.6]) / 5.2;
        Assert.Equal(theirs, (double)ours, 1e-10);
        Assert.Equal(10.88m, Math.Round(ours, 2, MidpointRounding.AwayFromZero));
    }

    [Fact]
    public void Nothing_can_be_relative_to_zero()
    {
        var pair = Assert.Throws<ArgumentException>(() => RadonStatistics.RelativePercentDifference(PciPerL("0"), PciPerL("0")));
        Assert.Contains("needs one above 0 pCi/L", pair.Message, StringComparison.Ordinal);
        var spike = Assert.Throws<ArgumentException>(() => RadonStatistics.JudgeSpike(PciPerL("1"), PciPerL("0")));
        Assert.Contains("needs a reference above 0 pCi/L", spike.Message, StringComparison.Ordinal);
    }

    // Source: EPA 402-R-92-004, from memory: above the lower limit of detection a blank is looked into.
    [Theory]
    [InlineData("0.5", false)]
    [InlineData("0.51", true)]
    [InlineData("0.2", false)]
    public void A_blank_above_the_limit_of_detection_needs_attention(string blank, bool attention) =>
        Assert.Equal(attention, RadonStatistics.BlankNeedsAttention(PciPerL(blank), PciPerL("0.5")));

    // Source: ANSI/AARST MAH 2019, 7.2.1 (same side); EPA 402-R-92-003, 3.2.2, from memory (either side).
    [Theory]
    [InlineData("3.9", "4.1", TwoResultDecision.AverageAtOrAboveAction, "4.0")]
    [InlineData("2.1", "4.2", TwoResultDecision.TestAgainFirst, "3.15")]
    [InlineData("4.2", "2.1", TwoResultDecision.TestAgainFirst, "3.15")]
    [InlineData("2.2", "4.2", TwoResultDecision.AverageBelowAction, "3.2")]
    [InlineData("3.0", "3.6", TwoResultDecision.AverageBelowAction, "3.3")]
    [InlineData("1.0", "3.0", TwoResultDecision.AverageBelowAction, "2.0")]
    [InlineData("5.0", "11.0", TwoResultDecision.AverageAtOrAboveAction, "8.0")]
    [InlineData("3.8", "4.1", TwoResultDecision.AverageAtOrAboveAction, "3.95")]
    [InlineData("0", "4.0", TwoResultDecision.TestAgainFirst, "2.0")]
    [InlineData("0", "0", TwoResultDecision.AverageBelowAction, "0")]
    public void Two_results_decide_together(string first, string second, TwoResultDecision decision, string average)
    {
        var finding = TwoResults.Decide(PciPerL(first), PciPerL(second));
        Assert.Equal(decision, finding.Decision);
        Assert.Equal(D(average), finding.Average.PciPerL);
        Assert.Equal(finding.Average, finding.Agreement.Mean);
    }

    [Fact]
    public void Two_results_say_in_words_which_rule_decided()
    {
        var sameSide = TwoResults.Decide(PciPerL("3.0"), PciPerL("3.6"));
        Assert.Equal("The average of 3.0 pCi/L and 3.6 pCi/L is 3.3 pCi/L and decides.", sameSide.Sentence);
        Assert.Same(RadonSources.TwoSameSide, sameSide.Source);
        Assert.Same(RadonSources.TwoEitherSide, TwoResults.Decide(PciPerL("3.9"), PciPerL("4.1")).Source);
        var again = TwoResults.Decide(PciPerL("2.1"), PciPerL("4.2"));
        Assert.Same(RadonSources.TwoEitherSide, again.Source);
        Assert.Contains("test again before deciding", again.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void The_chart_of_pairs_stands_in_order_of_day()
    {
        var points = ControlChart.Points(
        [
            new(Day("2025-03-01"), PciPerL("5.0"), PciPerL("7.0")),
            new(Day("2025-01-01"), PciPerL("4.8"), PciPerL("5.6")),
        ]);
        Assert.Equal([Day("2025-01-01"), Day("2025-03-01")], points.Select(point => point.Pair.Day));
        Assert.Equal([ControlZone.Within, ControlZone.Warning], points.Select(point => point.Finding.Zone));
    }

    // Source: 20 pairs: ANSI/AARST MS-QA 2019, 3.5; standard deviation against MathNet.Numerics.
    [Fact]
    public void Twenty_pairs_give_limits_of_their_own()
    {
        var pairs = Enumerable.Range(0, 20)
            .Select(i => new DuplicatePair(Day("2025-01-01").AddDays(i), PciPerL(i % 2 == 0 ? "9.5" : "9"), PciPerL(i % 2 == 0 ? "10.5" : "11")))
            .ToList();
        var limits = ControlChart.OwnLimits(pairs)!;
        var deviation = MathNet.Numerics.Statistics.Statistics.StandardDeviation(pairs.Select((_, i) => i % 2 == 0 ? 10.0 : 20.0));
        Assert.Equal(20, limits.Pairs);
        Assert.Equal(15m, limits.MeanPercent);
        Assert.Equal(15 + 2 * deviation, (double)limits.WarningPercent, 1e-9);
        Assert.Equal(15 + 3 * deviation, (double)limits.ControlPercent, 1e-9);
        Assert.Equal(25.26m, Math.Round(limits.WarningPercent, 2, MidpointRounding.AwayFromZero));
        Assert.Null(ControlChart.OwnLimits(pairs.Skip(1)));
        var withLowPair = pairs.Skip(1).Append(new(Day("2025-06-01"), PciPerL("3.9"), PciPerL("4.0")));
        Assert.Null(ControlChart.OwnLimits(withLowPair));
        var withPairOfFour = pairs.Skip(1).Append(new(Day("2025-06-01"), PciPerL("4.0"), PciPerL("4.0")));
        Assert.NotNull(ControlChart.OwnLimits(withPairOfFour));
    }
}
