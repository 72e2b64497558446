using MitigationOffice.Engineering.Radon;
using static MitigationOffice.Engineering.Tests.Radon.RadonNumbers;

namespace MitigationOffice.Engineering.Tests.Radon;

public class MonitorSeriesTests
{
    private static readonly DateTimeOffset Start = At("2025-02-03 08:00");
    private static readonly MonitorRules Older = new() { ShortestHours = 44 };

    private static MonitorSeries FortyEightHours(Func<int, MonitorHour, MonitorHour>? change = null)
    {
        var hours = Enumerable.Range(0, 48)
            .Select(hour => new MonitorHour(PciPerL(hour < 4 ? "9.9" : hour < 26 ? "2.0" : "3.0")))
            .Select((hour, index) => change?.Invoke(index, hour) ?? hour);
        return new MonitorSeries(Start, [.. hours]);
    }

    // Source: ANSI/AARST MAH 2019, 8.5.3 (first 4 h discarded); arithmetic.
    [Fact]
    public void The_first_four_hours_are_dropped()
    {
        var finding = FortyEightHours().Judge(Older);
        Assert.True(finding.IsValid);
        Assert.Equal(2.50m, finding.Average!.Value.PciPerL);
        Assert.Equal((44, 4), (finding.HoursUsed, finding.HoursDroppedFirst));
        Assert.Equal(Start.AddHours(4), finding.UsedFrom);
        Assert.Equal(Start.AddHours(48), finding.UsedTo);
        Assert.Empty(finding.Reasons);
    }

    // Source: arithmetic: all 48 h average 3.12.
    [Fact]
    public void A_device_that_corrects_its_start_keeps_all_hours()
    {
        var finding = FortyEightHours().Judge(new() { DropFirstHours = 0, DeviceCorrectsStart = true });
        Assert.Equal(3.12m, Math.Round(finding.Average!.Value.PciPerL, 2, MidpointRounding.AwayFromZero));
        Assert.Equal(48, finding.HoursUsed);
    }

    // Source: ANSI/AARST MAH 2019, 7.3.2(b): 46 h; the older EPA practice 44 h, as quoted by another text.
    [Fact]
    public void Forty_four_hours_are_enough_only_by_the_older_practice()
    {
        var finding = FortyEightHours().Judge();
        Assert.False(finding.IsValid);
        var reason = Assert.Single(finding.Reasons);
        Assert.Equal("44 contiguous hours are left; 46 are needed.", reason.Sentence);
        Assert.Equal(ReasonKind.Invalidates, reason.Kind);
        Assert.False(FortyEightHours().Judge(new() { ShortestHours = 45 }).IsValid);
    }

    // Source: ANSI/AARST MAH 2019, 8.5.3: removing hours from inside the contiguous period invalidates the test.
    [Theory]
    [InlineData(20)]
    [InlineData(5)]
    [InlineData(46)]
    public void An_hour_taken_out_of_the_inside_invalidates(int cut)
    {
        var finding = FortyEightHours((index, hour) => hour with { TakenOut = index == cut }).Judge(new() { ShortestHours = 1 });
        Assert.False(finding.IsValid);
        Assert.Equal("1 h were taken out of the inside of the record.", Assert.Single(finding.Reasons).Sentence);
    }

    // Source: ANSI/AARST MAH 2019, 8.5.3: 12 h for closed-building time, 24 h after the fan may be dropped.
    [Theory]
    [InlineData(4)]
    [InlineData(12)]
    [InlineData(24)]
    public void Hours_dropped_at_the_beginning_do_no_harm(int dropped)
    {
        var byRule = FortyEightHours().Judge(new() { DropFirstHours = dropped, ShortestHours = 24 });
        var byHand = FortyEightHours((index, hour) => hour with { TakenOut = index < dropped }).Judge(new() { ShortestHours = 24 });
        Assert.True(byRule.IsValid);
        Assert.Equal(48 - dropped, byRule.HoursUsed);
        Assert.Equal(byRule.Average, byHand.Average);
        Assert.Empty(byHand.Reasons);
    }

    [Fact]
    public void Hours_left_off_at_the_end_only_shorten_the_record()
    {
        var finding = FortyEightHours((index, hour) => hour with { TakenOut = index >= 46 }).Judge(new() { ShortestHours = 42 });
        Assert.True(finding.IsValid);
        Assert.Equal(42, finding.HoursUsed);
        Assert.Equal(Start.AddHours(46), finding.UsedTo);
        Assert.Empty(finding.Reasons);
    }

    [Fact]
    public void Hours_before_the_conditions_were_met_are_dropped()
    {
        var finding = FortyEightHours().Judge(new() { NotBefore = Start.AddHours(9.5), ShortestHours = 38 });
        Assert.Equal(10, finding.HoursDroppedFirst);
        Assert.Equal(38, finding.HoursUsed);
        Assert.Equal(Start.AddHours(10), finding.UsedFrom);
        Assert.Equal(9, FortyEightHours().Judge(new() { NotBefore = Start.AddHours(9) }).HoursDroppedFirst);
    }

    [Fact]
    public void A_fault_of_the_device_leaves_the_longest_stretch()
    {
        var finding = FortyEightHours((index, hour) => index == 10 ? new(null) : hour).Judge(new() { ShortestHours = 37 });
        Assert.True(finding.IsValid);
        Assert.Equal((37, Start.AddHours(11)), (finding.HoursUsed, finding.UsedFrom));
        var remark = Assert.Single(finding.Reasons);
        Assert.Equal(ReasonKind.Notes, remark.Kind);
        Assert.Contains("37 h, is used", remark.Sentence, StringComparison.Ordinal);
        Assert.Same(RadonSources.HouseRule, remark.Source);
    }

    [Fact]
    public void Of_two_stretches_as_long_the_earlier_counts()
    {
        var finding = FortyEightHours((index, hour) => index is 15 or 26 or 37 ? new(null) : hour).Judge(new() { DropFirstHours = 5, ShortestHours = 1 });
        Assert.Equal((10, Start.AddHours(5)), (finding.HoursUsed, finding.UsedFrom));
        Assert.Equal(2.0m, finding.Average!.Value.PciPerL);
    }

    [Fact]
    public void Nothing_recorded_at_the_end_is_no_gap()
    {
        var finding = FortyEightHours((index, hour) => index >= 40 ? new(null) : hour).Judge(new() { ShortestHours = 36 });
        Assert.True(finding.IsValid);
        Assert.Empty(finding.Reasons);
        Assert.Equal(36, finding.HoursUsed);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    [InlineData(4)]
    public void A_record_with_nothing_left_has_no_average(int hours)
    {
        var finding = new MonitorSeries(Start, [.. Enumerable.Repeat(new MonitorHour(PciPerL("2")), hours)]).Judge();
        Assert.False(finding.IsValid);
        Assert.Null(finding.Average);
        Assert.Null(finding.UsedFrom);
        Assert.Null(finding.UsedTo);
        Assert.Equal((0, hours), (finding.HoursUsed, finding.HoursDroppedFirst));
    }

    [Fact]
    public void A_monitor_that_recorded_nothing_at_all_has_no_gap_inside()
    {
        var finding = new MonitorSeries(Start, [new(null), new(null)]).Judge(new() { DropFirstHours = 0, DeviceCorrectsStart = true });
        Assert.Equal(ReasonKind.Invalidates, Assert.Single(finding.Reasons).Kind);
        Assert.Null(finding.Average);
    }

    [Fact]
    public void Fewer_than_four_hours_dropped_are_refused_unless_the_device_corrects_them()
    {
        var refused = Assert.Throws<ArgumentOutOfRangeException>(() => FortyEightHours().Judge(new() { DropFirstHours = 3 }));
        Assert.Contains("Hours dropped at the start is 3 h; it must lie from 4 to 2160 h", refused.Message, StringComparison.Ordinal);
        Assert.Equal(45, FortyEightHours().Judge(new() { DropFirstHours = 3, DeviceCorrectsStart = true }).HoursUsed);
        var none = Assert.Throws<ArgumentOutOfRangeException>(() => FortyEightHours().Judge(new() { ShortestHours = 0 }));
        Assert.Contains("Contiguous hours needed is 0 h", none.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => FortyEightHours().Judge(new() { DropFirstHours = 2161 }));
    }
}
