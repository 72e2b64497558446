using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Radon;

/// <summary>What a post-mitigation test says.</summary>
public enum TestOutcome
{
    /// <summary>Passed: below the level promised for the house.</summary>
    PassedBelowTarget,

    /// <summary>Passed below the action level, but not below the promised level: further reduction is offered.</summary>
    PassedFurtherReductionOffered,

    /// <summary>Not passed: at or above the action level; diagnose, correct, test again.</summary>
    NotPassed,

    /// <summary>Not valid: the test cannot be relied on; test again.</summary>
    NotValid,
}

/// <summary>What a reason does to the verdict.</summary>
public enum ReasonKind
{
    /// <summary>It makes the test invalid.</summary>
    Invalidates,

    /// <summary>It decides between passed and not passed.</summary>
    Decides,

    /// <summary>It is worth knowing and changes nothing.</summary>
    Notes,
}

/// <summary>One reason of a verdict: a plain sentence with its source.</summary>
/// <param name="Kind">What it does to the verdict.</param>
/// <param name="Sentence">The sentence.</param>
/// <param name="Source">Where the rule comes from.</param>
public sealed record TestReason(ReasonKind Kind, string Sentence, Citation Source);

/// <summary>The result at one place: a single device, or the average of a collocated group with every value kept.</summary>
/// <param name="Room">The room.</param>
/// <param name="Devices">The devices at this place, one or more.</param>
/// <param name="Result">The single result or the average; pCi/L inside.</param>
/// <param name="Pair">The comparison of the highest and the lowest device; null for a single device.</param>
public sealed record LocationResult(
    string Room, IReadOnlyList<TestDevice> Devices, RadonConcentration Result, DuplicateFinding? Pair)
{
    /// <summary>True when the result is an average of collocated devices.</summary>
    public bool IsAverage => Devices.Count > 1;

    /// <summary>The result with every value behind it: "4.0 pCi/L (average of 3.8 and 4.1)".</summary>
    /// <returns>The text.</returns>
    public string Display() => IsAverage
        ? $"{Result} (average of {string.Join(" and ", Devices.Select(device => device.Result.ToString()[..^6]))})"
        : Result.Display();
}

/// <summary>The verdict of a post-mitigation test, with everything it was drawn from.</summary>
public sealed record TestVerdict
{
    /// <summary>The verdict.</summary>
    public required TestOutcome Outcome { get; init; }

    /// <summary>Every reason, those that invalidate first.</summary>
    public required IReadOnlyList<TestReason> Reasons { get; init; }

    /// <summary>The result of every place, highest first. Separate places are never averaged.</summary>
    public required IReadOnlyList<LocationResult> Locations { get; init; }

    /// <summary>The value that decides: the highest place; pCi/L inside.</summary>
    public required RadonConcentration Deciding { get; init; }

    /// <summary>The first instant at which a passive test was allowed to start.</summary>
    public required DateTimeOffset EarliestStart { get; init; }

    /// <summary>The last day on which the test should have started.</summary>
    public required DateOnly LastStartDay { get; init; }

    /// <summary>True when the test started after that day.</summary>
    public required bool StartedLate { get; init; }

    /// <summary>True when the test can be relied on.</summary>
    public bool IsValid => Outcome != TestOutcome.NotValid;

    /// <summary>True when the test is valid and below the action level.</summary>
    public bool Passed => Outcome is TestOutcome.PassedBelowTarget or TestOutcome.PassedFurtherReductionOffered;

    /// <summary>The inputs the verdict was drawn from.</summary>
    public required PostMitigationTest Test { get; init; }

    /// <summary>The settings the verdict was drawn with.</summary>
    public required PostMitigationRules Rules { get; init; }
}
