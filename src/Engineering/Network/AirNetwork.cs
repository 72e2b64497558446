using MitigationOffice.Engineering.Air;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Piping;

namespace MitigationOffice.Engineering.Network;

/// <summary>A tree of suction points, branches, fan and discharge, balanced for any fan.</summary>
/// <remarks>
/// One equation for each suction point: what the fan gives, and the lift of the air column, equal the ground's suction and the
/// loss of every branch on the way and of the discharge. Every loss rises with its flow and the fan's pressure falls, so the
/// matrix of slopes is symmetric and positive: a Newton step always leads downhill, and one that does not lessen the imbalance
/// is halved until it does. Cost of a step: the pieces once, and the cube of the suction points. Solving allocates nothing;
/// the report does. Not for two threads at once: it keeps its working numbers.
/// </remarks>
public sealed class AirNetwork
{
    /// <summary>Most suction points on one fan (count).</summary>
    public const int MostSuctionPoints = 12;

    private readonly TreeShape _shape;
    private readonly NetworkNewton _newton;
    private readonly IReadOnlyList<RoutePiece> _discharge;
    private readonly double _density, _viscosity;

    /// <summary>A pipe tree, checked and made ready.</summary>
    /// <param name="branches">Every branch; exactly one ends at the fan.</param>
    /// <param name="discharge">Pieces after the fan, to the mouth; the speed at the mouth is lost.</param>
    /// <param name="densityKgPerM3">Density of the gas, kg/m³.</param>
    /// <param name="viscosityPaS">Its viscosity, Pa·s.</param>
    /// <param name="outdoorDensityKgPerM3">Density of the outdoor air, kg/m³, for the lift of the column; null for no lift.</param>
    /// <param name="fittingFactor">Factor on the loss of every fitting, dimensionless: 2 shows what bad ones would do.</param>
    /// <exception cref="ArgumentException">The branches are no tree, or one begins nowhere.</exception>
    /// <remarks>Range: 1 to 12 suction points, densities 0.4 to 2 kg/m³, viscosity 1e-5 to 3e-5 Pa·s, factor 0 to 5; refused outside.
    /// Source: balance of mass and energy in a tree of pipes.</remarks>
    public AirNetwork(IReadOnlyList<NetworkBranch> branches, IReadOnlyList<RoutePiece> discharge, double densityKgPerM3, double viscosityPaS,
        double? outdoorDensityKgPerM3 = null, double fittingFactor = 1)
    {
        _density = Require.InRange(densityKgPerM3, 0.4, 2, "kg/m³");
        _viscosity = Require.InRange(viscosityPaS, 1e-5, 3e-5, "Pa·s");
        var lift = (Require.InRange(outdoorDensityKgPerM3 ?? _density, 0.4, 2, "kg/m³") - _density) * 9.80665;
        _shape = TreeShape.Of(branches);
        _discharge = discharge;
        _newton = new(_shape, discharge, _density, _viscosity, lift, Require.InRange(fittingFactor, 0, 5, "(factor)"));
    }

    /// <summary>Balances the tree with a fan.</summary>
    /// <param name="fan">The fan's curve at standard air; the gas's density is put in here.</param>
    /// <returns>Every flow and pressure; <see cref="NetworkSolution.OnCurve"/> says whether the curve reaches there.</returns>
    /// <remarks>Range: any fan. Source: Newton's method on the balance of each suction point.</remarks>
    public NetworkSolution Solve(FanCurve fan)
    {
        _newton.Balance(fan);
        return Report(fan);
    }

    /// <summary>Balances the tree and refuses a point off the fan's curve.</summary>
    /// <param name="fan">The fan's curve at standard air.</param>
    /// <exception cref="OffFanCurveException">The balance lies off the fan's measured curve.</exception>
    /// <remarks>Range: as the fan's curve. Source: as <see cref="Solve"/>.</remarks>
    public NetworkSolution SolveOnCurve(FanCurve fan)
    {
        var solution = Solve(fan);
        fan.PressurePa(solution.FlowM3PerS, _density);
        return solution;
    }

    /// <summary>Balances the tree and gives the flow through the fan, m³/s, alone; allocates nothing.</summary>
    /// <param name="fan">The fan's curve at standard air.</param>
    /// <remarks>Range: any fan; hold the flow against <see cref="FanCurve.Covers"/>. Source: as <see cref="Solve"/>.</remarks>
    public double SolveFlowM3PerS(FanCurve fan)
    {
        _newton.Balance(fan);
        return _newton.FanFlow;
    }

    /// <summary>The flow, m³/s, that a fan draws through the tree when it gives a pressure: one point of the system's curve; allocates nothing.</summary>
    /// <param name="fanPressurePa">Pressure of the fan, Pa.</param>
    /// <remarks>Range: 0 to 100 000 Pa; refused outside. Source: as <see cref="Solve"/>, with a fan that holds one pressure at every flow.
    /// Example: any fan's own balance lies on this curve.</remarks>
    public double SolveFlowM3PerS(double fanPressurePa)
    {
        _newton.BalanceAt(Require.InRange(fanPressurePa, 0, 100_000, "Pa"));
        return _newton.FanFlow;
    }

    /// <summary>Suction, Pa, at the pit of a suction point in the balance found last; points count from 0 in the order of the branches.</summary>
    /// <param name="point">Which suction point (index).</param>
    /// <remarks>Range: 0 to the number of suction points less one. Source: as <see cref="Solve"/>.</remarks>
    public double LastPitVacuumPa(int point) => _newton.PitVacuumPa(point);

    private NetworkSolution Report(FanCurve fan)
    {
        var (flows, vacuums, onCurve) = (_newton.BranchFlows(), _newton.StartVacuums(), fan.Covers(_newton.FanFlow));
        var branches = _shape.Branches.Select((b, i) => new BranchFlow(b.Name, flows[i], vacuums[i], b.Soil is not null)).ToArray();
        var before = _shape.Branches.SelectMany((b, i) => b.Pieces.Select(piece => Flow(b.Name, piece, flows[i])));
        var after = _discharge.Select(piece => Flow("after the fan", piece, _newton.FanFlow));
        return new(_newton.FanFlow, _newton.FanPressurePa, InletVacuumPa(flows, vacuums), branches, [.. before, .. after],
            _newton.ResidualPa, _newton.Steps, onCurve ? fan.WattsAt(_newton.FanFlow, _density) : null, onCurve);
    }

    /// <summary>A gauge on the wall of the pipe does not feel the speed of the air, so it shows one velocity head more than what is lost.</summary>
    private double InletVacuumPa(double[] flows, double[] vacuums)
    {
        var root = _shape.Root;
        var total = vacuums[root] + _newton.DropPa(root);
        if (_shape.Branches[root].Pieces.Count == 0) return total;
        var velocity = _shape.Branches[root].Pieces[^1].Size.VelocityMPerS(flows[root]);
        return total + 0.5 * _density * velocity * velocity;
    }

    private PieceFlow Flow(string branch, RoutePiece piece, double flow) => new(branch, piece, flow, piece.Size.VelocityMPerS(flow),
        new PieceLoss(piece, _density, _viscosity).At(flow).Pa, Velocity.FlagOf(piece.Size, Math.Abs(flow)));
}
