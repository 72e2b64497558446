namespace MitigationOffice.Engineering.Freezing;

/// <summary>At-risk days a winter: how many, and between what.</summary>
public sealed record RiskDays
{
    /// <summary>At-risk days a winter with the assumptions as stated, a mean over the winters used, days.</summary>
    public required double Days { get; init; }

    /// <summary>Lower end of the range: one trial in ten falls below, days.</summary>
    public required double Low { get; init; }

    /// <summary>Upper end of the range: one trial in ten falls above, days.</summary>
    public required double High { get; init; }

    /// <summary>Winters used, a count, dimensionless; 1 and made up when no record was given.</summary>
    public required int Winters { get; init; }

    /// <summary>Whether the winter was made up from three numbers rather than recorded.</summary>
    public required bool MadeUp { get; init; }
}
