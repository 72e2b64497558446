using MitigationOffice.Engineering.Radon;
using static MitigationOffice.Engineering.Tests.Radon.RadonNumbers;

namespace MitigationOffice.Engineering.Tests.Radon;

public class QualityChecksOwedTests
{
    // Source: ANSI/AARST MS-QA 2019, 5.3.1.
    [Fact]
    public void A_month_of_a_thousand_devices_wants_thirty_spikes_and_six_are_enough()
    {
        var owed = QualityChecksOwed.ForMonth(new(1000, 1000, 0));
        Assert.Equal(30, owed.SpikesByShare);
        Assert.Equal(6, owed.Spikes);
    }

    // Source: EPA 402-R-92-004, from memory: 10 % duplicates up to 50 a month, 5 % blanks up to 25; every tenth monitor test, MS-QA 2019, 4.2.
    [Theory]
    [InlineData(100, 110, 10, 10, 6, 1)]
    [InlineData(101, 100, 11, 11, 5, 2)]
    [InlineData(1, 1, 1, 1, 1, 1)]
    [InlineData(0, 0, 0, 0, 0, 0)]
    [InlineData(501, 501, 0, 50, 25, 0)]
    [InlineData(490, 480, 0, 49, 24, 0)]
    public void A_month_owes_its_shares(int places, int devices, int monitorTests, int duplicates, int blanks, int comparisons)
    {
        var owed = QualityChecksOwed.ForMonth(new(places, devices, monitorTests));
        Assert.Equal((duplicates, blanks, comparisons), (owed.Duplicates, owed.Blanks, owed.MonitorComparisons));
    }

    // Source: ANSI/AARST MS-QA 2019, 5.3.1: not fewer than three a year.
    [Theory]
    [InlineData(100, 3)]
    [InlineData(40, 3)]
    [InlineData(1, 3)]
    [InlineData(0, 0)]
    [InlineData(200, 6)]
    [InlineData(201, 7)]
    public void A_year_owes_three_spikes_at_least(int devices, int spikes)
    {
        var months = Enumerable.Range(0, 12).Select(month => new MonthOfTests(0, devices / 12 + (month < devices % 12 ? 1 : 0), 0)).ToList();
        Assert.Equal(spikes, QualityChecksOwed.ForYear(months).Spikes);
    }

    [Fact]
    public void A_year_is_limited_by_what_is_enough_each_month()
    {
        var owed = QualityChecksOwed.ForYear([new(1000, 1000, 30), new(20, 20, 5)]);
        Assert.Equal(new QualityChecks(52, 26, 31, 7, 4), owed);
        Assert.Equal(new QualityChecks(4, 2, 2, 3, 2), QualityChecksOwed.ForYear([new(20, 20, 8), new(20, 20, 8)]));
    }

    [Fact]
    public void Counts_out_of_range_are_refused()
    {
        var none = Assert.Throws<ArgumentOutOfRangeException>(() => QualityChecksOwed.ForYear([]));
        Assert.Contains("The number of months is 0 months", none.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => QualityChecksOwed.ForYear([.. Enumerable.Repeat(new MonthOfTests(1, 1, 1), 13)]));
        foreach (var count in new[] { -1, 1_000_001 })
        {
            Assert.StartsWith($"The number of places is {count} places", Refused(new(count, 0, 0)), StringComparison.Ordinal);
            Assert.StartsWith($"The number of devices is {count} devices", Refused(new(0, count, 0)), StringComparison.Ordinal);
            Assert.StartsWith($"The number of monitor tests is {count} tests", Refused(new(0, 0, count)), StringComparison.Ordinal);
        }

        static string Refused(MonthOfTests month) =>
            Assert.Throws<ArgumentOutOfRangeException>(() => QualityChecksOwed.ForMonth(month)).Message;
    }
}
