using CsCheck;
using MitigationOffice.Engineering.Freezing.Weather;

namespace MitigationOffice.Engineering.Tests.Freezing;

public class WeatherTests
{
    private static readonly string[] Header = ["STATION,NAME,DATE,TMAX,TMIN"];

    private static DailyRecord Read(RecordUnit unit, params string[] lines) => DailyRecordReader.Read([.. Header, .. lines], unit);

    private static string Line(DateOnly day, double min, double max) =>
        FormattableString.Invariant($"\"X1\",\"HILLTOP, XX US\",\"{day:yyyy-MM-dd}\",\"{max}\",\"{min}\"");

    [Fact]
    public void Columns_are_found_by_name_and_a_comma_in_a_name_does_no_harm()
    {
        var record = Read(RecordUnit.TenthsOfCelsius, "\"X1\",\"HILLTOP, XX US\",\"2024-01-05\",\"-50\",\"-150\"");
        var day = Assert.Single(record.Days);
        Assert.Equal((new DateOnly(2024, 1, 5), -15.0, -5.0), (day.Day, day.MinC, day.MaxC));
    }

    [Theory]
    [InlineData(RecordUnit.Fahrenheit, 14, 32, -10, 0)]
    [InlineData(RecordUnit.Celsius, -10, 0, -10, 0)]
    [InlineData(RecordUnit.TenthsOfCelsius, -100, 0, -10, 0)]
    public void Each_unit_is_turned_into_Celsius(RecordUnit unit, double min, double max, double minC, double maxC)
    {
        var day = Assert.Single(Read(unit, Line(new DateOnly(2024, 1, 5), min, max)).Days);
        Assert.Equal(minC, day.MinC, 1e-9);
        Assert.Equal(maxC, day.MaxC, 1e-9);
    }

    [Theory]
    [InlineData("X1,Y,2024-01-05,,-150", "empty")]
    [InlineData("X1,Y,05.01.2024,-50,-150", "date")]
    [InlineData("X1,Y,2024-01-05,warm,-150", "not a number")]
    [InlineData("X1,Y,2024-01-05,-150,-50", "above")]
    [InlineData("X1,Y,2024-01-05,900,-50", "unit")]
    [InlineData("X1,Y", "too few")]
    public void A_line_that_cannot_be_used_is_named_with_its_reason(string line, string why)
    {
        var record = Read(RecordUnit.TenthsOfCelsius, line);
        Assert.Empty(record.Days);
        Assert.Contains(record.Problems, problem => problem.Contains("Line 2", StringComparison.Ordinal) && problem.Contains(why, StringComparison.Ordinal));
    }

    [Fact]
    public void A_record_without_a_needed_column_is_refused_by_name()
    {
        Assert.Contains("TMIN", Assert.Throws<FormatException>(() => DailyRecordReader.Read(["DATE,TMAX"], RecordUnit.Celsius)).Message, StringComparison.Ordinal);
        Assert.Throws<FormatException>(() => DailyRecordReader.Read([], RecordUnit.Celsius));
    }

    [Fact]
    public void A_short_gap_is_filled_and_said()
    {
        var record = Read(RecordUnit.Celsius, Line(new DateOnly(2024, 1, 1), -10, 0), "", Line(new DateOnly(2024, 1, 4), -4, 6));
        Assert.Equal(4, record.Days.Count);
        Assert.Equal(2, record.FilledDays);
        Assert.Equal(-8, record.Days[1].MinC, 1e-9);
        Assert.Contains(record.Problems, problem => problem.Contains("2 day(s) missing after 2024-01-01, filled", StringComparison.Ordinal));
    }

    [Fact]
    public void A_day_twice_counts_once_and_is_said()
    {
        var record = Read(RecordUnit.Celsius, Line(new DateOnly(2024, 1, 1), -10, 0), Line(new DateOnly(2024, 1, 1), -5, 5));
        Assert.Equal(-10, Assert.Single(record.Days).MinC);
        Assert.Contains(record.Problems, problem => problem.Contains("more than once", StringComparison.Ordinal));
    }

    [Fact]
    public void Whole_winters_are_cut_and_a_long_gap_or_a_short_one_is_named()
    {
        var days = Enumerable.Range(0, 1000).Select(day => new DateOnly(2021, 9, 1).AddDays(day));
        var gapped = days.Where(day => day < new DateOnly(2023, 1, 5) || day > new DateOnly(2023, 1, 15));
        var record = Read(RecordUnit.Celsius, [.. gapped.Select(day => Line(day, -5, 3))]);
        Assert.Equal(2, record.Winters.Count);
        Assert.Contains(record.Problems, problem => problem.Contains("Winter 2022-2023 left out", StringComparison.Ordinal));
        var tooShort = Read(RecordUnit.Celsius, [.. days.Take(60).Select(day => Line(day, -5, 3))]);
        Assert.Empty(tooShort.Winters);
        Assert.Contains(tooShort.Problems, problem => problem.Contains("fewer than 90", StringComparison.Ordinal));
    }

    [Fact]
    public void Degrees_given_as_tenths_are_suspected()
    {
        var days = Enumerable.Range(0, 40).Select(day => new DateOnly(2021, 9, 1).AddDays(day));
        var record = Read(RecordUnit.TenthsOfCelsius, [.. days.Select(day => Line(day, -5, 5))]);
        Assert.Contains(record.Problems, problem => problem.Contains("not tenths", StringComparison.Ordinal));
    }

    [Fact]
    public void Many_problems_of_a_kind_are_counted_and_not_all_named()
    {
        var record = Read(RecordUnit.Celsius, [.. Enumerable.Range(0, 50).Select(_ => "X1,Y,2024-01-05,,")]);
        Assert.Equal(21, record.Problems.Count);
        Assert.Contains("In all 50", record.Problems[^1], StringComparison.Ordinal);
    }

    [Fact]
    public void Written_days_are_read_back_the_same() =>
        Gen.Select(Gen.Int[-400, 200], Gen.Int[0, 200]).Array[1, 60].Sample(tenths =>
        {
            var first = new DateOnly(2020, 1, 1);
            var record = Read(RecordUnit.TenthsOfCelsius, [.. tenths.Select((day, at) => Line(first.AddDays(at), day.Item1, day.Item1 + day.Item2))]);
            Assert.Equal(tenths.Length, record.Days.Count);
            Assert.All(tenths.Zip(record.Days), pair =>
            {
                Assert.Equal(pair.First.Item1 / 10.0, pair.Second.MinC, 1e-9);
                Assert.Equal((pair.First.Item1 + pair.First.Item2) / 10.0, pair.Second.MaxC, 1e-9);
            });
        }, iter: 100);

    [Fact]
    public void A_made_up_winter_keeps_its_three_numbers() =>
        Gen.Select(Gen.Double[-20, 3], Gen.Double[6.5, 22], Gen.Int[60, 240], Gen.ULong).Sample((january, below, days, seed) =>
        {
            var winter = PlainWinter.Days(january - below, january, days, seed);
            Assert.Equal(days, winter.Count);
            Assert.Equal(january - below, winter.Min(day => day.MinC), 0.05);
            Assert.Equal(january, winter.Skip(days / 2 - 15).Take(31).Average(day => day.MeanC), 0.05);
            Assert.True(winter.Max(day => day.MaxC) < 40);
        }, iter: 150);

    [Fact]
    public void A_made_up_winter_is_the_same_for_the_same_seed_and_another_for_another()
    {
        Assert.Equal(PlainWinter.Days(-20, -5, 150, 7), PlainWinter.Days(-20, -5, 150, 7));
        Assert.NotEqual(PlainWinter.Days(-20, -5, 150, 7), PlainWinter.Days(-20, -5, 150, 8));
    }

    [Fact]
    public void A_design_temperature_close_to_the_January_mean_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => PlainWinter.Days(-5, -4, 150));

    [Fact]
    public void What_makes_a_record_doubtful_is_apart_from_what_was_mended()
    {
        var whole = Winter().ToList();
        Assert.Empty(Read(whole).Faults);
        Assert.Empty(Read([.. whole.Take(40), .. whole.Skip(43)]).Faults);
        Assert.Equal(3, Read([.. whole.Take(40), .. whole.Skip(43)]).FilledDays);
        Assert.Equal("Winter 2023-2024 left out: it has a gap too long to fill after 2023-12-10.", Assert.Single(Read([.. whole.Take(40), .. whole.Skip(44)]).Faults));
        Assert.Contains("more than once", Assert.Single(Read([.. whole, whole[3]]).Faults), StringComparison.Ordinal);
        Assert.Contains("no outdoor temperature", Assert.Single(Read([.. whole.Take(5), "2023-11-06,-9000,0", .. whole.Skip(6)]).Faults), StringComparison.Ordinal);
        Assert.Empty(Read([.. whole.Take(60)]).Faults);
        Assert.Contains("fewer than 90 days", Assert.Single(Read([.. whole.Take(60)]).Problems), StringComparison.Ordinal);

        static DailyRecord Read(IReadOnlyList<string> days) => DailyRecordReader.Read(days.Prepend("DATE,TMIN,TMAX"), RecordUnit.TenthsOfCelsius);
    }

    [Fact]
    public void Tenths_read_as_degrees_are_seen_by_their_swing()
    {
        var record = DailyRecordReader.Read(Winter().Prepend("DATE,TMIN,TMAX"), RecordUnit.Celsius);
        Assert.Contains(record.Faults, said => said.Contains("look like tenths of a degree", StringComparison.Ordinal));
    }

    private static IEnumerable<string> Winter() => Enumerable.Range(0, 152).Select(day => $"{new DateOnly(2023, 11, 1).AddDays(day):yyyy-MM-dd},-40,{35 + day % 5}");
}
