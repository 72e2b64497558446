using MitigationOffice.Engineering.Radon;
using static MitigationOffice.Engineering.Tests.Radon.RadonNumbers;

namespace MitigationOffice.Engineering.Tests.Radon;

public class PostMitigationVerdictTests
{
    // Source: EPA 402/K-12/002 and ANSI/AARST MAH 2019, 7.1 (4.0); the promised level is the company's own.
    [Theory]
    [InlineData("1.9", "2.0", TestOutcome.PassedBelowTarget)]
    [InlineData("1.94", "2.0", TestOutcome.PassedBelowTarget)]
    [InlineData("1.95", "2.0", TestOutcome.PassedFurtherReductionOffered)]
    [InlineData("2.0", "2.0", TestOutcome.PassedFurtherReductionOffered)]
    [InlineData("3.9", "2.0", TestOutcome.PassedFurtherReductionOffered)]
    [InlineData("3.94", "4.0", TestOutcome.PassedBelowTarget)]
    [InlineData("3.95", "4.0", TestOutcome.NotPassed)]
    [InlineData("4.0", "2.0", TestOutcome.NotPassed)]
    [InlineData("12", "2.0", TestOutcome.NotPassed)]
    public void The_reported_value_decides(string result, string target, TestOutcome outcome)
    {
        var verdict = PostMitigationVerdict.Draw(Charcoal(result) with { Target = PciPerL(target) });
        Assert.Equal(outcome, verdict.Outcome);
        Assert.True(verdict.IsValid);
        Assert.Equal(outcome != TestOutcome.NotPassed, verdict.Passed);
        Assert.Equal(D(result), verdict.Deciding.PciPerL);
        Assert.Single(verdict.Reasons, reason => reason.Kind == ReasonKind.Decides);
    }

    [Fact]
    public void Each_verdict_says_why_in_one_sentence()
    {
        Assert.Equal("The highest place, Basement, shows 2.5 pCi/L: below the 2.7 pCi/L promised for this house.", Deciding("2.5"));
        Assert.Equal("The highest place, Basement, shows 3.0 pCi/L: below 4.0 pCi/L but not below the 2.7 pCi/L promised. Further reduction is offered.", Deciding("3.0"));
        Assert.Contains("below 4.0 pCi/L but not below the 2.7 pCi/L promised", Deciding("2.7"), StringComparison.Ordinal);
        Assert.Contains("at or above 4.0 pCi/L", Deciding("4.0"), StringComparison.Ordinal);
        Assert.Equal("The highest place, Basement, shows 4.4 pCi/L: at or above 4.0 pCi/L. Diagnose, correct and test again.", Deciding("4.4"));

        static string Deciding(string result) => PostMitigationVerdict
            .Draw(Charcoal(result) with { Target = PciPerL("2.7") })
            .Reasons.Single(reason => reason.Kind == ReasonKind.Decides).Sentence;
    }

    // Source: ANSI/AARST MAH 2019, 8.5.2: pairs averaged and both shown; 3.95 reported as 4.0.
    [Theory]
    [InlineData("3.9", "4.0")]
    [InlineData("3.8", "4.1")]
    public void A_pair_that_averages_three_ninety_five_is_not_passed(string first, string second)
    {
        var verdict = PostMitigationVerdict.Draw(Pair(first, second, "6"));
        Assert.Equal(TestOutcome.NotPassed, verdict.Outcome);
        var place = Assert.Single(verdict.Locations);
        Assert.True(place.IsAverage);
        Assert.Equal($"4.0 pCi/L (average of {first} and {second})", place.Display());
        Assert.Equal(2, place.Devices.Count);
        Assert.NotNull(place.Pair);
    }

    // Source: ANSI/AARST MAH 2019, 8.5.2(d): more than 8 in apart are separate places, never averaged.
    [Theory]
    [InlineData("6", 1, "4.0")]
    [InlineData("8", 1, "4.0")]
    [InlineData("8.1", 2, "5.0")]
    [InlineData("10", 2, "5.0")]
    [InlineData(null, 2, "5.0")]
    public void Devices_are_averaged_only_within_eight_inches(string? apart, int places, string deciding)
    {
        var verdict = PostMitigationVerdict.Draw(Pair("3.0", "5.0", apart));
        Assert.Equal(places, verdict.Locations.Count);
        Assert.Equal(D(deciding), verdict.Deciding.PciPerL);
        Assert.Equal(places > 1, verdict.Reasons.Any(reason => reason.Sentence.Contains("not averaged", StringComparison.Ordinal)));
        Assert.Equal(places > 1, verdict.Locations.All(place => !place.IsAverage && place.Pair is null));
    }

    [Fact]
    public void The_note_on_separate_devices_names_the_room_and_the_group()
    {
        var note = PostMitigationVerdict.Draw(Pair("3.0", "3.1", "10")).Reasons.Single(reason => reason.Source == RadonSources.Averages);
        Assert.Equal(ReasonKind.Notes, note.Kind);
        Assert.Equal("Basement: the devices of group A are not known to stand within 8 in of each other, so they are reported one by one and not averaged.", note.Sentence);
    }

    [Fact]
    public void A_device_left_alone_in_its_group_is_noted_as_nothing()
    {
        var alone = Device("1", "3.0") with { CollocationGroup = "A", DistanceToGroupInches = 10m };
        var verdict = PostMitigationVerdict.Draw(Charcoal("3.0") with { Devices = [alone] });
        Assert.Single(verdict.Locations);
        Assert.Equal([ReasonKind.Decides], verdict.Reasons.Select(reason => reason.Kind));
    }

    [Fact]
    public void The_highest_place_decides_and_stands_first()
    {
        var test = Charcoal("1.0") with { Devices = [Device("1", "1.0"), Device("2", "3.5") with { Room = "Den" }, Device("3", "2.2")] };
        var verdict = PostMitigationVerdict.Draw(test);
        Assert.Equal([3.5m, 2.2m, 1.0m], verdict.Locations.Select(place => place.Result.PciPerL));
        Assert.Equal("Den", verdict.Locations[0].Room);
        Assert.DoesNotContain(verdict.Reasons, reason => reason.Source == RadonSources.Averages);
        Assert.Equal(TestOutcome.PassedFurtherReductionOffered, verdict.Outcome);
        Assert.Equal("1.0 pCi/L (near what the device can measure)", verdict.Locations[2].Display());
    }

    [Fact]
    public void Three_devices_side_by_side_average_as_one_place()
    {
        var devices = new[] { "1.0", "1.5", "1.9" }.Select((result, index) => Device($"{index}", result) with { CollocationGroup = "A", DistanceToGroupInches = index == 0 ? null : 4m });
        var place = Assert.Single(PostMitigationVerdict.Draw(Charcoal("1") with { Devices = [.. devices] }).Locations);
        Assert.Equal(4.4m / 3m, place.Result.PciPerL);
        Assert.Equal(0.9m, place.Pair!.DifferencePciPerL);
        var oneUnknown = devices.Select((device, index) => device with { DistanceToGroupInches = index == 1 ? 4m : null });
        Assert.Equal(3, PostMitigationVerdict.Draw(Charcoal("1") with { Devices = [.. oneUnknown] }).Locations.Count);
    }

    // Source: EPA 402-R-92-003, 3.2.2, from memory: either side of 4 and a factor of two apart: test again.
    [Fact]
    public void A_pair_a_factor_of_two_apart_across_the_action_level_is_not_valid()
    {
        var verdict = PostMitigationVerdict.Draw(Pair("2.1", "4.2", "6"));
        Assert.Equal(TestOutcome.NotValid, verdict.Outcome);
        Assert.False(verdict.IsValid);
        Assert.False(verdict.Passed);
        Assert.Equal(ReasonKind.Invalidates, verdict.Reasons[0].Kind);
        Assert.StartsWith("Basement: 2.1 pCi/L and 4.2 pCi/L stand on either side", verdict.Reasons[0].Sentence, StringComparison.Ordinal);
    }

    // Source: limits ANSI/AARST MS-QA 2019, 3.5 and Table 7.1.
    [Theory]
    [InlineData("5.0", "7.0", "warning")]
    [InlineData("4.0", "5.8", "control")]
    [InlineData("0.5", "1.6", "control")]
    [InlineData("4.8", "5.6", null)]
    public void A_pair_that_disagrees_is_noted(string first, string second, string? limit)
    {
        var notes = PostMitigationVerdict.Draw(Pair(first, second, "6")).Reasons.Where(reason => reason.Source == RadonSources.PairLimits);
        if (limit is null)
            Assert.Empty(notes);
        else
            Assert.Equal($"Basement: {first} pCi/L and {second} pCi/L differ more than devices side by side should ({limit} limit reached).", Assert.Single(notes).Sentence);
    }

    // Source: ANSI/AARST MAH 2019, 7.3.2: 24 h after the fan, 12 h closed.
    [Theory]
    [InlineData("2024-03-02 10:00", "2024-03-01 22:00", true)]
    [InlineData("2024-03-02 09:59", "2024-03-01 12:00", false)]
    [InlineData("2024-03-03 06:00", "2024-03-02 18:00", true)]
    [InlineData("2024-03-03 05:59", "2024-03-02 18:00", false)]
    public void A_test_waits_for_the_later_of_the_two_conditions(string start, string closed, bool valid)
    {
        var verdict = PostMitigationVerdict.Draw(Charcoal("1.5") with { Start = At(start), End = At(start).AddHours(48), ClosedSince = At(closed) });
        Assert.Equal(valid, verdict.IsValid);
        if (!valid)
            Assert.Contains("24 h after the fan and 12 h closed were not both over", verdict.Reasons[0].Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void The_verdict_carries_its_window_and_its_inputs()
    {
        var test = Charcoal("1.5") with { ClosedSince = At("2024-03-02 18:00"), Start = At("2024-03-04 08:00"), End = At("2024-03-06 08:00") };
        var rules = new PostMitigationRules();
        var verdict = PostMitigationVerdict.Draw(test, rules);
        Assert.Equal(At("2024-03-03 06:00"), verdict.EarliestStart);
        Assert.Equal(Day("2024-03-31"), verdict.LastStartDay);
        Assert.False(verdict.StartedLate);
        Assert.Same(test, verdict.Test);
        Assert.Same(rules, verdict.Rules);
        Assert.Same(PostMitigationRules.Default, PostMitigationVerdict.Draw(test).Rules);
    }

    // Source: EPA 402-R-93-078, section 17, from memory: within 30 days. That a late start only notes is a house rule.
    [Theory]
    [InlineData("2024-03-31 23:59", false)]
    [InlineData("2024-04-01 00:00", true)]
    public void A_late_start_is_noted_or_by_setting_not_valid(string start, bool late)
    {
        var test = Charcoal("1.5") with { Start = At(start), End = At(start).AddHours(48) };
        var verdict = PostMitigationVerdict.Draw(test);
        Assert.Equal(late, verdict.StartedLate);
        Assert.Equal(TestOutcome.PassedBelowTarget, verdict.Outcome);
        Assert.Equal(late, verdict.Reasons.Any(reason => reason.Sentence.Contains("after 2024-03-31, the last day of the 30 days", StringComparison.Ordinal)));
        Assert.Equal(!late, PostMitigationVerdict.Draw(test, new() { LateStartInvalidates = true }).IsValid);
    }

    // Source: 25 Pa. Code 240.310(a)(4)(ii): 48 h.
    [Theory]
    [InlineData(48, 0, true)]
    [InlineData(47, 59, false)]
    public void A_test_runs_forty_eight_hours(int hours, int minutes, bool valid)
    {
        var test = Charcoal("1.5");
        var verdict = PostMitigationVerdict.Draw(test with { End = test.Start + new TimeSpan(hours, minutes, 0) });
        Assert.Equal(valid, verdict.IsValid);
        if (!valid)
            Assert.Equal("The test ran 47.98 h; at least 48 h are needed.", verdict.Reasons[0].Sentence);
    }

    // Source: ANSI/AARST MAH 2019, 7.3.2: closed before and during.
    [Fact]
    public void A_short_test_needs_a_house_known_to_be_closed()
    {
        var unknown = PostMitigationVerdict.Draw(Charcoal("1.5") with { ClosedSince = null });
        Assert.Equal(TestOutcome.NotValid, unknown.Outcome);
        Assert.Contains("not written down when the house was closed up", unknown.Reasons[0].Sentence, StringComparison.Ordinal);
        var opened = PostMitigationVerdict.Draw(Charcoal("1.5") with { StayedClosed = false });
        Assert.Equal(TestOutcome.NotValid, opened.Outcome);
        Assert.Equal("The house did not stay closed during the test.", opened.Reasons[0].Sentence);
    }

    // Source: EPA 402-R-92-003, from memory: over 90 days is long-term and needs no closed building.
    [Fact]
    public void A_long_term_test_needs_no_closed_house()
    {
        var test = Charcoal("1.5") with { ClosedSince = null, StayedClosed = false };
        Assert.True(PostMitigationVerdict.Draw(test with { End = test.Start.AddDays(91) }).IsValid);
        Assert.False(PostMitigationVerdict.Draw(test with { End = test.Start.AddDays(90) }).IsValid);
        var closedLater = test with { ClosedSince = test.Start.AddDays(2), End = test.Start.AddDays(100) };
        Assert.Equal(test.FanOn.AddHours(24), PostMitigationVerdict.Draw(closedLater).EarliestStart);
    }

    // Source: ANSI/AARST MAH 2019, 7.3.2(b): a monitor started early needs 46 contiguous hours after both conditions are met.
    [Theory]
    [InlineData("2024-03-01 10:00", "2024-03-04 08:00", true)]
    [InlineData("2024-03-01 10:00", "2024-03-04 07:59", false)]
    [InlineData("2024-03-02 08:00", "2024-03-04 10:00", true)]
    [InlineData("2024-03-02 08:00", "2024-03-04 09:59", false)]
    [InlineData("2024-03-02 10:00", "2024-03-04 10:00", true)]
    public void A_monitor_may_start_early_and_run_longer(string start, string end, bool valid)
    {
        var verdict = PostMitigationVerdict.Draw(Monitor("1.5") with { Start = At(start), End = At(end) });
        Assert.Equal(valid, verdict.IsValid);
    }

    [Fact]
    public void The_older_practice_of_forty_four_hours_is_a_setting()
    {
        var test = Monitor("1.5") with { Start = At("2024-03-01 10:00"), End = At("2024-03-04 06:00") };
        var verdict = PostMitigationVerdict.Draw(test);
        Assert.Equal("The continuous monitor ran 44 h after 2024-03-02 10:00, when both conditions were met; 46 h are needed.", verdict.Reasons[0].Sentence);
        Assert.True(PostMitigationVerdict.Draw(test, new() { MonitorShortestHours = 44 }).IsValid);
    }

    [Fact]
    public void A_monitor_that_ended_before_the_conditions_ran_zero_hours_after_them()
    {
        var test = Monitor("1.5") with { FanOn = At("2024-03-05 10:00"), ClosedSince = At("2024-03-01 10:00"), Start = At("2024-03-02 10:00"), End = At("2024-03-04 10:00") };
        Assert.StartsWith("The continuous monitor ran 0 h after", PostMitigationVerdict.Draw(test).Reasons[0].Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void A_passive_device_beside_the_monitor_forbids_the_early_start()
    {
        var early = Monitor("1.5") with { Start = At("2024-03-01 10:00"), End = At("2024-03-05 08:00") };
        Assert.True(PostMitigationVerdict.Draw(early).IsValid);
        Assert.False(PostMitigationVerdict.Draw(early with { Devices = [.. early.Devices, Device("2", "1.5")] }).IsValid);
    }

    // Source: the date on the report ANSI/AARST MAH 2019, 8.5.3(b); twelve months from memory.
    [Theory]
    [InlineData("2023-03-02", true)]
    [InlineData("2023-03-01", false)]
    [InlineData("2024-03-02", true)]
    [InlineData("2024-03-03", false)]
    [InlineData(null, false)]
    public void A_monitor_is_calibrated_within_twelve_months(string? calibrated, bool valid)
    {
        var test = Monitor("1.5");
        var device = test.Devices[0] with { CalibratedOn = calibrated is null ? null : Day(calibrated) };
        Assert.Equal(valid, PostMitigationVerdict.Draw(test with { Devices = [device] }).IsValid);
    }

    [Fact]
    public void The_reasons_about_calibration_name_the_device()
    {
        Assert.Equal("M-1: the calibration date of a continuous monitor must be on the report and is missing.", Reason(null));
        Assert.Equal("M-1 was last calibrated on 2022-01-01, more than 12 months before the test.", Reason("2022-01-01"));
        Assert.Equal("M-1 was calibrated on 2025-01-01, after the test started.", Reason("2025-01-01"));

        static string Reason(string? calibrated)
        {
            var test = Monitor("1.5");
            var device = test.Devices[0] with { CalibratedOn = calibrated is null ? null : Day(calibrated) };
            return PostMitigationVerdict.Draw(test with { Devices = [device] }).Reasons[0].Sentence;
        }
    }

    [Fact]
    public void A_passive_device_needs_no_calibration_date_but_a_stale_one_counts()
    {
        Assert.True(PostMitigationVerdict.Draw(Charcoal("1.5")).IsValid);
        var stale = Device("1", "1.5") with { CalibratedOn = Day("2020-01-01") };
        Assert.False(PostMitigationVerdict.Draw(Charcoal("1.5") with { Devices = [stale] }).IsValid);
    }

    // Source: ANSI/AARST MAH 2019, 8.5.3.
    [Fact]
    public void Hours_cut_from_inside_the_record_invalidate()
    {
        var test = Monitor("1.5");
        var verdict = PostMitigationVerdict.Draw(test with { Devices = [test.Devices[0] with { HoursCutFromInside = 1 }] });
        Assert.Equal(TestOutcome.NotValid, verdict.Outcome);
        Assert.Equal("M-1: 1 h were taken out of the inside of the record.", verdict.Reasons[0].Sentence);
    }

    [Fact]
    public void A_low_result_is_noted()
    {
        var note = PostMitigationVerdict.Draw(Charcoal("1.2")).Reasons.Single(reason => reason.Kind == ReasonKind.Notes);
        Assert.Equal("1: 1.2 pCi/L (near what the device can measure).", note.Sentence);
        Assert.DoesNotContain(PostMitigationVerdict.Draw(Charcoal("2.0")).Reasons, reason => reason.Kind == ReasonKind.Notes);
    }

    [Fact]
    public void An_invalid_high_test_is_not_valid_rather_than_not_passed()
    {
        var verdict = PostMitigationVerdict.Draw(Charcoal("9") with { StayedClosed = false });
        Assert.Equal(TestOutcome.NotValid, verdict.Outcome);
        Assert.Equal([ReasonKind.Invalidates, ReasonKind.Decides], verdict.Reasons.Select(reason => reason.Kind));
    }

    [Fact]
    public void Input_out_of_range_is_refused()
    {
        var test = Charcoal("1.5");
        Assert.Contains("at least one device", Refused<ArgumentException>(test with { Devices = [] }), StringComparison.Ordinal);
        Assert.Contains("ends at 2024-03-02 10:00, not after its start at 2024-03-02 10:00", Refused<ArgumentException>(test with { End = test.Start }), StringComparison.Ordinal);
        Assert.Contains("The promised level is 4.1 pCi/L", Refused<ArgumentOutOfRangeException>(test with { Target = PciPerL("4.1") }), StringComparison.Ordinal);
        Assert.Contains("must lie from 0.1 to 4.0 pCi/L", Refused<ArgumentOutOfRangeException>(test with { Target = default }), StringComparison.Ordinal);
        Assert.Contains("Hours cut from the record is -1 h", Refused<ArgumentOutOfRangeException>(test with { Devices = [Device("1", "1") with { HoursCutFromInside = -1 }] }), StringComparison.Ordinal);
        Assert.Contains("The distance between devices is -1 in", Refused<ArgumentOutOfRangeException>(test with { Devices = [Device("1", "1") with { DistanceToGroupInches = -1 }] }), StringComparison.Ordinal);

        static string Refused<T>(PostMitigationTest test)
            where T : Exception => Assert.Throws<T>(() => PostMitigationVerdict.Draw(test)).Message;
    }

    internal static PostMitigationTest Charcoal(string result) => new()
    {
        FanOn = At("2024-03-01 10:00"),
        ClosedSince = At("2024-03-01 20:00"),
        Start = At("2024-03-02 10:00"),
        End = At("2024-03-04 10:00"),
        Target = PciPerL("2.0"),
        Devices = [Device("1", result)],
    };

    private static PostMitigationTest Monitor(string result) => Charcoal(result) with
    {
        Devices = [Device("M-1", result) with { Kind = DeviceKind.ContinuousMonitor, CalibratedOn = Day("2024-01-10") }],
    };

    private static PostMitigationTest Pair(string first, string second, string? apart) => Charcoal(first) with
    {
        Devices =
        [
            Device("1", first) with { CollocationGroup = "A" },
            Device("2", second) with { CollocationGroup = "A", DistanceToGroupInches = apart is null ? null : D(apart) },
        ],
    };

    private static TestDevice Device(string name, string result) => new()
    {
        Name = name,
        Kind = DeviceKind.ActivatedCharcoal,
        Room = "Basement",
        Result = PciPerL(result),
    };
}
