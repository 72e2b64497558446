using MitigationOffice.Engineering.Piping;

namespace MitigationOffice.Engineering.Network;

/// <summary>Every flow and pressure of a balanced pipe tree.</summary>
/// <param name="FlowM3PerS">Flow through the fan, m³/s.</param>
/// <param name="FanPressurePa">Static pressure of the fan, Pa.</param>
/// <param name="FanInletVacuumPa">What a gauge on the pipe just before the fan shows, Pa below the still air beside the pit.</param>
/// <param name="Branches">Flow and suction of each branch, in the order they were given.</param>
/// <param name="Pieces">Flow, velocity and loss of each piece: the branches' in their order, then those after the fan.</param>
/// <param name="ResidualPa">Greatest imbalance left on any way from a pit to the open, Pa: proof of the balance.</param>
/// <param name="Steps">Newton steps taken (count).</param>
/// <param name="Watts">Electrical power of the fan, W; null where the flow lies off its curve.</param>
/// <param name="OnCurve">True where the flow lies on the fan's measured curve; elsewhere the numbers are only a direction.</param>
public sealed record NetworkSolution(
    double FlowM3PerS, double FanPressurePa, double FanInletVacuumPa, IReadOnlyList<BranchFlow> Branches, IReadOnlyList<PieceFlow> Pieces,
    double ResidualPa, int Steps, double? Watts, bool OnCurve);

/// <summary>Flow and suction of one branch.</summary>
/// <param name="Name">The branch.</param>
/// <param name="FlowM3PerS">Flow, m³/s; negative where the air would run backward.</param>
/// <param name="StartVacuumPa">Suction where it begins, Pa: above the pit of a suction point, in the junction otherwise.</param>
/// <param name="IsSuctionPoint">True where it begins at a pit.</param>
public sealed record BranchFlow(string Name, double FlowM3PerS, double StartVacuumPa, bool IsSuctionPoint);

/// <summary>Flow, velocity and loss of one piece.</summary>
/// <param name="Branch">The branch it belongs to; "after the fan" beyond it.</param>
/// <param name="Piece">The piece.</param>
/// <param name="FlowM3PerS">Flow, m³/s.</param>
/// <param name="VelocityMPerS">Velocity through the real bore, m/s.</param>
/// <param name="LossPa">Pressure lost, Pa.</param>
/// <param name="Velocity">What the velocity means.</param>
public sealed record PieceFlow(string Branch, RoutePiece Piece, double FlowM3PerS, double VelocityMPerS, double LossPa, VelocityFlag Velocity);
