using System.Globalization;
using MitigationOffice.Engineering.Dates;
using static MitigationOffice.Engineering.Tests.Radon.RadonNumbers;

namespace MitigationOffice.Engineering.Tests.Dates;

/// <summary>
/// The last day to cancel, counted by hand. What is published and was read: the buyer may cancel "prior to midnight of the third
/// business day" (16 CFR 429.1(a)); a Saturday is a business day, a Sunday and a federal holiday are none (16 CFR 429.0(f)).
/// From memory, not read again: the list of holidays in 429.0(f), which was written before Juneteenth (5 U.S.C. 6103 since 2021).
/// House rule, no source: where a holiday is kept on a neighbouring weekday, neither of the two days is counted.
/// </summary>
public class RightToCancelTable
{
    [Theory]
    // Plain weeks: the day of signing is not counted.
    [InlineData("2026-03-02", "Monday", "2026-03-05", "Tue 1, Wed 2, Thu 3")]
    [InlineData("2026-03-06", "Friday", "2026-03-10", "Sat 1, Sunday no, Mon 2, Tue 3; the clocks change between")]
    [InlineData("2026-03-07", "Saturday", "2026-03-11", "Sunday no, Mon 1, Tue 2, Wed 3")]
    [InlineData("2026-03-08", "Sunday", "2026-03-11", "Mon 1, Tue 2, Wed 3")]
    [InlineData("2028-02-26", "Saturday", "2028-03-01", "Sunday no, Mon 1, Tue 29 February 2, Wed 3")]
    // Thanksgiving, a Thursday; the Friday after it counts.
    [InlineData("2025-11-24", "Monday", "2025-11-28", "Tue 1, Wed 2, Thanksgiving no, Fri 3")]
    [InlineData("2025-11-25", "Tuesday", "2025-11-29", "Wed 1, Thanksgiving no, Fri 2, Sat 3")]
    [InlineData("2025-11-26", "Wednesday", "2025-12-01", "Thanksgiving no, Fri 1, Sat 2, Sunday no, Mon 3")]
    [InlineData("2025-11-27", "Thursday", "2025-12-01", "signed on Thanksgiving: Fri 1, Sat 2, Sunday no, Mon 3")]
    [InlineData("2025-11-28", "Friday", "2025-12-02", "Sat 1, Sunday no, Mon 2, Tue 3")]
    [InlineData("2025-11-29", "Saturday", "2025-12-03", "Sunday no, Mon 1, Tue 2, Wed 3")]
    [InlineData("2025-11-30", "Sunday", "2025-12-03", "Mon 1, Tue 2, Wed 3")]
    // New Year's Day on a Thursday.
    [InlineData("2025-12-29", "Monday", "2026-01-02", "Tue 1, Wed 2, New Year no, Fri 3")]
    [InlineData("2025-12-30", "Tuesday", "2026-01-03", "Wed 1, New Year no, Fri 2, Sat 3")]
    [InlineData("2025-12-31", "Wednesday", "2026-01-05", "New Year no, Fri 1, Sat 2, Sunday no, Mon 3")]
    [InlineData("2026-01-01", "Thursday", "2026-01-05", "signed on New Year: Fri 1, Sat 2, Sunday no, Mon 3")]
    // Christmas and New Year's Day on a Saturday, kept on the Friday before.
    [InlineData("2027-12-22", "Wednesday", "2027-12-28", "Thu 1, kept on Fri no, Christmas no, Sunday no, Mon 2, Tue 3")]
    [InlineData("2027-12-23", "Thursday", "2027-12-29", "kept on Fri no, Christmas no, Sunday no, Mon 1, Tue 2, Wed 3")]
    [InlineData("2027-12-24", "Friday", "2027-12-29", "Christmas no, Sunday no, Mon 1, Tue 2, Wed 3")]
    [InlineData("2027-12-28", "Tuesday", "2028-01-03", "Wed 1, Thu 2, kept on Fri no, New Year no, Sunday no, Mon 3")]
    [InlineData("2027-12-30", "Thursday", "2028-01-05", "kept on Fri no, New Year no, Sunday no, Mon 1, Tue 2, Wed 3")]
    // Christmas and New Year's Day on a Sunday, kept on the Monday after.
    [InlineData("2022-12-22", "Thursday", "2022-12-27", "Fri 1, Sat 2, Christmas no, kept on Mon no, Tue 3")]
    [InlineData("2022-12-23", "Friday", "2022-12-28", "Sat 1, Christmas no, kept on Mon no, Tue 2, Wed 3")]
    [InlineData("2022-12-24", "Saturday", "2022-12-29", "Christmas no, kept on Mon no, Tue 1, Wed 2, Thu 3")]
    [InlineData("2022-12-29", "Thursday", "2023-01-03", "Fri 1, Sat 2, New Year no, kept on Mon no, Tue 3")]
    [InlineData("2022-12-31", "Saturday", "2023-01-05", "New Year no, kept on Mon no, Tue 1, Wed 2, Thu 3")]
    // Juneteenth on a Friday, on a Saturday, and before it was a holiday.
    [InlineData("2026-06-17", "Wednesday", "2026-06-22", "Thu 1, Juneteenth no, Sat 2, Sunday no, Mon 3")]
    [InlineData("2026-06-18", "Thursday", "2026-06-23", "Juneteenth no, Sat 1, Sunday no, Mon 2, Tue 3")]
    [InlineData("2027-06-16", "Wednesday", "2027-06-22", "Thu 1, kept on Fri no, Juneteenth no, Sunday no, Mon 2, Tue 3")]
    [InlineData("2020-06-18", "Thursday", "2020-06-22", "Fri 1, Sat 2, Sunday no, Mon 3")]
    // Independence Day on a Saturday; Monday holidays; one in midweek.
    [InlineData("2026-07-02", "Thursday", "2026-07-08", "kept on Fri no, the Fourth no, Sunday no, Mon 1, Tue 2, Wed 3")]
    [InlineData("2026-01-17", "Saturday", "2026-01-22", "Sunday no, King's birthday no, Tue 1, Wed 2, Thu 3")]
    [InlineData("2026-09-04", "Friday", "2026-09-09", "Sat 1, Sunday no, Labor Day no, Tue 2, Wed 3")]
    [InlineData("2026-11-09", "Monday", "2026-11-13", "Tue 1, Veterans Day no, Thu 2, Fri 3")]
    public void The_last_day_is_the_one_counted_by_hand(string signedOn, string weekday, string last, string counted)
    {
        Assert.Equal(weekday, Day(signedOn).DayOfWeek.ToString());
        Assert.True(RightToCancel.LastDay(Day(signedOn)) == Day(last), $"{signedOn}: {counted} is {last}, not {RightToCancel.LastDay(Day(signedOn)).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}");
        Assert.EndsWith(" 3", counted.Split(';')[0], StringComparison.Ordinal);
    }
}
