using CsCheck;
using MitigationOffice.Engineering.Dates;

namespace MitigationOffice.Engineering.Tests.Dates;

public class DateProperties
{
    private static readonly Gen<DateOnly> AnyDay =
        Gen.Int[0, 44_000].Select(days => new DateOnly(1980, 1, 1).AddDays(days));

    [Fact]
    public void No_holiday_is_kept_on_a_weekend() => Gen.Int[1978, 9998].Sample(year =>
        Assert.All(FederalHolidays.InYear(year), holiday =>
        {
            Assert.False(holiday.ObservedOn.DayOfWeek is DayOfWeek.Saturday or DayOfWeek.Sunday);
            Assert.InRange(holiday.ObservedOn.DayNumber - holiday.Day.DayNumber, -1, 1);
        }));

    [Fact]
    public void Holidays_stand_in_order_of_day() => Gen.Int[1978, 9998].Sample(year =>
    {
        var days = FederalHolidays.InYear(year).Select(holiday => holiday.Day).ToList();
        Assert.Equal(days.Distinct().Order(), days);
    });

    [Fact]
    public void A_kept_day_is_known_as_such_in_its_own_year() => Gen.Int[1979, 9997].Sample(year =>
        Assert.All(FederalHolidays.InYear(year), holiday => Assert.True(FederalHolidays.IsObserved(holiday.ObservedOn))));

    [Fact]
    public void Business_days_are_counted_one_by_one() => Gen.Select(AnyDay, Gen.Int[1, 60]).Sample((day, count) =>
    {
        var due = BusinessDays.After(count, day);
        Assert.True(BusinessDays.IsOpen(due));
        Assert.Equal(count, Enumerable.Range(1, due.DayNumber - day.DayNumber).Count(i => BusinessDays.IsOpen(day.AddDays(i))));
    });

    [Fact]
    public void Business_days_add_up() => Gen.Select(AnyDay, Gen.Int[1, 30], Gen.Int[1, 30]).Sample((day, first, second) =>
        Assert.Equal(BusinessDays.After(first + second, day), BusinessDays.After(second, BusinessDays.After(first, day))));

    [Fact]
    public void The_buyer_has_three_to_eight_days() => AnyDay.Sample(day =>
    {
        var last = RightToCancel.LastDay(day);
        Assert.InRange(last.DayNumber - day.DayNumber, 3, 8);
        Assert.NotEqual(DayOfWeek.Sunday, last.DayOfWeek);
        Assert.False(FederalHolidays.IsHoliday(last) || FederalHolidays.IsObserved(last));
    });

    [Fact]
    public void A_later_signature_never_ends_the_right_earlier() => AnyDay.Sample(day =>
        Assert.True(RightToCancel.LastDay(day) <= RightToCancel.LastDay(day.AddDays(1))));

    [Fact]
    public void A_quarter_holds_its_days_and_no_other() => AnyDay.Sample(day =>
    {
        var quarter = Quarter.Of(day);
        Assert.InRange(day, quarter.FirstDay, quarter.LastDay);
        Assert.NotEqual(quarter, Quarter.Of(quarter.LastDay.AddDays(1)));
    });

    [Fact]
    public void The_quarterly_report_falls_on_the_thirtieth_of_the_month_after() => AnyDay.Sample(day =>
    {
        var due = ReportDeadlines.QuarterlyReport(day);
        Assert.Equal(30, due.Day);
        Assert.Equal(Quarter.Of(day).LastDay.AddDays(1).Month, due.Month);
        Assert.InRange(due.DayNumber - day.DayNumber, 30, 122);
    });

    [Fact]
    public void The_retest_keeps_day_and_month_but_for_leap_days() => AnyDay.Sample(day =>
    {
        var due = Retest.DueOn(day);
        Assert.Equal((day.Year + 2, day.Month), (due.Year, due.Month));
        Assert.Equal(day is { Month: 2, Day: 29 } ? 28 : day.Day, due.Day);
    });

    [Fact]
    public void A_longer_warranty_never_shortens_the_keeping() => Gen.Select(AnyDay, Gen.Int[0, 99], Gen.Int[0, RecordRetention.Known.Count - 1].Select(index => RecordRetention.Known[index]))
        .Sample((day, years, rule) =>
        {
            Assert.True(RecordRetention.KeepUntil(day, rule, years) <= RecordRetention.KeepUntil(day, rule, years + 1));
            Assert.True(RecordRetention.KeepUntil(day, rule, years) >= day.AddYears(rule.Years));
        });

    [Fact]
    public void A_house_closed_earlier_never_opens_the_window_later() =>
        Gen.Select(Gen.Int[-100, 100], Gen.Int[0, 50]).Sample((closedHours, earlierBy) =>
        {
            var fanOn = new DateTimeOffset(2025, 3, 1, 9, 0, 0, TimeSpan.FromHours(-5));
            var later = TestWindow.After(fanOn, fanOn.AddHours(closedHours));
            var earlier = TestWindow.After(fanOn, fanOn.AddHours(closedHours - earlierBy));
            Assert.True(earlier.EarliestStart <= later.EarliestStart);
            Assert.True(earlier.EarliestStart >= fanOn.AddHours(24));
            Assert.Equal(earlier.LastDay, later.LastDay);
        });
}
