using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Siting;

/// <summary>What a rule says about a site.</summary>
public enum SitingOutcome
{
    /// <summary>The rule is met.</summary>
    Passed,

    /// <summary>The rule is not met.</summary>
    Failed,

    /// <summary>What the rule needs was not measured.</summary>
    NotEnoughData,

    /// <summary>The rule is about another way of building.</summary>
    DoesNotApply,
}

/// <summary>One rule held against a site.</summary>
/// <param name="RuleId">The rule's name within its set.</param>
/// <param name="Rule">The rule in one plain sentence.</param>
/// <param name="Outcome">What it says.</param>
/// <param name="Why">What was found, in one sentence.</param>
/// <param name="IsAdvisory">True when the rule advises and does not bind.</param>
/// <param name="Source">Where the rule comes from.</param>
public sealed record SitingFinding(
    string RuleId, string Rule, SitingOutcome Outcome, string Why, bool IsAdvisory, Citation Source);

/// <summary>A whole rule set held against a site.</summary>
/// <param name="RuleSet">The rule set.</param>
/// <param name="Site">The site.</param>
/// <param name="Findings">One finding for each rule, in the order of the set.</param>
public sealed record SitingReport(SitingRuleSet RuleSet, DischargeSite Site, IReadOnlyList<SitingFinding> Findings)
{
    /// <summary>
    /// Failed when a binding rule failed; else not enough data when a binding rule lacks some; else passed.
    /// </summary>
    public SitingOutcome Outcome
    {
        get
        {
            var binding = Findings.Where(finding => !finding.IsAdvisory).Select(finding => finding.Outcome).ToList();
            if (binding.Contains(SitingOutcome.Failed))
                return SitingOutcome.Failed;
            return binding.Contains(SitingOutcome.NotEnoughData) ? SitingOutcome.NotEnoughData : SitingOutcome.Passed;
        }
    }
}
