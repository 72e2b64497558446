using MitigationOffice.Engineering.Air;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Piping;

namespace MitigationOffice.Engineering.Network;

/// <summary>Newton's method on the flows of the suction points; keeps its arrays so that solving allocates nothing.</summary>
internal sealed class NetworkNewton
{
    private const int MostSteps = 100;

    private readonly TreeShape _shape;
    private readonly PieceLoss[][] _pieces;
    private readonly PieceLoss[] _discharge;
    private readonly double[] _branchLiftPa, _soilResistance, _soilPower;
    private readonly double _dischargeLiftPa, _densityRatio;
    private readonly double[] _flow, _trial, _residual, _soilSlope, _step, _branchFlow, _branchLoss, _branchSlope, _pathLoss, _matrix;
    private FanCurve? _fan;
    private double _drivingSlope, _drivingPa, _heldPa;

    internal NetworkNewton(TreeShape shape, IReadOnlyList<RoutePiece> discharge, double density, double viscosity, double liftPaPerM, double fittingFactor)
    {
        _shape = shape;
        _densityRatio = density / StandardAtmosphere.FanCurveKgPerM3;
        _pieces = [.. shape.Branches.Select(branch => PieceLoss.Merge(branch.Pieces, density, viscosity, fittingFactor))];
        _discharge = PieceLoss.Merge(discharge, density, viscosity, fittingFactor);
        if (discharge.Count > 0) _discharge = [.. _discharge, new PieceLoss(discharge[^1].Size, 0, 1, density, viscosity)];
        _branchLiftPa = [.. shape.Branches.Select(branch => liftPaPerM * branch.Pieces.Sum(piece => piece.RiseM * piece.Count))];
        _dischargeLiftPa = liftPaPerM * discharge.Sum(piece => piece.RiseM * piece.Count);
        var soils = shape.Leaves.Select(leaf => shape.Branches[leaf].Soil!).ToArray();
        _soilPower = [.. soils.Select(soil => 1 / Require.InRange(soil.Exponent, 0.5, 1, "(soil exponent)"))];
        _soilResistance = [.. soils.Select(soil => Math.Pow(1 / Require.InRange(soil.ConductanceG, 1e-12, 1, "m³/(s·Paⁿ)"), 1 / soil.Exponent))];
        var (points, branches) = (soils.Length, shape.Branches.Count);
        (_flow, _trial, _residual, _soilSlope, _step) = (new double[points], new double[points], new double[points], new double[points], new double[points]);
        (_branchFlow, _branchLoss, _branchSlope, _pathLoss) = (new double[branches], new double[branches], new double[branches], new double[branches]);
        _matrix = new double[points * points];
    }

    internal double FanFlow => _branchFlow[_shape.Root];

    internal double FanPressurePa { get; private set; }

    internal double ResidualPa { get; private set; }

    internal int Steps { get; private set; }

    internal double[] BranchFlows() => [.. _branchFlow];

    /// <summary>Suction at the beginning of each branch: what is left of the fan after every loss from there on.</summary>
    internal double[] StartVacuums() => [.. _pathLoss.Select(loss => _drivingPa - loss)];

    internal double PitVacuumPa(int point) => _drivingPa - _pathLoss[_shape.Leaves[point]];

    internal double DropPa(int branch) => _branchLoss[branch];

    internal void Balance(FanCurve fan)
    {
        _fan = fan;
        Start(fan.GreatestPressurePa, fan.GreatestFlowM3PerS);
        Balance(Math.Max(fan.GreatestPressurePa * _densityRatio, 1e-3));
    }

    /// <summary>The same with a fan that holds one pressure at every flow.</summary>
    internal void BalanceAt(double fanPressurePa)
    {
        (_fan, _heldPa) = (null, fanPressurePa);
        Start(fanPressurePa, double.PositiveInfinity);
        Balance(Math.Max(fanPressurePa, 1e-3));
    }

    private void Balance(double scale)
    {
        var norm = Evaluate(_flow);
        for (Steps = 0; norm > 1e-9 * scale && Steps < MostSteps; Steps++)
        {
            SolveStep();
            var reached = Advance(norm);
            if (reached >= norm) break;
            norm = reached;
        }

        ResidualPa = norm;
        if (norm > 1e-6 * scale) throw new InvalidOperationException("The pipe tree could not be balanced; check its measures.");
    }

    private void Start(double greatestPa, double greatestFlow)
    {
        // Each point at the flow it would have under half of the shut-off pressure, held within the fan's reach.
        var total = 0.0;
        for (var i = 0; i < _flow.Length; i++)
        {
            _flow[i] = Math.Pow(0.5 * greatestPa / _soilResistance[i], 1 / _soilPower[i]);
            total += _flow[i];
        }

        if (total <= greatestFlow) return;
        for (var i = 0; i < _flow.Length; i++) _flow[i] *= 0.5 * greatestFlow / total;
    }

    /// <summary>Takes the step, or half of it, or a quarter, until the imbalance falls; gives the imbalance reached.</summary>
    private double Advance(double norm)
    {
        for (var part = 1.0; part > 1e-12; part /= 2)
        {
            for (var i = 0; i < _flow.Length; i++) _trial[i] = _flow[i] + part * _step[i];
            var reached = Evaluate(_trial);
            if (reached >= norm) continue;
            _trial.CopyTo(_flow, 0);
            return reached;
        }

        return Evaluate(_flow);
    }

    /// <summary>Works out losses, slopes and the imbalance of each way at these flows; gives the largest imbalance.</summary>
    private double Evaluate(double[] flow)
    {
        Array.Clear(_branchFlow);
        for (var i = 0; i < flow.Length; i++) _branchFlow[_shape.Leaves[i]] = flow[i];
        foreach (var branch in _shape.FromLeaves)
        {
            if (_shape.Joins[branch] >= 0) _branchFlow[_shape.Joins[branch]] += _branchFlow[branch];
            (_branchLoss[branch], _branchSlope[branch]) = Sum(_pieces[branch], _branchFlow[branch], -_branchLiftPa[branch]);
        }

        EvaluateDriving();
        return Imbalance(flow);
    }

    /// <summary>What fan and discharge leave for the branches, and how that falls with the flow.</summary>
    private void EvaluateDriving()
    {
        var (loss, slope) = Sum(_discharge, FanFlow, -_dischargeLiftPa);
        var (pressure, fanSlope) = _fan is null ? (_heldPa, 0) : _fan.ForSearch(FanFlow);
        FanPressurePa = _fan is null ? _heldPa : pressure * _densityRatio;
        (_drivingPa, _drivingSlope) = (FanPressurePa - loss, fanSlope * _densityRatio - slope);
    }

    private static (double Pa, double Slope) Sum(PieceLoss[] pieces, double flow, double startPa)
    {
        var (pa, slope) = (startPa, 0.0);
        foreach (var piece in pieces)
        {
            var (loss, lossSlope) = piece.At(flow);
            pa += loss;
            slope += lossSlope;
        }

        return (pa, slope);
    }

    private double Imbalance(double[] flow)
    {
        for (var i = _shape.FromLeaves.Length - 1; i >= 0; i--)
        {
            var branch = _shape.FromLeaves[i];
            var beyond = _shape.Joins[branch] < 0 ? 0 : _pathLoss[_shape.Joins[branch]];
            _pathLoss[branch] = beyond + _branchLoss[branch];
        }

        var largest = 0.0;
        for (var i = 0; i < flow.Length; i++)
        {
            _residual[i] = _drivingPa - _pathLoss[_shape.Leaves[i]] - SoilVacuum(i, flow[i]);
            largest = Math.Max(largest, Math.Abs(_residual[i]));
        }

        return largest;
    }

    /// <summary>Suction that draws a flow from the ground, and its slope kept for the matrix.</summary>
    private double SoilVacuum(int point, double flow)
    {
        if (_soilPower[point] == 1)
        {
            _soilSlope[point] = _soilResistance[point];
            return _soilResistance[point] * flow;
        }

        var size = Math.Max(Math.Abs(flow), 1e-12);
        var vacuum = _soilResistance[point] * Math.Pow(size, _soilPower[point]);
        _soilSlope[point] = _soilPower[point] * vacuum / size;
        return Math.CopySign(vacuum, flow);
    }

    /// <summary>Newton's step from the symmetric matrix of slopes, by Cholesky.</summary>
    private void SolveStep()
    {
        var n = _flow.Length;
        Array.Fill(_matrix, -_drivingSlope);
        for (var i = 0; i < n; i++) _matrix[i * n + i] += _soilSlope[i];
        for (var branch = 0; branch < _branchSlope.Length; branch++) AddBranch(branch, n);
        Factorize(n);
        Substitute(n);
    }

    private void AddBranch(int branch, int n)
    {
        foreach (var i in _shape.PointsAbove[branch])
            foreach (var j in _shape.PointsAbove[branch])
                _matrix[i * n + j] += _branchSlope[branch];
    }

    private void Factorize(int n)
    {
        for (var j = 0; j < n; j++)
        {
            for (var i = j; i < n; i++)
            {
                var sum = _matrix[i * n + j];
                for (var k = 0; k < j; k++) sum -= _matrix[i * n + k] * _matrix[j * n + k];
                _matrix[i * n + j] = i == j ? Math.Sqrt(Math.Max(sum, 1e-300)) : sum / _matrix[j * n + j];
            }
        }
    }

    private void Substitute(int n)
    {
        for (var i = 0; i < n; i++)
        {
            var sum = _residual[i];
            for (var k = 0; k < i; k++) sum -= _matrix[i * n + k] * _step[k];
            _step[i] = sum / _matrix[i * n + i];
        }

        for (var i = n - 1; i >= 0; i--)
        {
            var sum = _step[i];
            for (var k = i + 1; k < n; k++) sum -= _matrix[k * n + i] * _step[k];
            _step[i] = sum / _matrix[i * n + i];
        }
    }
}
