namespace MitigationOffice.Engineering.Freezing;

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
