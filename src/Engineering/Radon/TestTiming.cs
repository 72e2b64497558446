using System.Globalization;
using MitigationOffice.Engineering.Dates;
using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Radon;

/// <summary>Checks when and how long a post-mitigation test ran.</summary>
internal static class TestTiming
{
    public static IEnumerable<TestReason> Check(PostMitigationTest test, TestWindow window, PostMitigationRules rules)
    {
        IEnumerable<TestReason?> reasons =
        [
            Length(test, rules),
            .. ClosedBuilding(test, rules),
            Start(test, window, rules),
            Late(test, window, rules),
        ];
        return reasons.OfType<TestReason>();
    }

    private static TestReason? Length(PostMitigationTest test, PostMitigationRules rules) =>
        test.Length < TimeSpan.FromHours(rules.ShortestTestHours)
            ? Invalid($"The test ran {Hours(test.Length)} h; at least {rules.ShortestTestHours} h are needed.", RadonSources.ShortestTest)
            : null;

    private static IEnumerable<TestReason?> ClosedBuilding(PostMitigationTest test, PostMitigationRules rules)
    {
        if (!PostMitigationVerdict.NeedsClosedBuilding(test, rules))
            yield break;
        if (test.ClosedSince is null)
            yield return Invalid("It is not written down when the house was closed up; a short test needs 12 h closed before it.",
                RadonSources.PostMitigationTesting);
        if (!test.StayedClosed)
            yield return Invalid("The house did not stay closed during the test.", RadonSources.PostMitigationTesting);
    }

    private static TestReason? Start(PostMitigationTest test, TestWindow window, PostMitigationRules rules)
    {
        if (test.Start >= window.EarliestStart)
            return null;
        var earliest = Instant(window.EarliestStart, test);
        if (!test.Devices.All(device => device.IsContinuousMonitor))
            return Invalid($"The test started {Instant(test.Start, test)}, before {earliest}: 24 h after the fan and 12 h closed were not both over.",
                RadonSources.PostMitigationTesting);
        return test.Devices.All(device => device.Hourly is not null)
            ? new(ReasonKind.Notes, $"The continuous monitor was started before {earliest}, when both conditions were met; only its hours from then on count.", RadonSources.PostMitigationTesting)
            : ExtendedRun(test, window, rules);
    }

    private static TestReason ExtendedRun(PostMitigationTest test, TestWindow window, PostMitigationRules rules)
    {
        var warmedUp = test.Start.AddHours(rules.MonitorWarmUpHours);
        var usable = test.End - (warmedUp > window.EarliestStart ? warmedUp : window.EarliestStart);
        var enough = usable >= TimeSpan.FromHours(rules.MonitorShortestHours);
        var sentence = $"The continuous monitor ran {Hours(usable > TimeSpan.Zero ? usable : TimeSpan.Zero)} h after {Instant(window.EarliestStart, test)}, "
            + $"when both conditions were met; {rules.MonitorShortestHours} h are needed.";
        return new(enough ? ReasonKind.Notes : ReasonKind.Invalidates, sentence, RadonSources.PostMitigationTesting);
    }

    private static TestReason? Late(PostMitigationTest test, TestWindow window, PostMitigationRules rules) =>
        window.IsLate(test.Start)
            ? new(rules.LateStartInvalidates ? ReasonKind.Invalidates : ReasonKind.Notes,
                $"The test started after {window.LastDay.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}, the last day of the {TestWindow.DaysAfterFanOn} days after the fan was switched on.",
                TestWindow.LastDaySource)
            : null;

    private static TestReason Invalid(string sentence, Citation source) => new(ReasonKind.Invalidates, sentence, source);

    private static string Hours(TimeSpan time) => time.TotalHours.ToString("0.##", CultureInfo.InvariantCulture);

    private static string Instant(DateTimeOffset instant, PostMitigationTest test) =>
        (test.Zone is { } zone ? TimeZoneInfo.ConvertTime(instant, zone) : instant).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
