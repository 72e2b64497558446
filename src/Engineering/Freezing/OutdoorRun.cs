namespace MitigationOffice.Engineering.Freezing;

/// <summary>Which way a piece of the outdoor run leads the air.</summary>
public enum RunDirection
{
    /// <summary>Upright, the air going up: water runs back towards the fan.</summary>
    Up,

    /// <summary>Across, with slope back towards the fan: water runs back.</summary>
    SlopedBack,

    /// <summary>Across without slope: water stands in the pipe.</summary>
    Level,

    /// <summary>Downwards or sloped to the mouth: water runs out of the mouth.</summary>
    Down,
}

/// <summary>One straight piece of the outdoor run, in the order in which the air passes.</summary>
public sealed record RunPiece
{
    /// <summary>Length of the piece, m (0.05 to 60).</summary>
    public required double LengthM { get; init; }

    /// <summary>Which way it leads the air.</summary>
    public RunDirection Direction { get; init; } = RunDirection.Up;

    /// <summary>Thickness of the insulation round it, m (0 is bare, at most 0.15).</summary>
    public double InsulationM { get; init; }

    /// <summary>Conductivity of the insulation, W/(m·K) (0.015 to 0.2).</summary>
    public double InsulationWPerMK { get; init; } = 0.035;
}

/// <summary>The pipe outdoors and what flows through it.</summary>
public sealed record OutdoorRun
{
    /// <summary>Inner diameter of the bare pipe, m (0.03 to 0.4). 4 in Schedule 40 is 0.10226.</summary>
    public required double BoreM { get; init; }

    /// <summary>Wall thickness of the pipe, m (0.0005 to 0.03). 4 in Schedule 40 is 0.00602.</summary>
    public required double WallM { get; init; }

    /// <summary>Conductivity of the pipe's wall, W/(m·K) (0.05 to 400); rigid PVC is 0.17.</summary>
    public double WallWPerMK { get; init; } = PipeWall.PvcConductivityWPerMK;

    /// <summary>The pieces in the order in which the air passes them.</summary>
    public required IReadOnlyList<RunPiece> Pieces { get; init; }

    /// <summary>Flow at the pipe's entry temperature with the mouth open, m³/s (0.0005 to 0.5). 22 cfm is 0.01038.</summary>
    public required double FlowM3PerS { get; init; }

    /// <summary>Power of the fan that ends up in the air before the outdoor run, W (0 to 500); 0 when the fan stands after it.</summary>
    public double FanBeforeRunW { get; init; }

    /// <summary>Whether the fan stands before the outdoor run, so that water running back reaches it.</summary>
    public bool FanStandsBeforeRun { get; init; } = true;

    /// <summary>Elevation of the site, m above sea level (−100 to 4000).</summary>
    public double ElevationM { get; init; }

    /// <summary>Length of all pieces together, m.</summary>
    public double LengthM => Pieces.Sum(piece => piece.LengthM);
}
