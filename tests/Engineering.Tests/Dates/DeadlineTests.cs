using MitigationOffice.Engineering.Dates;
using static MitigationOffice.Engineering.Tests.Radon.RadonNumbers;

namespace MitigationOffice.Engineering.Tests.Dates;

public class DeadlineTests
{
    // Source: ANSI/AARST MAH 2019, 7.3.2 (24 h, 12 h); EPA 402-R-93-078, section 17, from memory (30 days).
    [Fact]
    public void The_test_window_opens_a_day_after_the_fan_and_closes_after_thirty()
    {
        var window = TestWindow.After(At("2024-03-01 10:00"));
        Assert.Equal(At("2024-03-02 10:00"), window.EarliestStart);
        Assert.Equal(Day("2024-03-31"), window.LastDay);
    }

    [Theory]
    [InlineData("2024-03-02 18:00", "2024-03-03 06:00")]
    [InlineData("2024-03-01 20:00", "2024-03-02 10:00")]
    [InlineData("2024-03-01 22:01", "2024-03-02 10:01")]
    public void The_test_window_waits_for_the_closed_house(string closed, string earliest) =>
        Assert.Equal(At(earliest), TestWindow.After(At("2024-03-01 10:00"), At(closed)).EarliestStart);

    [Fact]
    public void The_test_window_speaks_in_the_offset_of_the_fan()
    {
        var closed = At("2024-03-02 18:00").ToUniversalTime();
        var window = TestWindow.After(At("2024-03-01 22:00"), closed);
        Assert.Equal(TimeSpan.FromHours(-5), window.EarliestStart.Offset);
        Assert.Equal(Day("2024-03-31"), window.LastDay);
        Assert.False(window.IsLate(At("2024-03-31 23:30")));
        Assert.True(window.IsLate(At("2024-04-01 00:00")));
    }

    // Source: ANSI/AARST MAH 2019, 8.5.9.2 (two and five years); the 29 February rule is a house rule.
    [Theory]
    [InlineData("2024-02-29", true, "2026-02-28")]
    [InlineData("2022-02-28", true, "2024-02-28")]
    [InlineData("2025-06-15", true, "2027-06-15")]
    [InlineData("2024-02-29", false, "2029-02-28")]
    [InlineData("2025-06-15", false, "2030-06-15")]
    public void The_retest_is_two_years_after_with_a_system_and_five_without(string last, bool hasSystem, string due) =>
        Assert.Equal(Day(due), Retest.DueOn(Day(last), hasSystem));

    // Source: 25 Pa. Code 240.303 (45 days); Kansas 90 days as quoted by another text; counting is arithmetic.
    [Theory]
    [InlineData(ReportDeadlines.PennsylvaniaDaysAfterActivation, "2025-01-20", "2025-03-06")]
    [InlineData(ReportDeadlines.KansasDays, "2025-11-15", "2026-02-13")]
    [InlineData(0, "2025-01-20", "2025-01-20")]
    public void A_report_is_due_a_number_of_days_after(int days, string day, string due) =>
        Assert.Equal(Day(due), ReportDeadlines.DaysAfter(days, Day(day)));

    // Source: Minn. R. 4620.7800, subp. 2; the line of the fourth quarter inferred.
    [Theory]
    [InlineData("2025-01-01", "2025-04-30")]
    [InlineData("2025-03-31", "2025-04-30")]
    [InlineData("2025-04-01", "2025-07-30")]
    [InlineData("2025-06-30", "2025-07-30")]
    [InlineData("2025-07-01", "2025-10-30")]
    [InlineData("2025-12-31", "2026-01-30")]
    public void The_quarterly_report_is_due_on_the_thirtieth(string finished, string due) =>
        Assert.Equal(Day(due), ReportDeadlines.QuarterlyReport(Day(finished)));

    // Source: 25 Pa. Code 240.309; Independence Day is no business day.
    [Theory]
    [InlineData(1, "2025-04-14")]
    [InlineData(2, "2025-07-15")]
    public void The_system_fee_is_due_ten_business_days_after_the_quarter(int quarter, string due) =>
        Assert.Equal(Day(due), ReportDeadlines.BusinessDaysAfterQuarter(ReportDeadlines.PennsylvaniaFeeBusinessDays, new Quarter(2025, quarter)));

    [Fact]
    public void A_state_may_close_on_further_days()
    {
        var closed = new HashSet<DateOnly> { Day("2025-04-02") };
        Assert.Equal(Day("2025-04-15"), ReportDeadlines.BusinessDaysAfterQuarter(10, new Quarter(2025, 1), closed));
        Assert.False(BusinessDays.IsOpen(Day("2025-04-02"), closed));
        Assert.True(BusinessDays.IsOpen(Day("2025-04-03"), closed));
        Assert.Equal(Day("2026-07-06"), BusinessDays.After(1, Day("2026-07-02")));
    }

    [Theory]
    [InlineData(1, "2025-01-01", "2025-03-31")]
    [InlineData(2, "2025-04-01", "2025-06-30")]
    [InlineData(3, "2025-07-01", "2025-09-30")]
    [InlineData(4, "2025-10-01", "2025-12-31")]
    public void A_quarter_has_three_months(int number, string first, string last)
    {
        var quarter = new Quarter(2025, number);
        Assert.Equal((Day(first), Day(last)), (quarter.FirstDay, quarter.LastDay));
        Assert.Equal(quarter, Quarter.Of(Day(first)));
        Assert.Equal(quarter, Quarter.Of(Day(last)));
        Assert.Equal($"Q{number} 2025", quarter.ToString());
    }

    // Source: 16 CFR 429.0(f): Saturdays count, Sundays and federal holidays do not. Days counted by hand.
    [Theory]
    [InlineData("2025-03-03", "2025-03-06")]
    [InlineData("2025-03-06", "2025-03-10")]
    [InlineData("2025-03-07", "2025-03-11")]
    [InlineData("2025-03-08", "2025-03-12")]
    [InlineData("2025-03-09", "2025-03-12")]
    [InlineData("2025-08-29", "2025-09-03")]
    [InlineData("2025-12-23", "2025-12-27")]
    [InlineData("2025-12-31", "2026-01-05")]
    public void The_buyer_may_cancel_until_the_third_business_day(string signature, string last) =>
        Assert.Equal(Day(last), RightToCancel.LastDay(Day(signature)));

    // House rule: neither the holiday nor the day it is kept on is counted (Saturday 2026-07-04, kept on Friday the 3rd).
    [Fact]
    public void A_holiday_kept_on_another_day_lengthens_the_buyers_time_by_both() =>
        Assert.Equal(Day("2026-07-07"), RightToCancel.LastDay(Day("2026-07-01")));

    // Source: 32 Ill. Adm. Code 422.70(f), KRS 309.452 (or the longer warranty); Iowa 641-44.6, N.J.A.C. 7:28-27.16 (5 years).
    [Theory]
    [InlineData("Illinois", 10, "2035-05-01")]
    [InlineData("Kentucky", 10, "2035-05-01")]
    [InlineData("Illinois", 2, "2030-05-01")]
    [InlineData("Iowa", 10, "2030-05-01")]
    [InlineData("New Jersey", 10, "2030-05-01")]
    [InlineData("EPA 1994", 0, "2028-05-01")]
    [InlineData("EPA 1994", 5, "2030-05-01")]
    public void Records_are_kept_as_long_as_the_rule_says(string jurisdiction, int warrantyYears, string until)
    {
        var rule = RecordRetention.Known.Single(known => known.Jurisdiction == jurisdiction);
        Assert.Equal(Day(until), RecordRetention.KeepUntil(Day("2025-05-01"), rule, warrantyYears));
    }

    [Fact]
    public void Counts_out_of_range_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new Quarter(2025, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Quarter(2025, 5));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Quarter(1977, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => ReportDeadlines.DaysAfter(-1, Day("2025-01-01")));
        Assert.Throws<ArgumentOutOfRangeException>(() => BusinessDays.After(0, Day("2025-01-01")));
        var refused = Assert.Throws<ArgumentOutOfRangeException>(() => RecordRetention.KeepUntil(Day("2025-01-01"), RecordRetention.Known[0], 101));
        Assert.Contains("The warranty is 101 years; it must lie from 0 to 100 years", refused.Message, StringComparison.Ordinal);
    }
}
