namespace MitigationOffice.Engineering.Slab;

/// <summary>
/// Solves the leaky sheet T∇²p = c·p on a grid for one reach λ = √(T/c) and one hindrance of footings. Everything is
/// relative to T, so flows come out as flow over T, in Pa.
/// </summary>
internal sealed class SheetSolver
{
    private readonly SlabGrid grid;
    private readonly BandedCholesky equations;
    private readonly SuctionPlace[] points;
    private readonly CellSpread[] spreads;
    private readonly double[][] responses;
    private readonly double[,] influence;
    private readonly double[] demand;

    public SheetSolver(SlabGrid grid, IReadOnlyList<SuctionPlace> points)
    {
        this.grid = grid;
        this.points = [.. points];
        equations = new BandedCholesky(grid.Count, grid.Band);
        spreads = [.. points.Select(point => grid.Spread(point.At))];
        responses = [.. points.Select(_ => new double[grid.Count])];
        influence = new double[points.Count, points.Count];
        demand = new double[points.Count];
        FlowsPa = new double[points.Count];
        VacuumPa = new double[grid.Count];
    }

    /// <summary>Vacuum of every cell after the last solution, Pa.</summary>
    public double[] VacuumPa { get; }

    /// <summary>Flow of every suction point over T after the last solution, Pa.</summary>
    public double[] FlowsPa { get; }

    public double ReachM { get; private set; }

    public void Solve(double reachM, double footingM)
    {
        Prepare(reachM, footingM);
        for (var point = 0; point < points.Length; point++) Respond(point);
        for (var row = 0; row < points.Length; row++)
            for (var column = 0; column < points.Length; column++)
                influence[row, column] = spreads[row].Read(responses[column]) + (row == column ? PitStep(row) : 0);
        for (var point = 0; point < points.Length; point++) demand[point] = points[point].PitVacuumPa;
        SmallSolve.InPlace(influence, demand);
        demand.CopyTo(FlowsPa, 0);
        Superpose();
    }

    /// <summary>Solves the prepared equations for one more unit source in a cell.</summary>
    public void Respond(int cell, Span<double> response)
    {
        response.Clear();
        response[cell] = 1;
        equations.Solve(response, cell);
    }

    public ReadOnlySpan<double> ResponseOf(int point) => responses[point];

    public CellSpread SpreadOf(int point) => spreads[point];

    public double PitStep(CellSpread spread, double pitRadiusM) =>
        Math.Log(spread.EquivalentRadius() * grid.Size / pitRadiusM) / (2 * Math.PI);

    private double PitStep(int point) => PitStep(spreads[point], points[point].PitRadiusM);

    private void Respond(int point)
    {
        var response = responses[point].AsSpan();
        response.Clear();
        spreads[point].Put(response);
        equations.Solve(response);
    }

    private void Prepare(double reachM, double footingM)
    {
        ReachM = reachM;
        equations.Clear();
        for (var cell = 0; cell < grid.Count; cell++) equations.Add(cell, cell, grid.AreaM2[cell] / (reachM * reachM));
        foreach (var face in grid.Faces)
        {
            var through = face.Open * grid.Size / (grid.Size + face.Footings * footingM);
            equations.Add(face.A, face.A, through);
            equations.Add(face.B, face.B, through);
            equations.Add(Math.Max(face.A, face.B), Math.Min(face.A, face.B), -through);
        }
        equations.Factor();
    }

    private void Superpose()
    {
        Array.Clear(VacuumPa);
        for (var point = 0; point < points.Length; point++)
        {
            var (flow, response) = (FlowsPa[point], responses[point]);
            for (var cell = 0; cell < VacuumPa.Length; cell++) VacuumPa[cell] += flow * response[cell];
        }
    }
}

/// <summary>Gauss elimination with row exchange for the few equations of the suction points.</summary>
internal static class SmallSolve
{
    public static void InPlace(double[,] matrix, double[] values)
    {
        var count = values.Length;
        for (var pivot = 0; pivot < count; pivot++)
        {
            Exchange(matrix, values, pivot);
            for (var row = pivot + 1; row < count; row++)
            {
                var factor = matrix[row, pivot] / matrix[pivot, pivot];
                for (var column = pivot; column < count; column++) matrix[row, column] -= factor * matrix[pivot, column];
                values[row] -= factor * values[pivot];
            }
        }
        for (var row = count - 1; row >= 0; row--)
        {
            for (var column = row + 1; column < count; column++) values[row] -= matrix[row, column] * values[column];
            values[row] /= matrix[row, row];
        }
    }

    private static void Exchange(double[,] matrix, double[] values, int pivot)
    {
        var largest = pivot;
        for (var row = pivot + 1; row < values.Length; row++)
            if (Math.Abs(matrix[row, pivot]) > Math.Abs(matrix[largest, pivot])) largest = row;
        if (largest == pivot) return;
        for (var column = 0; column < values.Length; column++)
            (matrix[pivot, column], matrix[largest, column]) = (matrix[largest, column], matrix[pivot, column]);
        (values[pivot], values[largest]) = (values[largest], values[pivot]);
    }
}
