namespace MitigationOffice.Engineering.Freezing;

/// <summary>One day of a season in the outdoor run, as it stands at the day's end.</summary>
public sealed record IceDay
{
    /// <summary>The day.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>Lowest outdoor temperature, °C.</summary>
    public required double MinC { get; init; }

    /// <summary>Highest outdoor temperature, °C.</summary>
    public required double MaxC { get; init; }

    /// <summary>Thickest ice anywhere in the run, m.</summary>
    public required double ThickestIceM { get; init; }

    /// <summary>Ice at the mouth, m.</summary>
    public required double MouthIceM { get; init; }

    /// <summary>Narrowest open share of the pipe's area during the day, dimensionless.</summary>
    public required double NarrowestOpenShare { get; init; }

    /// <summary>Water that ran back or out during the day, melt water included, kg.</summary>
    public required double DrainedKg { get; init; }

    /// <summary>Frost laid down during the day, kg.</summary>
    public required double FrostKg { get; init; }

    /// <summary>What the U-tube on the suction side shows at the day's end, Pa; null when no fan curve was given.</summary>
    public required double? GaugePa { get; init; }
}
