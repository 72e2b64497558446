using MitigationOffice.Engineering.Dates;
using PublicHoliday;
using static MitigationOffice.Engineering.Tests.Radon.RadonNumbers;

namespace MitigationOffice.Engineering.Tests.Dates;

public class FederalHolidayTests
{
    // Source: the federal holiday list of 2026 as published by OPM, from memory.
    [Fact]
    public void The_eleven_holidays_of_2026_are_those_published()
    {
        string[] observed =
        [
            "2026-01-01", "2026-01-19", "2026-02-16", "2026-05-25", "2026-06-19", "2026-07-03",
            "2026-09-07", "2026-10-12", "2026-11-11", "2026-11-26", "2026-12-25",
        ];
        Assert.Equal(observed.Select(Day), FederalHolidays.InYear(2026).Select(holiday => holiday.ObservedOn));
        Assert.Equal(11, FederalHolidays.InYear(2026).Select(holiday => holiday.Name).Distinct().Count());
    }

    // Source: reference library PublicHoliday 3.17.0, its United States calendar, year by year.
    [Fact]
    public void Every_year_agrees_with_a_reference_library()
    {
        var reference = new USAPublicHoliday();
        for (var year = 2022; year <= 2099; year++)
        {
            var theirs = reference.PublicHolidays(year).Select(DateOnly.FromDateTime).Order();
            Assert.Equal(theirs, FederalHolidays.InYear(year).Select(holiday => holiday.ObservedOn).Order());
        }
    }

    // Source: Juneteenth National Independence Day Act, 2021; King's birthday first kept in 1986; from memory.
    [Theory]
    [InlineData(1978, 9)]
    [InlineData(1985, 9)]
    [InlineData(1986, 10)]
    [InlineData(2020, 10)]
    [InlineData(2021, 11)]
    [InlineData(9998, 11)]
    public void Holidays_were_added_over_the_years(int year, int count) =>
        Assert.Equal(count, FederalHolidays.InYear(year).Count);

    [Theory]
    [InlineData("2026-07-04", true, false)]
    [InlineData("2026-07-03", false, true)]
    [InlineData("2021-06-19", true, false)]
    [InlineData("2021-06-18", false, true)]
    [InlineData("2022-06-19", true, false)]
    [InlineData("2022-06-20", false, true)]
    [InlineData("2021-12-31", false, true)]
    [InlineData("2022-12-31", false, false)]
    [InlineData("2027-12-31", false, true)]
    [InlineData("2026-12-31", false, false)]
    [InlineData("2021-12-24", false, true)]
    [InlineData("2021-12-17", false, false)]
    [InlineData("2021-10-31", false, false)]
    [InlineData("2025-12-25", true, true)]
    [InlineData("2025-12-26", false, false)]
    public void A_weekend_holiday_is_kept_on_the_nearest_weekday(string day, bool holiday, bool observed)
    {
        Assert.Equal(holiday, FederalHolidays.IsHoliday(Day(day)));
        Assert.Equal(observed, FederalHolidays.IsObserved(Day(day)));
    }

    [Theory]
    [InlineData(1977)]
    [InlineData(9999)]
    public void A_year_out_of_range_is_refused(int year)
    {
        var refused = Assert.Throws<ArgumentOutOfRangeException>(() => FederalHolidays.InYear(year));
        Assert.Contains("it must lie from 1978 to 9998", refused.Message, StringComparison.Ordinal);
    }
}
