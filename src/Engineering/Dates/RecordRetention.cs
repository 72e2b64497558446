using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Dates;

/// <summary>How long a jurisdiction wants records kept.</summary>
/// <param name="Jurisdiction">The jurisdiction.</param>
/// <param name="Years">Years after the job was closed (years).</param>
/// <param name="OrLongerWarranty">True when a longer warranty keeps the records as long.</param>
/// <param name="Source">Where the rule comes from.</param>
public sealed record RetentionRule(string Jurisdiction, int Years, bool OrLongerWarranty, Citation Source);

/// <summary>How long records are kept.</summary>
public static class RecordRetention
{
    /// <summary>The published rules known here; others are added by the office. EPA's years are from memory.</summary>
    public static readonly IReadOnlyList<RetentionRule> Known =
    [
        new("Illinois", 5, true, new("32 Ill. Adm. Code 422.70(f)", Certainty.Published)),
        new("Kentucky", 5, true, new("KRS 309.452", Certainty.Published)),
        new("Iowa", 5, false, new("Iowa Admin. Code 641-44.6", Certainty.Published)),
        new("New Jersey", 5, false, new("N.J.A.C. 7:28-27.16", Certainty.Published)),
        new("EPA 1994", 3, true, new("EPA 402-R-93-078, section 18", Certainty.FromMemory)),
    ];

    /// <summary>
    /// The last day to keep the records of a job: the state's years, or the warranty where the rule says so and it is longer.
    /// Closed 2025-05-01 with a warranty of ten years: 2035-05-01 in Illinois, 2030-05-01 in Iowa.
    /// </summary>
    /// <param name="closedOn">The day the job was closed.</param>
    /// <param name="rule">The rule.</param>
    /// <param name="warrantyYears">Length of the warranty, 0 to 100 years.</param>
    /// <returns>The last day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A warranty outside 0 to 100 years.</exception>
    /// <remarks>Range: warranty 0 to 100 years. Source: the rule's own; 32 Ill. Adm. Code 422.70(f), KRS 309.452, Iowa 641-44.6.</remarks>
    public static DateOnly KeepUntil(DateOnly closedOn, RetentionRule rule, int warrantyYears)
    {
        Require.InRange(warrantyYears, 0, 100, "years", "The warranty");
        return closedOn.AddYears(rule.OrLongerWarranty ? Math.Max(rule.Years, warrantyYears) : rule.Years);
    }
}
