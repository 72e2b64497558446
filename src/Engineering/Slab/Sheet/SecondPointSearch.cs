namespace MitigationOffice.Engineering.Slab;

/// <summary>Tries cells as places for one more suction point.</summary>
internal sealed class SecondPointSearch
{
    private const int MostPlacesAtFirst = 2000;
    private readonly SlabGrid grid;
    private readonly SuctionPlace[] points;
    private readonly SheetSolver solver;
    private readonly double pitVacuumPa;
    private readonly double pitRadiusM;
    private readonly double targetPa;
    private readonly Func<PlanPoint, bool> isAllowed;
    private readonly bool[] tried;
    private readonly double[] response;
    private readonly double[,] influence;
    private readonly double[] demand;
    private double bestArea = -1;
    private double bestWeakest = -1;

    public SecondPointSearch(SlabGrid grid, CoverageInput input, double reachM, double footingM, double pitVacuumPa, double pitRadiusM, Func<PlanPoint, bool> isAllowed)
    {
        (this.grid, points, this.pitVacuumPa, this.pitRadiusM) = (grid, [.. input.SuctionPoints], pitVacuumPa, pitRadiusM);
        (targetPa, this.isAllowed) = (input.TargetPa, isAllowed);
        solver = new SheetSolver(grid, points);
        solver.Solve(reachM, footingM);
        tried = new bool[grid.Count];
        response = new double[grid.Count];
        influence = new double[points.Length + 1, points.Length + 1];
        demand = new double[points.Length + 1];
        TryAll();
    }

    public int? Best { get; private set; }
    public int Tried { get; private set; }

    private void TryAll()
    {
        var stride = (int)Math.Ceiling(Math.Sqrt((double)grid.Count / MostPlacesAtFirst));
        for (var cell = 0; cell < grid.Count; cell++)
        {
            var centre = grid.Centres[cell];
            if (stride == 1 || OnStride(centre, stride)) Try(cell);
        }
        for (var from = Best; stride > 1 && from is { } cell;)
        {
            TryAround(cell, stride);
            if (Best == from) break;
            from = Best;
        }
    }

    private bool OnStride(PlanPoint centre, int stride) =>
        (int)Math.Floor((centre.XM - grid.Centres[0].XM) / grid.Size + 0.5) % stride == 0
        && (int)Math.Floor((centre.YM - grid.Centres[0].YM) / grid.Size + 0.5) % stride == 0;

    private void TryAround(int cell, int stride)
    {
        var centre = grid.Centres[cell];
        for (var dx = -stride; dx <= stride; dx++)
            for (var dy = -stride; dy <= stride; dy++)
            {
                var near = grid.CellOf(new PlanPoint(centre.XM + dx * grid.Size, centre.YM + dy * grid.Size));
                if (near >= 0) Try(near);
            }
    }

    private void Try(int cell)
    {
        if (tried[cell]) return;
        tried[cell] = true;
        var centre = grid.Centres[cell];
        if (!grid.Holds(centre) || !isAllowed(centre) || TooNear(centre)) return;
        Tried++;
        solver.Respond(cell, response);
        FindFlows(cell);
        Weigh(cell);
    }

    private bool TooNear(PlanPoint centre)
    {
        foreach (var point in points)
            if (point.At.DistanceM(centre) < 2 * grid.Size + pitRadiusM) return true;
        return false;
    }

    private void FindFlows(int cell)
    {
        var last = points.Length;
        var own = CellSpread.Single(cell);
        for (var row = 0; row < last; row++)
        {
            for (var column = 0; column < last; column++) influence[row, column] = solver.SpreadOf(row).Read(solver.ResponseOf(column));
            influence[row, row] += solver.PitStep(solver.SpreadOf(row), points[row].PitRadiusM);
            influence[row, last] = solver.SpreadOf(row).Read(response);
            influence[last, row] = solver.ResponseOf(row)[cell];
            demand[row] = points[row].PitVacuumPa;
        }
        influence[last, last] = response[cell] + solver.PitStep(own, pitRadiusM);
        demand[last] = pitVacuumPa;
        SmallSolve.InPlace(influence, demand);
    }

    private void Weigh(int cell)
    {
        var (area, weakest) = (0.0, double.PositiveInfinity);
        for (var at = 0; at < response.Length; at++)
        {
            var vacuum = demand[^1] * response[at];
            for (var point = 0; point < points.Length; point++) vacuum += demand[point] * solver.ResponseOf(point)[at];
            if (vacuum >= targetPa) area += grid.AreaM2[at];
            weakest = Math.Min(weakest, vacuum);
        }
        if (area < bestArea - 1e-9 || (area < bestArea + 1e-9 && weakest <= bestWeakest)) return;
        (bestArea, bestWeakest, Best) = (area, weakest, cell);
    }
}
