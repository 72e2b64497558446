namespace MitigationOffice.Engineering.Slab;

/// <summary>One cell of the map.</summary>
public readonly record struct MapCell
{
    /// <summary>Makes a cell.</summary>
    /// <param name="centre">Middle of the cell's square.</param>
    /// <param name="areaM2">Floor area of the cell, m².</param>
    /// <param name="vacuumPa">Vacuum under it, Pa.</param>
    /// <remarks>Range: whatever the map computed. Source: the map.</remarks>
    public MapCell(PlanPoint centre, double areaM2, double vacuumPa) => (Centre, AreaM2, VacuumPa) = (centre, areaM2, vacuumPa);

    /// <summary>Middle of the cell's square.</summary>
    public PlanPoint Centre { get; }

    /// <summary>Floor area of the cell, m²; less than a full square at a wall.</summary>
    public double AreaM2 { get; }

    /// <summary>Vacuum under it, Pa.</summary>
    public double VacuumPa { get; }
}

/// <summary>A suction point's part in a map.</summary>
public sealed record MapSuction
{
    /// <summary>The suction point.</summary>
    public required SuctionPlace Place { get; init; }

    /// <summary>Flow over the sheet's conductance T, Pa; with T known, flow is this times T.</summary>
    public required double FlowOverConductancePa { get; init; }

    /// <summary>Flow, m³/s; null when no flow was measured, so that T is not known.</summary>
    public required double? FlowM3PerS { get; init; }
}

/// <summary>Vacuum under the whole floor.</summary>
public sealed record CoverageMap
{
    /// <summary>Every cell.</summary>
    public required IReadOnlyList<MapCell> Cells { get; init; }

    /// <summary>Size of a cell, m.</summary>
    public required double GridM { get; init; }

    /// <summary>The suction points with their flows.</summary>
    public required IReadOnlyList<MapSuction> Suction { get; init; }

    /// <summary>Target the map was held against, Pa.</summary>
    public required double TargetPa { get; init; }

    /// <summary>Share of the floor area with at least the target, dimensionless.</summary>
    public required double ShareBeyondTarget { get; init; }

    /// <summary>The cell with the least vacuum.</summary>
    public required MapCell WeakestSpot { get; init; }

    /// <summary>
    /// How far flow at the suction points and leakage through the slab differ, as a share of the flow, dimensionless; a
    /// proof of the solution, below 1e-6.
    /// </summary>
    public required double BalanceError { get; init; }

    /// <summary>The map in one plain sentence.</summary>
    public string Sentence => Words.Say(
        $"{ShareBeyondTarget * 100:0} % of the floor has at least {TargetPa:0.##} Pa; the weakest spot, at {WeakestSpot.Centre.XM:0.0} m across and {WeakestSpot.Centre.YM:0.0} m up, has {WeakestSpot.VacuumPa:0.##} Pa.");
}

/// <summary>Makes maps from solved fields.</summary>
internal static class MapMaker
{
    public static CoverageMap Make(SlabGrid grid, SheetSolver solver, IReadOnlyList<SuctionPlace> points, double targetPa, double? conductance)
    {
        var most = points.Max(point => point.PitVacuumPa);
        var cells = new MapCell[grid.Count];
        for (var cell = 0; cell < cells.Length; cell++)
            cells[cell] = new MapCell(grid.Centres[cell], grid.AreaM2[cell], Math.Min(most, solver.VacuumPa[cell]));
        return new CoverageMap
        {
            Cells = cells,
            GridM = grid.Size,
            Suction = [.. points.Select((point, at) => new MapSuction { Place = point, FlowOverConductancePa = solver.FlowsPa[at], FlowM3PerS = solver.FlowsPa[at] * conductance })],
            TargetPa = targetPa,
            ShareBeyondTarget = cells.Where(cell => cell.VacuumPa >= targetPa).Sum(cell => cell.AreaM2) / cells.Sum(cell => cell.AreaM2),
            WeakestSpot = cells.MinBy(cell => cell.VacuumPa),
            BalanceError = BalanceError(grid, solver),
        };
    }

    private static double BalanceError(SlabGrid grid, SheetSolver solver)
    {
        var leak = 0.0;
        for (var cell = 0; cell < grid.Count; cell++) leak += grid.AreaM2[cell] * solver.VacuumPa[cell];
        leak /= solver.ReachM * solver.ReachM;
        var flow = solver.FlowsPa.Sum();
        return Math.Abs(flow - leak) / Math.Abs(flow);
    }
}
