namespace MitigationOffice.Engineering.Freezing;

/// <summary>A season of days in the outdoor run.</summary>
public sealed record IceSeason
{
    /// <summary>Open share under which a day counts as at risk, dimensionless (house rule, not from a standard).</summary>
    public const double AtRiskOpenShare = 0.5;

    /// <summary>Ice thickness from which a day counts as icy, m (house rule, not from a standard).</summary>
    public const double IcyM = 0.001;

    /// <summary>The days in order.</summary>
    public required IReadOnlyList<IceDay> Days { get; init; }

    /// <summary>Days on which less than half the pipe's area was open, a count, dimensionless.</summary>
    public required int AtRiskDays { get; init; }

    /// <summary>Days that ended with at least 1 mm of ice somewhere, a count, dimensionless.</summary>
    public required int IcyDays { get; init; }

    /// <summary>Days on which the pipe was shut, a count, dimensionless.</summary>
    public required int ShutDays { get; init; }

    /// <summary>Days from the start until half the area was closed, days; null if it never was.</summary>
    public required double? DaysUntilHalfClosed { get; init; }

    /// <summary>Days from the start until the pipe was shut, days; null if it never was.</summary>
    public required double? DaysUntilShut { get; init; }

    /// <summary>Ice thickness per cell at the season's end, from the run's foot to the mouth, m.</summary>
    public required IReadOnlyList<double> IceAtEndM { get; init; }

    /// <summary>Thickest ice of the season, m.</summary>
    public double ThickestIceM => Days.Max(day => day.ThickestIceM);
}
