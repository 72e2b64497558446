namespace MitigationOffice.Engineering.Slab;

/// <summary>
/// Fits the reach λ, and the hindrance of footings where the readings tell of it, by least squares on the logarithm of the
/// vacuum (Levenberg and Marquardt's method on ln λ and ln footing, from a coarse search).
/// </summary>
internal sealed class ReachFit
{
    public const double LongestReachM = 100;
    private const double LeastFootingM = 0.02;
    private const double MostFootingM = 200;
    private readonly SheetSolver solver;
    private readonly CellSpread[] holes;
    private readonly double[] measured;
    private readonly double resolution;
    private readonly double shortestReachM;
    private readonly double[] residuals;
    private readonly double[,] slopes;

    public ReachFit(SheetSolver solver, SlabGrid grid, IReadOnlyList<HoleReading> readings, CoverageInput input)
    {
        this.solver = solver;
        holes = [.. readings.Select(reading => grid.Spread(reading.At))];
        measured = [.. readings.Select(reading => Math.Max(reading.VacuumPa, input.ResolutionPa))];
        resolution = input.ResolutionPa;
        shortestReachM = 2 * grid.Size;
        residuals = new double[holes.Length];
        slopes = new double[holes.Length, 2];
        (ReachM, FootingM) = (input.AssumedReachM, input.AssumedFootingM);
        if (holes.Length == 0) return;
        Search();
        FootingFitted = grid.HasFootings && holes.Length >= 2 && FootingMatters();
        Improve(FootingFitted ? 2 : 1);
    }

    public double ReachM { get; private set; }
    public double FootingM { get; private set; }
    public bool FootingFitted { get; }

    /// <summary>Root mean square miss of the logarithm; its exponential is the typical factor of a miss.</summary>
    public double LogMiss { get; private set; }

    /// <summary>Standard error of ln λ; infinite with no more readings than unknowns.</summary>
    public double LogReachError { get; private set; } = double.PositiveInfinity;

    public bool AtItsEnd => ReachM <= shortestReachM * 1.02 || ReachM >= LongestReachM * 0.98;

    private void Search()
    {
        const int tries = 14;
        var (best, least) = (ReachM, double.PositiveInfinity);
        for (var at = 0; at < tries; at++)
        {
            var reach = shortestReachM * Math.Pow(LongestReachM / shortestReachM, (double)at / (tries - 1));
            var miss = SumOfSquares(reach, FootingM);
            if (miss < least) (best, least) = (reach, miss);
        }
        ReachM = best;
    }

    // A footing tells on the readings when making it nothing or making it a wall moves some reading by more than 2 %.
    private bool FootingMatters()
    {
        SumOfSquares(ReachM, LeastFootingM);
        double[] open = [.. residuals];
        SumOfSquares(ReachM, MostFootingM);
        return open.Zip(residuals, (a, b) => Math.Abs(a - b)).Max() > 0.02;
    }

    private void Improve(int unknowns)
    {
        var damping = 1e-2;
        var least = SumOfSquares(ReachM, FootingM);
        for (var turn = 0; turn < 25; turn++)
        {
            Slopes(unknowns);
            var (stepReach, stepFooting) = Step(unknowns, damping);
            var (reach, footing) = (Limit(ReachM, stepReach, shortestReachM, LongestReachM), Limit(FootingM, stepFooting, LeastFootingM, MostFootingM));
            var miss = SumOfSquares(reach, footing);
            if (miss > least)
            {
                damping *= 8;
                if (damping > 1e6) break;
                SumOfSquares(ReachM, FootingM);
                continue;
            }
            var moved = Math.Abs(Math.Log(reach / ReachM)) + Math.Abs(Math.Log(footing / FootingM));
            (ReachM, FootingM, least, damping) = (reach, footing, miss, damping / 8);
            if (moved < 1e-5) break;
        }
        SumOfSquares(ReachM, FootingM);
        Slopes(unknowns);
        Judge(SumOfSquares(ReachM, FootingM), unknowns);
    }

    private void Judge(double sum, int unknowns)
    {
        LogMiss = Math.Sqrt(sum / holes.Length);
        if (holes.Length <= unknowns) return;
        var (a, b, c) = Normal(unknowns);
        var information = unknowns == 1 ? a : a - b * b / c;
        LogReachError = information > 1e-12 ? Math.Sqrt(sum / (holes.Length - unknowns) / information) : double.PositiveInfinity;
    }

    private static double Limit(double value, double logStep, double low, double high) =>
        Math.Clamp(value * Math.Exp(Math.Clamp(logStep, -1, 1)), low, high);

    private double SumOfSquares(double reachM, double footingM)
    {
        solver.Solve(reachM, footingM);
        var sum = 0.0;
        for (var hole = 0; hole < holes.Length; hole++)
        {
            residuals[hole] = Residual(hole);
            sum += residuals[hole] * residuals[hole];
        }
        return sum;
    }

    // A reading that the instrument could not resolve only says "at most": a lower computed vacuum is no miss.
    private double Residual(int hole)
    {
        var computed = holes[hole].ReadLog(solver.VacuumPa);
        var miss = Math.Log(computed / measured[hole]);
        return measured[hole] <= resolution ? Math.Max(0, miss) : miss;
    }

    private void Slopes(int unknowns)
    {
        const double nudge = 1e-3;
        for (var hole = 0; hole < holes.Length; hole++) slopes[hole, 0] = slopes[hole, 1] = -residuals[hole];
        for (var unknown = 0; unknown < unknowns; unknown++)
        {
            var base0 = unknown == 0 ? Math.Exp(nudge) : 1;
            var base1 = unknown == 1 ? Math.Exp(nudge) : 1;
            solver.Solve(ReachM * base0, FootingM * base1);
            for (var hole = 0; hole < holes.Length; hole++)
                slopes[hole, unknown] = (slopes[hole, unknown] + Residual(hole)) / nudge;
        }
    }

    private (double A, double B, double C) Normal(int unknowns)
    {
        var (a, b, c) = (0.0, 0.0, 0.0);
        for (var hole = 0; hole < holes.Length; hole++)
        {
            a += slopes[hole, 0] * slopes[hole, 0];
            if (unknowns == 1) continue;
            b += slopes[hole, 0] * slopes[hole, 1];
            c += slopes[hole, 1] * slopes[hole, 1];
        }
        return (a, b, unknowns == 1 ? 1 : c);
    }

    private (double Reach, double Footing) Step(int unknowns, double damping)
    {
        var (a, b, c) = Normal(unknowns);
        var (g0, g1) = (0.0, 0.0);
        for (var hole = 0; hole < holes.Length; hole++)
        {
            g0 -= slopes[hole, 0] * residuals[hole];
            if (unknowns == 2) g1 -= slopes[hole, 1] * residuals[hole];
        }
        (a, c) = (a * (1 + damping) + 1e-12, c * (1 + damping) + 1e-12);
        var determinant = a * c - b * b;
        return ((g0 * c - g1 * b) / determinant, unknowns == 2 ? (g1 * a - g0 * b) / determinant : 0);
    }
}
