namespace MitigationOffice.Engineering.Freezing;

/// <summary>The whole freeze forecast of one outdoor run, ready to be shown with its reasons.</summary>
public sealed record FreezeReport
{
    /// <summary>One plain sentence.</summary>
    public required string Conclusion { get; init; }

    /// <summary>What was assumed, one sentence each.</summary>
    public required IReadOnlyList<string> Assumptions { get; init; }

    /// <summary>What deserves attention, one sentence each; may be empty.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>Cautions that belong beside the work this report leads to.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>Where the formulas come from, one line each.</summary>
    public required IReadOnlyList<string> Sources { get; init; }

    /// <summary>The input the report was computed from.</summary>
    public required FreezeInput Input { get; init; }

    /// <summary>The bare run in steady weather at the design temperature.</summary>
    public required RunProfile AtDesign { get; init; }

    /// <summary>The bare run in steady weather at the January mean.</summary>
    public required RunProfile AtJanuaryMean { get; init; }

    /// <summary>A cold spell at the design temperature, starting without ice.</summary>
    public required IceSeason ColdSpell { get; init; }

    /// <summary>The winter shown day by day: the made-up one, or the recorded winter with the middle count of at-risk days.</summary>
    public required IceSeason Winter { get; init; }

    /// <summary>At-risk days in a winter, with their range.</summary>
    public required RiskDays AtRisk { get; init; }

    /// <summary>Heat cable that keeps the wall above freezing, or null when none is needed.</summary>
    public required HeatCable? Cable { get; init; }

    /// <summary>Insulation that would do instead of a cable, or null when none is needed.</summary>
    public required InsulationInstead? Insulation { get; init; }

    /// <summary>Whether water running back must be led round the fan.</summary>
    public required CondensateBypass Bypass { get; init; }
}
