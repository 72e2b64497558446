using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Radon;

/// <summary>What two results for one place say together.</summary>
public enum TwoResultDecision
{
    /// <summary>The average is below the action level.</summary>
    AverageBelowAction,

    /// <summary>The average is at or above the action level.</summary>
    AverageAtOrAboveAction,

    /// <summary>They stand on either side of the action level and the higher is twice the lower or more: test again first.</summary>
    TestAgainFirst,
}

/// <summary>The decision on two results for one place.</summary>
/// <param name="Average">Their average; pCi/L inside.</param>
/// <param name="Decision">The decision.</param>
/// <param name="Agreement">How well they agree.</param>
/// <param name="Sentence">The decision in one plain sentence.</param>
/// <param name="Source">Where the rule comes from.</param>
public sealed record TwoResultFinding(
    RadonConcentration Average, TwoResultDecision Decision, DuplicateFinding Agreement, string Sentence, Citation Source);

/// <summary>The rule for deciding on two results for one place, side by side or one after the other.</summary>
public static class TwoResults
{
    /// <summary>
    /// Decides. 3.9 and 4.1 pCi/L: the average, 4.0, decides. 2.1 and 4.2: either side of 4.0 and the higher is twice
    /// the lower, so test again first (not needed when the cause is proven or the owner mitigates anyway).
    /// </summary>
    /// <param name="first">One result.</param>
    /// <param name="second">The other result.</param>
    /// <returns>The decision.</returns>
    /// <remarks>Range: any two concentrations; the sides are told by the reported values. Source: ANSI/AARST MAH 2019, 7.2.1; the factor of two EPA 402-R-92-003, 3.2.2, from memory.</remarks>
    public static TwoResultFinding Decide(RadonConcentration first, RadonConcentration second)
    {
        var agreement = RadonStatistics.JudgeDuplicates(first, second);
        var average = agreement.Mean;
        var eitherSide = IsAtOrAboveAction(first) != IsAtOrAboveAction(second);
        if (eitherSide && DifferByFactorOfTwo(first, second))
            return new(average, TwoResultDecision.TestAgainFirst, agreement,
                $"{first} and {second} stand on either side of 4.0 pCi/L and the higher is twice the lower or more: test again before deciding.",
                RadonSources.TwoEitherSide);

        var decision = IsAtOrAboveAction(average)
            ? TwoResultDecision.AverageAtOrAboveAction
            : TwoResultDecision.AverageBelowAction;
        return new(average, decision, agreement, $"The average of {first} and {second} is {average} and decides.",
            eitherSide ? RadonSources.TwoEitherSide : RadonSources.TwoSameSide);
    }

    private static bool IsAtOrAboveAction(RadonConcentration result) =>
        RadonLevels.EpaLevelOf(result) == EpaLevel.Fix;

    private static bool DifferByFactorOfTwo(RadonConcentration first, RadonConcentration second)
    {
        var (lower, higher) = first < second ? (first, second) : (second, first);
        return higher.PciPerL >= 2m * lower.PciPerL;
    }
}
