using System.Globalization;
using MitigationOffice.Business.Tests.Monitor;
using MitigationOffice.Engineering.Radon;
using static MitigationOffice.Business.Tests.Tests.MonitorFiles;

namespace MitigationOffice.Business.Tests.Tests;

public sealed class MonitorFileTests
{
    /// <summary>50 hours of 9.0, then 46 of 2.0 and 3.0 in turn: 2.50 by hand.</summary>
    private static readonly string[] FiftyThenFortySix = [.. Enumerable.Repeat("9.0", 50), .. Enumerable.Range(0, 46).Select(i => i % 2 == 0 ? "2.0" : "3.0")];

    /// <summary>Begun Mar 6 10:00 CST; fan on Mar 6 8:00; closed at midnight before Mar 8, whose night lacks an hour: closed 12 h at 13:00 CDT.
    /// To Mar 10 11:00 CDT, 46 h later.</summary>
    private static readonly RadonTest OverSpring = new() { StartedAtUtc = Utc("2026-03-06 16:00"), EndedAtUtc = Utc("2026-03-10 16:00"), ClosedHouseFromUtc = Utc("2026-03-08 06:00") };

    private static readonly string SpringFile = Hourly(OverSpring.StartedAtUtc, FiftyThenFortySix, Standard);

    // Source of the rule: ANSI/AARST MAH 2019, 7.3.2(b) and 8.5.3; the file and its mean by hand.
    [Fact]
    public void Ninety_six_hours_over_the_spring_change_in_the_right_zone_are_valid_with_the_right_mean()
    {
        var found = Judge(Read(SpringFile), OverSpring, "2026-03-06 14:00");
        Assert.True(found.Engine.IsValid);
        Assert.Equal(2.5m, found.Engine.Average!.Value.PciPerL);
        Assert.Equal((46, Utc("2026-03-08 18:00")), (found.Engine.HoursUsed, found.Engine.UsedFrom!.Value.UtcDateTime));
        Assert.Equal(96, found.Hours.Count);
        Assert.Equal(4, found.Hours.Count(h => h.Why == "first hours of the device"));
        Assert.Equal(46, found.Hours.Count(h => h.Why == "conditions not met yet"));
    }

    [Theory]
    [InlineData("America/New_York", DeviceClock.StandardTime, 45)]
    [InlineData("", DeviceClock.UniversalTime, 40)]
    public void In_the_wrong_zone_the_same_file_lacks_hours_and_is_not_valid(string zone, DeviceClock clock, int hours)
    {
        var found = Judge(Read(SpringFile, h => h with { Zone = zone, Clock = clock }), OverSpring, "2026-03-06 14:00");
        Assert.False(found.Engine.IsValid);
        Assert.Equal(hours, found.Engine.HoursUsed);
        Assert.Contains(found.Engine.Reasons, r => r.Sentence == $"{hours} contiguous hours are left; 46 are needed.");
    }

    [Fact]
    public void A_clock_that_is_never_set_cannot_be_read_as_one_that_is_set_forward()
    {
        var reading = Read(SpringFile, h => h with { Clock = DeviceClock.LocalTime });
        Assert.Null(reading.Hours);
        Assert.Equal("Clock", reading.Refusals[0].Field);
        Assert.Contains("Mar 8, 2026 2:00 AM never came", reading.Refusals[0].Words, StringComparison.Ordinal);
        Assert.Contains("standard time all year", reading.Refusals[0].Words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_clock_that_is_set_forward_reads_right_as_local_time()
    {
        var reading = Read(Hourly(OverSpring.StartedAtUtc, FiftyThenFortySix, Local), h => h with { Clock = DeviceClock.LocalTime });
        Assert.Equal(96, reading.Hours!.PCiL.Count);
        Assert.Equal(2.5m, Judge(reading, OverSpring, "2026-03-06 14:00").Engine.Average!.Value.PciPerL);
        // Read as standard time, an hour seems to be missing, and everything after it stands an hour late.
        var wrong = Read(Hourly(OverSpring.StartedAtUtc, FiftyThenFortySix, Local));
        Assert.Equal((97, 1), (wrong.Hours!.PCiL.Count, wrong.Hours.Missing));
    }

    /// <summary>96 hours from Oct 30 9:00 CDT over the night of Nov 1 2026, in which 1:00 comes twice; hour n shows n tenths.</summary>
    private static readonly RadonTest OverAutumn = new() { StartedAtUtc = Utc("2026-10-30 14:00"), EndedAtUtc = Utc("2026-11-03 14:00"), ClosedHouseFromUtc = Utc("2026-10-29 12:00") };

    private static string AutumnFile(Func<DateTime, DateTime> clock) =>
        Hourly(OverAutumn.StartedAtUtc, Enumerable.Range(0, 96).Select(n => (n / 10m).ToString(CultureInfo.InvariantCulture)), clock, "Date and time;Bq".Replace(';', ','), "yyyy-MM-dd HH:mm:ss");

    [Fact]
    public void The_hour_that_comes_twice_in_autumn_is_two_hours()
    {
        var reading = Read(AutumnFile(Local), h => h with { Clock = DeviceClock.LocalTime, Unit = RadonUnit.PCiL });
        Assert.Equal(Enumerable.Range(0, 96).Select(n => (decimal?)(n / 10m)), reading.Hours!.PCiL);
        Assert.Equal(OverAutumn.StartedAtUtc, reading.Hours.FromUtc);
        // Hours 4 to 95: mean 49.5 tenths.
        var found = Judge(reading, OverAutumn, "2026-10-28 12:00");
        Assert.Equal((true, 4.95m, 92), (found.Engine.IsValid, found.Engine.Average!.Value.PciPerL, found.Engine.HoursUsed));
    }

    [Fact]
    public void Read_as_standard_time_the_repeated_hour_is_refused_with_the_way_out()
    {
        var reading = Read(AutumnFile(Local), h => h with { Unit = RadonUnit.PCiL });
        Assert.Null(reading.Hours);
        Assert.Contains("same time with different readings (4 and 4.1)", reading.Refusals[0].Words.Replace("4.0", "4", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("choose “local time with daylight saving”", reading.Refusals[0].Words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("America/Chicago", null)]
    [InlineData("America/New_York", "lies 1 h before it from beginning to end")]
    [InlineData("America/Denver", "lies 1 h after it from beginning to end")]
    public void A_file_of_the_test_s_length_that_lies_beside_it_is_told(string zone, string? words)
    {
        var reading = Read(AutumnFile(Local), h => h with { Clock = DeviceClock.LocalTime, Unit = RadonUnit.PCiL, Zone = zone });
        var doubt = JudgeHours.DoubtOfClock(reading.Hours!, OverAutumn);
        if (words is null) Assert.Null(doubt);
        else Assert.Contains(words, doubt, StringComparison.Ordinal);
    }

    /// <summary>Both hours of the night show the same, so that nothing contradicts: one of the two is lost unless it is told.</summary>
    [Fact]
    public void Two_equal_hours_of_the_autumn_night_read_as_one_are_told_with_the_way_out()
    {
        var reading = Read(Hourly(OverAutumn.StartedAtUtc, Enumerable.Repeat("1.5", 96), Local, "Date and time,Radon", "yyyy-MM-dd HH:mm:ss"), h => h with { Unit = RadonUnit.PCiL });
        Assert.Contains(reading.Remarks, r => r.Contains("1 row stands twice and counts once", StringComparison.Ordinal));
        Assert.Contains(reading.Remarks, r => r.Contains("choose “local time with daylight saving”", StringComparison.Ordinal));
    }

    [Fact]
    public void The_radon_is_found_where_its_column_comes_first()
    {
        var (table, _) = MonitorTable.Of("Radon (Bq/m3),Humidity,Time\n37,40.5,2026-05-04 10:00\n74,41.5,2026-05-04 11:00\n");
        Assert.Equal("Radon (Bq/m3)", GuessHabit.Of(table!, null).ValueColumn);
    }

    [Fact]
    public void A_standard_clock_read_as_local_time_in_autumn_is_told()
    {
        var reading = Read(AutumnFile(Standard), h => h with { Clock = DeviceClock.LocalTime, Unit = RadonUnit.PCiL });
        Assert.Contains(reading.Remarks, r => r.Contains("stands once, where a clock that is set back has it twice", StringComparison.Ordinal));
    }

    private static readonly DateTime From = Utc("2026-05-04 15:00");
    private static readonly RadonTest InMay = new() { StartedAtUtc = From, EndedAtUtc = From.AddHours(60), ClosedHouseFromUtc = From.AddHours(-20) };

    private static string[] Values(int hours, params (int Hour, string Value)[] but)
    {
        var values = Enumerable.Repeat("1.5", hours).ToArray();
        foreach (var (hour, value) in but) values[hour] = value;
        return values;
    }

    [Fact]
    public void Becquerels_are_told_by_the_head_and_turned_into_picocuries()
    {
        // 37 Bq/m³ is 1 pCi/L (1 Ci = 3.7e10 Bq; NIST SP 811).
        var reading = Read(Hourly(From, Enumerable.Repeat("74", 50), Standard, "Time,Radon [Bq/m3]"));
        Assert.All(reading.Hours!.PCiL, p => Assert.Equal(2m, p));
    }

    [Fact]
    public void Text_and_negative_readings_leave_their_hours_without_a_reading_and_are_named()
    {
        var reading = Read(Hourly(From, Values(60, (10, "ERR"), (11, "-0.4"), (30, "")), Standard));
        Assert.Equal(3, reading.Hours!.Missing);
        Assert.Contains(reading.Remarks, r => r.Contains("2 rows have no number", StringComparison.Ordinal) && r.Contains("line 12 “ERR”", StringComparison.Ordinal));
        Assert.Contains(reading.Remarks, r => r.Contains("below zero", StringComparison.Ordinal) && r.Contains("line 13", StringComparison.Ordinal));
        // What is left in one piece: hours 31 to 59.
        var nothing = Judge(reading, InMay, "2026-05-01 12:00", GapCause.DeviceRecordedNothing).Engine;
        Assert.Equal((false, 29), (nothing.IsValid, nothing.HoursUsed));
        Assert.Contains(Judge(reading, InMay, "2026-05-01 12:00", GapCause.TakenOut).Engine.Reasons, r => r.Sentence.StartsWith("3 h were taken out", StringComparison.Ordinal) && r.Kind == ReasonKind.Invalidates);
    }

    [Fact]
    public void Missing_rows_are_missing_hours_and_rows_written_twice_count_once()
    {
        var lines = Hourly(From, Values(60), Standard).Split("\r\n").ToList();
        lines.RemoveRange(20, 2);
        lines.Insert(30, lines[29]);
        var reading = Read(string.Join("\r\n", lines));
        Assert.Equal((60, 2), (reading.Hours!.PCiL.Count, reading.Hours.Missing));
        Assert.Contains(reading.Remarks, r => r.StartsWith("1 row stands twice", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("M-17", "", true)]
    [InlineData("m 17", "", true)]
    [InlineData("M-18", "written by device M-17, and the test names M-18", false)]
    public void A_file_of_another_device_is_refused(string onTest, string words, bool taken)
    {
        var before = "Radon monitor\r\nSerial number: M-17\r\nMode: hourly\r\n" + Hourly(From, Values(50), Standard);
        var column = Hourly(From, Values(50).Select(v => v + ",M-17"), Standard, "Time,Radon pCi/L,Serial");
        foreach (var text in new[] { before, column })
        {
            var reading = Read(text, serial: onTest);
            Assert.Equal(taken, reading.Hours is not null);
            if (!taken) Assert.Contains(words, reading.Refusals[0].Words, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("M/d/yyyy h:mm tt", "MonthFirst")]
    [InlineData("dd.MM.yyyy HH:mm", "DayFirst")]
    [InlineData("yyyy-MM-ddTHH:mm:ss", "MonthFirst")]
    [InlineData("d MMM yyyy HH:mm", "MonthFirst")]
    public void Days_and_times_are_read_as_devices_write_them(string form, string order)
    {
        var reading = Read(Hourly(From, Values(400), Standard, form: form), h => h with { Order = Enum.Parse<DayOrder>(order) });
        Assert.Equal((From, 400), (reading.Hours!.FromUtc, reading.Hours.PCiL.Count));
    }

    [Fact]
    public void Semicolons_decimal_commas_a_day_and_a_clock_apart_and_the_newest_first_are_read()
    {
        var rows = Enumerable.Range(0, 50).Select(n => (At: Standard(From.AddHours(n)), Value: $"{n / 10},{n % 10}")).Reverse().Select(r => string.Create(CultureInfo.InvariantCulture, $"{r.At:dd.MM.yyyy};{r.At:HH:mm};{r.Value}"));
        var reading = Read("Datum;Zeit;Radon pCi/L\n" + string.Join('\n', rows) + "\n");
        Assert.Equal(Enumerable.Range(0, 50).Select(n => (decimal?)(n / 10m)), reading.Hours!.PCiL);
        Assert.Equal(From, reading.Hours.FromUtc);
    }

    [Fact]
    public void Ten_minute_rows_make_hours_and_four_hourly_rows_are_refused()
    {
        var ten = "Time,Radon pCi/L\n" + string.Concat(Enumerable.Range(0, 6 * 50).Where(n => n != 63).Select(n => string.Create(CultureInfo.InvariantCulture, $"{Standard(From.AddMinutes(10 * n)):MM/dd/yyyy HH:mm},{1 + n % 6}\n")));
        var reading = Read(ten);
        Assert.Equal((50, 1, 3.5m), (reading.Hours!.PCiL.Count, reading.Hours.Missing, reading.Hours.PCiL[0]));
        var four = "Time,Radon pCi/L\n" + string.Concat(Enumerable.Range(0, 30).Select(n => string.Create(CultureInfo.InvariantCulture, $"{Standard(From.AddHours(4 * n)):MM/dd/yyyy HH:mm},1.5\n")));
        Assert.Contains("4 h apart", Read(four).Refusals[0].Words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_row_that_breaks_the_rhythm_is_named()
    {
        var text = Hourly(From, Values(30), Standard) + Hourly(From.AddHours(30).AddMinutes(25), Values(30), Standard).Split("\r\n", 2)[1];
        Assert.StartsWith("Line 32 does not keep the rhythm", Read(text).Refusals[0].Words, StringComparison.Ordinal);
    }

    [Fact]
    public void The_time_at_the_end_of_an_hour_is_moved_to_its_beginning() =>
        Assert.Equal(From.AddHours(-1), Read(Hourly(From, Values(50), Standard), h => h with { RowTime = RowTime.EndsTheHour }).Hours!.FromUtc);

    [Fact]
    public void A_hundred_thousand_rows_are_read_in_a_moment_and_only_the_test_counts()
    {
        var watch = System.Diagnostics.Stopwatch.StartNew();
        var reading = Read(Hourly(From.AddHours(-50_000), Values(100_000), Standard));
        Assert.Equal(100_000, reading.Hours!.PCiL.Count);
        var finding = Judge(reading, InMay, "2026-05-01 12:00");
        Assert.Equal((true, 56), (finding.Engine.IsValid, finding.Engine.HoursUsed));
        // Shown are the sixty hours of the test and twelve on either side.
        Assert.Equal((60 + 24, From.AddHours(-12)), (finding.Near.Count, finding.Near[0].FromUtc));
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(20), $"{watch.Elapsed}");
    }

    [Theory]
    [InlineData("", "No table was found")]
    [InlineData("only words\nand more words\n", "No table was found")]
    [InlineData("Time,Radon\n", "holds no reading")]
    public void What_is_no_record_is_refused_in_words(string text, string words) => Assert.Contains(words, MonitorTable.Of(text).Problem!, StringComparison.Ordinal);

    [Fact]
    public void Workbooks_pictures_and_empty_files_are_refused_in_words()
    {
        Assert.Contains("workbook", MonitorTable.TextOf("PK\u0003\u0004"u8.ToArray()).Problem!, StringComparison.Ordinal);
        Assert.Contains("picture", MonitorTable.TextOf([0xFF, 0xD8, 0xFF, 0xE0]).Problem!, StringComparison.Ordinal);
        Assert.Contains("empty", MonitorTable.TextOf([]).Problem!, StringComparison.Ordinal);
        Assert.Contains("no text", MonitorTable.TextOf([65, 0, 66]).Problem!, StringComparison.Ordinal);
        Assert.Equal("Bq/m³", MonitorTable.TextOf([0x42, 0x71, 0x2F, 0x6D, 0xB3]).Text);
    }

    [Fact]
    public void Hours_before_and_after_the_test_are_left_out_and_the_rest_is_written_and_read_back()
    {
        var hours = Read(Hourly(From.AddHours(-10), Values(80, (3, "7.25")), Standard)).Hours!;
        var found = JudgeHours.Of(hours, InMay, GapCause.NotSaid, 4, false, Utc("2026-05-01 12:00"), Chicago);
        Assert.Equal((10, 10, 4, 56), (found.Hours.Count(h => h.Why == "before the test"), found.Hours.Count(h => h.Why == "after the test"), found.Hours.Count(h => h.Why == "first hours of the device"), found.Hours.Count(h => h.Counts)));
        var back = MonitorHours.Of(new MonitorRecord { FromUtc = hours.FromUtc, HoursPCiL = hours.Write() });
        Assert.Equal(hours.PCiL, back.PCiL);
    }
}
