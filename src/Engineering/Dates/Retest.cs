using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Dates;

/// <summary>When a house is tested again. A sale of the building asks for a test whatever the date.</summary>
public static class Retest
{
    /// <summary>Years between tests of a house with a system (years).</summary>
    public const int YearsWithSystem = 2;

    /// <summary>Years between tests of a house without one (years).</summary>
    public const int YearsWithoutSystem = 5;

    /// <summary>Source of the intervals.</summary>
    public static readonly Citation Source = new("ANSI/AARST MAH 2019, 8.5.9.2", Certainty.Published);

    /// <summary>
    /// The day to test again: two years after the last valid test with a system, five without.
    /// From 29 February it falls on 28 February where the later year has no 29th: 2024-02-29 gives 2026-02-28.
    /// </summary>
    /// <param name="lastValidTest">The day the last valid test ended.</param>
    /// <param name="hasSystem">Whether the house has a mitigation system.</param>
    /// <returns>The day.</returns>
    /// <remarks>Range: any day up to year 9994. Source: ANSI/AARST MAH 2019, 8.5.9.2; the 29 February rule is a house rule.</remarks>
    public static DateOnly DueOn(DateOnly lastValidTest, bool hasSystem = true) =>
        lastValidTest.AddYears(hasSystem ? YearsWithSystem : YearsWithoutSystem);
}
