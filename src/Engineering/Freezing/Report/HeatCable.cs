namespace MitigationOffice.Engineering.Freezing;

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
