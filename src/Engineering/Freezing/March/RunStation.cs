namespace MitigationOffice.Engineering.Freezing;

/// <summary>One place along the outdoor run in steady weather.</summary>
public sealed record RunStation
{
    /// <summary>Distance of the cell's middle from the foot of the run, m.</summary>
    public required double DistanceM { get; init; }

    /// <summary>Air temperature behind the cell, °C.</summary>
    public required double AirC { get; init; }

    /// <summary>Temperature of the inner wall, °C.</summary>
    public required double WallC { get; init; }

    /// <summary>Water condensed in this cell that runs off, kg a day.</summary>
    public required double CondensateKgPerDay { get; init; }

    /// <summary>Frost laid down in this cell, kg a day.</summary>
    public required double FrostKgPerDay { get; init; }
}
