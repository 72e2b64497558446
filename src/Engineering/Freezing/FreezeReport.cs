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

/// <summary>At-risk days a winter: how many, and between what.</summary>
public sealed record RiskDays
{
    /// <summary>At-risk days a winter with the assumptions as stated, a mean over the winters used, days.</summary>
    public required double Days { get; init; }

    /// <summary>Lower end of the range: one trial in ten falls below, days.</summary>
    public required double Low { get; init; }

    /// <summary>Upper end of the range: one trial in ten falls above, days.</summary>
    public required double High { get; init; }

    /// <summary>Winters used, a plain count; 1 and made up when no record was given.</summary>
    public required int Winters { get; init; }

    /// <summary>Whether the winter was made up from three numbers rather than recorded.</summary>
    public required bool MadeUp { get; init; }
}

/// <summary>A heat cable for the run.</summary>
public sealed record HeatCable
{
    /// <summary>Share of the pipe's area that a cable must hold open to count, dimensionless (house rule, not from a standard).</summary>
    public const double HeldOpenShare = 0.75;

    /// <summary>Heat along the run that keeps the bare wall at 0 °C or above at the design temperature, W per foot.</summary>
    public required double WallWarmWPerFt { get; init; }

    /// <summary>
    /// Heat along the run with which frost may form but at least 75 % of the area stays open through the cold spell and
    /// the winters computed, W per foot.
    /// </summary>
    public required double HoldsOpenWPerFt { get; init; }

    /// <summary>The smallest size on offer that holds the pipe open, W per foot; null when none does.</summary>
    public required double? ChosenWPerFt { get; init; }

    /// <summary>Whether the chosen size even keeps the wall free of frost at the design temperature.</summary>
    public bool KeepsWallWarm => ChosenWPerFt >= WallWarmWPerFt;

    /// <summary>Length of cable, the whole outdoor run, m.</summary>
    public required double LengthM { get; init; }

    /// <summary>Power of the chosen cable, W; of the needed heat when no size on offer is enough.</summary>
    public required double PowerW { get; init; }

    /// <summary>Hours a winter that the thermostat switches it on, h.</summary>
    public required double HoursOn { get; init; }

    /// <summary>Energy a winter, kWh.</summary>
    public required double KWhPerWinter { get; init; }

    /// <summary>Cost a winter, dollars.</summary>
    public required double DollarsPerWinter { get; init; }
}

/// <summary>Insulation round the whole run that keeps the wall at 0 °C at the design temperature without a cable.</summary>
public sealed record InsulationInstead
{
    /// <summary>Whether any insulation up to 150 mm is enough.</summary>
    public required bool Enough { get; init; }

    /// <summary>Thickness needed, m; 0.15 when even that is not enough.</summary>
    public required double ThicknessM { get; init; }

    /// <summary>The flat R-value of that thickness, ft²·°F·h/Btu.</summary>
    public required double UsR { get; init; }
}

/// <summary>Water running back, and whether it must be led round the fan.</summary>
public sealed record CondensateBypass
{
    /// <summary>Whether a bypass is advised.</summary>
    public required bool Needed { get; init; }

    /// <summary>Water running back to the fan at the January mean, kg a day.</summary>
    public required double ToFanKgPerDay { get; init; }

    /// <summary>The reason in one sentence.</summary>
    public required string Reason { get; init; }
}
