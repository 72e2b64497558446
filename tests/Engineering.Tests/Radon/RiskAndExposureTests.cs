using MitigationOffice.Engineering.Radon;
using static MitigationOffice.Engineering.Tests.Radon.RadonNumbers;

namespace MitigationOffice.Engineering.Tests.Radon;

public class RiskAndExposureTests
{
    // Source: EPA 402/K-12/002, A Citizen's Guide to Radon, risk table.
    [Theory]
    [InlineData("20", 260, 36)]
    [InlineData("10", 150, 18)]
    [InlineData("8", 120, 15)]
    [InlineData("4", 62, 7)]
    [InlineData("2", 32, 4)]
    [InlineData("1.3", 20, 2)]
    [InlineData("0.4", null, null)]
    public void The_risk_table_shows_the_published_row(string pciPerL, int? smokers, int? neverSmokers)
    {
        var row = RiskTable.Find(PciPerL(pciPerL))!;
        Assert.Equal((smokers, neverSmokers), (row.SmokersPerThousand, row.NeverSmokersPerThousand));
        Assert.NotEmpty(row.Advice);
    }

    [Theory]
    [InlineData("1")]
    [InlineData("5")]
    [InlineData("3.9")]
    public void The_risk_table_has_nothing_between_its_rows(string pciPerL) =>
        Assert.Null(RiskTable.Find(PciPerL(pciPerL)));

    [Theory]
    [InlineData("5", "4", "8")]
    [InlineData("4", "4", "4")]
    [InlineData("0.1", null, "0.4")]
    [InlineData("30", "20", null)]
    [InlineData("1.9", "1.3", "2")]
    public void A_result_is_placed_between_two_published_rows(string pciPerL, string? below, string? above)
    {
        var (atOrBelow, atOrAbove) = RiskTable.Around(PciPerL(pciPerL));
        Assert.Equal(below is null ? null : D(below), atOrBelow?.Level.PciPerL);
        Assert.Equal(above is null ? null : D(above), atOrAbove?.Level.PciPerL);
    }

    [Fact]
    public void Each_row_says_what_the_guide_advises()
    {
        Assert.Equal(4, RiskTable.Rows.Count(row => row.Advice == "Fix the house."));
        Assert.StartsWith("Consider fixing", RiskTable.Find(PciPerL("2"))!.Advice, StringComparison.Ordinal);
        Assert.StartsWith("Average indoors", RiskTable.Find(PciPerL("1.3"))!.Advice, StringComparison.Ordinal);
        Assert.Equal("Average outdoors.", RiskTable.Find(PciPerL("0.4"))!.Advice);
    }

    // Source: 216-RICR-50-15-2.5 pairs 4 pCi/L with 0.02 WL.
    [Fact]
    public void Four_picocuries_are_two_hundredths_of_a_working_level() =>
        Assert.Equal(0.02m, WorkerExposure.WorkingLevels(PciPerL("4")));

    // Source: 32 Ill. Adm. Code 422.70(e) pairs 30 pCi/L with 0.3 WL, which is an equilibrium ratio of 1.
    [Fact]
    public void Thirty_picocuries_at_full_equilibrium_are_three_tenths_of_a_working_level() =>
        Assert.Equal(0.3m, WorkerExposure.WorkingLevels(PciPerL("30"), 1m));

    // Source: arithmetic: 0.02 × 2000 / 170.
    [Fact]
    public void A_year_of_work_at_four_picocuries_is_a_quarter_of_a_working_level_month()
    {
        var wlm = WorkerExposure.WorkingLevelMonths(PciPerL("4"), 2000m);
        Assert.Equal(0.235m, Math.Round(wlm, 3, MidpointRounding.AwayFromZero));
        Assert.Equal(wlm, new ExposureEntry(Day("2025-01-01"), PciPerL("4"), 2000m).WorkingLevelMonths);
        Assert.Equal(2 * wlm, new ExposureEntry(Day("2025-01-01"), PciPerL("4"), 2000m, 1m).WorkingLevelMonths);
    }

    // Source: 32 Ill. Adm. Code 422.70(e): 4 WLM in 12 months; the warning from half of it is a house rule.
    [Theory]
    [InlineData("1699.9", ExposureStanding.Fine)]
    [InlineData("1700", ExposureStanding.NearingLimit)]
    [InlineData("3399.9", ExposureStanding.NearingLimit)]
    [InlineData("3400", ExposureStanding.AtLimit)]
    public void The_standing_of_a_worker_follows_the_limit(string hours, ExposureStanding standing)
    {
        var year = WorkerExposure.TwelveMonthsTo([new(Day("2025-06-01"), PciPerL("40"), D(hours))], Day("2025-12-31"));
        Assert.Equal(standing, year.Standing);
        Assert.Equal(4m, year.LimitWorkingLevelMonths);
        Assert.Same(WorkerExposure.LimitSource, year.Source);
    }

    [Fact]
    public void Only_the_last_twelve_months_count()
    {
        string[] days = ["2025-03-01", "2025-03-02", "2026-03-01", "2026-03-02"];
        var entries = days.Select((day, index) => new ExposureEntry(Day(day), PciPerL("100"), 3.4m * (index + 1)));
        var year = WorkerExposure.TwelveMonthsTo(entries, Day("2026-03-01"));
        Assert.Equal(0.01m * (2 + 3), year.WorkingLevelMonths);
    }

    [Fact]
    public void Exposure_out_of_range_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => WorkerExposure.WorkingLevels(PciPerL("4"), 1.01m));
        Assert.Throws<ArgumentOutOfRangeException>(() => WorkerExposure.WorkingLevels(PciPerL("4"), -0.01m));
        var refused = Assert.Throws<ArgumentOutOfRangeException>(() => WorkerExposure.WorkingLevelMonths(PciPerL("4"), 8785m));
        Assert.Contains("The working time is 8785 h", refused.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => WorkerExposure.WorkingLevelMonths(PciPerL("4"), -1m));
    }

    // Source: half-life 3.8235 d as quoted from the ENSDF evaluation; 3.8215 d (NUBASE2020) lies within 0.1 %.
    [Theory]
    [InlineData(0, 1)]
    [InlineData(1, 0.83420)]
    [InlineData(2, 0.69588)]
    [InlineData(7, 0.28111)]
    [InlineData(3.8235, 0.5)]
    public void Radon_decays(double days, double left) =>
        Assert.Equal(left, RadonDecay.ShareLeft(days), 1e-4 * left);

    [Theory]
    [InlineData(-0.1)]
    [InlineData(10_001)]
    [InlineData(double.NaN)]
    public void A_time_out_of_range_is_refused(double days)
    {
        var refused = Assert.Throws<ArgumentOutOfRangeException>(() => RadonDecay.ShareLeft(days));
        Assert.Contains("it must lie from 0 to 10000 days", refused.Message, StringComparison.Ordinal);
    }
}
