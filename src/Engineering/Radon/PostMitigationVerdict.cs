using System.Globalization;
using MitigationOffice.Engineering.Dates;
using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Radon;

/// <summary>
/// Draws the verdict of a post-mitigation test. The highest place decides, by its reported value: below the promised
/// level it is passed; below 4.0 pCi/L passed with further reduction offered; from 4.0 not passed.
/// </summary>
public static class PostMitigationVerdict
{
    /// <summary>
    /// The verdict. Two charcoal devices 6 in apart with 3.8 and 4.1 pCi/L, a full and timely test: average 3.95, reported
    /// as 4.0, not passed.
    /// </summary>
    /// <param name="test">The test: at least one device, an end after its start, a target of 0.1 to 4.0 pCi/L.</param>
    /// <param name="rules">The settings; the published defaults where left out.</param>
    /// <returns>The verdict with its reasons.</returns>
    /// <exception cref="ArgumentException">No device, or an end not after the start.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A target outside 0.1 to 4.0 pCi/L, or a distance or count below 0.</exception>
    /// <remarks>Range: as for each argument. Source: ANSI/AARST MAH 2019, 7.1, 7.3.2, 8.5.2, 8.5.3; EPA 402-R-93-078, section 17, from memory.</remarks>
    public static TestVerdict Draw(PostMitigationTest test, PostMitigationRules? rules = null)
    {
        rules ??= PostMitigationRules.Default;
        Refuse(test);
        var window = TestWindow.After(test.FanOn, NeedsClosedBuilding(test, rules) ? test.ClosedSince : null);
        var locations = TestLocations.Of(test.Devices, rules);
        var deciding = locations[0];
        var reasons = new List<TestReason>();
        reasons.AddRange(TestTiming.Check(test, window, rules));
        reasons.AddRange(DeviceChecks.Check(test, rules));
        reasons.AddRange(locations.SelectMany(PairReasons));
        reasons.Add(Decide(deciding, test.Target));
        reasons.AddRange(TestLocations.SeparationNotes(test.Devices, rules));
        return new TestVerdict
        {
            Outcome = OutcomeOf(reasons, deciding.Result, test.Target),
            Reasons = [.. reasons.OrderBy(reason => reason.Kind)],
            Locations = locations,
            Deciding = deciding.Result,
            EarliestStart = window.EarliestStart,
            LastStartDay = window.LastDay,
            StartedLate = window.IsLate(test.Start),
            Test = test,
            Rules = rules,
        };
    }

    internal static bool NeedsClosedBuilding(PostMitigationTest test, PostMitigationRules rules) =>
        test.Length <= TimeSpan.FromDays(rules.LongTermOverDays);

    private static void Refuse(PostMitigationTest test)
    {
        if (test.Devices.Count == 0)
            throw new ArgumentException("A test needs at least one device; none was given.", nameof(test));
        if (test.End <= test.Start)
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture,
                $"The test ends at {test.End:yyyy-MM-dd HH:mm}, not after its start at {test.Start:yyyy-MM-dd HH:mm}."), nameof(test));
        Require.InRange(test.Target.PciPerL, 0.1m, RadonLevels.EpaActionPciPerL, "pCi/L", "The promised level");
        foreach (var device in test.Devices)
        {
            Require.InRange(device.HoursCutFromInside, 0, 10_000, "h", "Hours cut from the record");
            Require.InRange(device.DistanceToGroupInches ?? 0m, 0m, 10_000m, "in", "The distance between devices");
        }
    }

    private static TestOutcome OutcomeOf(List<TestReason> reasons, RadonConcentration deciding, RadonConcentration target)
    {
        if (reasons.Exists(reason => reason.Kind == ReasonKind.Invalidates))
            return TestOutcome.NotValid;
        if (deciding.ReportedPciPerL >= RadonLevels.EpaActionPciPerL)
            return TestOutcome.NotPassed;
        return deciding.ReportedPciPerL < target.PciPerL
            ? TestOutcome.PassedBelowTarget
            : TestOutcome.PassedFurtherReductionOffered;
    }

    private static TestReason Decide(LocationResult deciding, RadonConcentration target)
    {
        var place = $"The highest place, {deciding.Room}, shows {deciding.Display()}";
        var reported = deciding.Result.ReportedPciPerL;
        if (reported >= RadonLevels.EpaActionPciPerL)
            return new(ReasonKind.Decides, $"{place}: at or above 4.0 pCi/L. Diagnose, correct and test again.", RadonSources.NotPassed);
        if (reported < target.PciPerL)
            return new(ReasonKind.Decides, $"{place}: below the {target} promised for this house.", RadonSources.HouseRule);
        return new(ReasonKind.Decides, $"{place}: below 4.0 pCi/L but not below the {target} promised. Further reduction is offered.", RadonLevels.EpaSource);
    }

    private static IEnumerable<TestReason> PairReasons(LocationResult location)
    {
        if (location.Pair is not { } pair)
            yield break;
        var highest = location.Devices.Max(device => device.Result);
        var lowest = location.Devices.Min(device => device.Result);
        var decision = TwoResults.Decide(lowest, highest);
        if (decision.Decision == TwoResultDecision.TestAgainFirst)
            yield return new(ReasonKind.Invalidates, $"{location.Room}: {decision.Sentence}", decision.Source);
        if (pair.Zone != ControlZone.Within)
            yield return new(ReasonKind.Notes,
                $"{location.Room}: {lowest} and {highest} differ more than devices side by side should ({Limit(pair.Zone)} limit reached).",
                pair.Source);
    }

    private static string Limit(ControlZone zone) => zone == ControlZone.Control ? "control" : "warning";
}
