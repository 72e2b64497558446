using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Siting;

/// <summary>The siting rules of one jurisdiction. A jurisdiction is added by adding a file.</summary>
public sealed record SitingRuleSet
{
    /// <summary>Its name in stored records, for example "us-pa".</summary>
    public required string Id { get; init; }

    /// <summary>The jurisdiction in words.</summary>
    public required string Jurisdiction { get; init; }

    /// <summary>Where the rules come from.</summary>
    public required string Citation { get; init; }

    /// <summary>How surely they are known.</summary>
    public required Certainty Certainty { get; init; }

    /// <summary>What a reader should know besides, for example how a distance is measured.</summary>
    public string Note { get; init; } = "";

    /// <summary>The rules, at least one.</summary>
    public required IReadOnlyList<SitingRule> Rules { get; init; }

    /// <summary>The source of one rule of this set.</summary>
    /// <param name="rule">The rule.</param>
    /// <returns>Its own citation and certainty, or the set's.</returns>
    public Citation SourceOf(SitingRule rule) => new(rule.Citation ?? Citation, rule.Certainty ?? Certainty);
}
