namespace MitigationOffice.Engineering.Freezing;

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
