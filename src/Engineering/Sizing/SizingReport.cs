using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Sizing;

/// <summary>What the design comes to, with where every number is from.</summary>
/// <param name="Ground">What the PFE test says.</param>
/// <param name="Fans">Every candidate, best first: those that hold by whole cost, then the others by suction.</param>
/// <param name="RecommendedFanId">The fan of least whole cost that holds; null where none does.</param>
/// <param name="Why">One sentence.</param>
/// <param name="WouldHelp">Sentences: what would do where none holds.</param>
/// <param name="StackTestDayPa">Stack effect on the day of the test, Pa.</param>
/// <param name="StackWinterPa">Stack effect in design winter, Pa.</param>
/// <param name="GasDensityKgPerM3">Density of the soil gas, kg/m³.</param>
/// <param name="Assumptions">Sentences: what was taken for granted.</param>
/// <param name="Warnings">Sentences: what does not fit.</param>
/// <param name="Sources">Where the formulas are from.</param>
public sealed record SizingReport(
    PfeFindings Ground, IReadOnlyList<FanResult> Fans, int? RecommendedFanId, string Why, IReadOnlyList<string> WouldHelp, double StackTestDayPa, double StackWinterPa,
    double GasDensityKgPerM3, IReadOnlyList<string> Assumptions, IReadOnlyList<string> Warnings, IReadOnlyList<string> Sources)
{
    /// <summary>What the tests of further suction points say, in their order.</summary>
    public IReadOnlyList<PfeFindings> FurtherGrounds { get; init; } = [];

    /// <summary>The recommended fan's result, or null.</summary>
    public FanResult? Recommended => Fans.FirstOrDefault(f => f.FanId == RecommendedFanId);
}

/// <summary>One fan on this route over this ground.</summary>
/// <param name="FanId">The caller's number.</param>
/// <param name="Name">What people call it.</param>
/// <param name="Point">Where it would run; null where that is off its measured curve.</param>
/// <param name="Holes">Suction at every hole.</param>
/// <param name="WeakestHole">Name of the hole with the least suction in design winter; empty without a point.</param>
/// <param name="WeakestNowPa">Suction at that hole on a day like the test's, Pa.</param>
/// <param name="WeakestWinterPa">Suction at that hole in design winter, Pa.</param>
/// <param name="Holds">True where every hole meets the target in design winter and the pipe is not too fast.</param>
/// <param name="Because">Why it holds or not, in words.</param>
/// <param name="KWhPerYear">Electricity, kWh a year.</param>
/// <param name="ElectricityDollarsPerYear">Its cost, dollars a year.</param>
/// <param name="HouseAirDollarsPerYear">Cost of warming the house air drawn out, dollars a year.</param>
/// <param name="TenYearDollars">Price, replacements at the expected life and running cost over ten years, dollars.</param>
/// <param name="NoiseDbA">Noise, dB(A); null where it is not known.</param>
public sealed record FanResult(
    int FanId, string Name, OperatingPoint? Point, IReadOnlyList<HoleSuction> Holes, string WeakestHole, double WeakestNowPa, double WeakestWinterPa,
    bool Holds, string Because, double KWhPerYear, double ElectricityDollarsPerYear, double HouseAirDollarsPerYear, double TenYearDollars, double? NoiseDbA);

/// <summary>Where fan and system meet.</summary>
/// <param name="FlowM3PerS">Flow, m³/s.</param>
/// <param name="FanPressurePa">Static pressure of the fan, Pa.</param>
/// <param name="PitVacuumPa">Suction in the pipe above the pit, Pa: what the manometer shows.</param>
/// <param name="PipeLossPa">Pressure lost in the whole route, Pa.</param>
/// <param name="Watts">Electrical power, W.</param>
/// <param name="FastestMPerS">Greatest velocity by nominal diameter, m/s.</param>
/// <param name="Velocity">What that velocity means.</param>
/// <param name="ResidualPa">Fan pressure less losses, Pa: proof of the balance.</param>
/// <param name="Pieces">Loss of each piece, Pa, in the route's order.</param>
public sealed record OperatingPoint(
    double FlowM3PerS, double FanPressurePa, double PitVacuumPa, double PipeLossPa, double Watts, double FastestMPerS, VelocityFlag Velocity,
    double ResidualPa, IReadOnlyList<double> Pieces)
{
    /// <summary>What a gauge on the pipe just before the fan shows, Pa.</summary>
    public double FanInletVacuumPa { get; init; }

    /// <summary>Flow and suction of every suction point, the first one first.</summary>
    public IReadOnlyList<PointFlow> Points { get; init; } = [];

    /// <summary>Velocity of every piece, in the order of <see cref="Pieces"/>.</summary>
    public IReadOnlyList<PieceSpeed> Speeds { get; init; } = [];

    /// <summary>The pieces of each further point's branch, in their order from the pit to the junction.</summary>
    public IReadOnlyList<IReadOnlyList<BranchPiece>> Branches { get; init; } = [];
}

/// <summary>One piece of a branch.</summary>
/// <param name="LossPa">Pressure lost, Pa.</param>
/// <param name="VelocityMPerS">Through the real bore, m/s.</param>
/// <param name="FlowM3PerS">Flow, m³/s.</param>
public sealed record BranchPiece(double LossPa, double VelocityMPerS, double FlowM3PerS);

/// <summary>Flow and suction of one suction point.</summary>
/// <param name="Name">The point; empty for the first.</param>
/// <param name="FlowM3PerS">Flow, m³/s.</param>
/// <param name="PitVacuumPa">Suction in the pipe above its pit, Pa.</param>
public sealed record PointFlow(string Name, double FlowM3PerS, double PitVacuumPa);

/// <summary>Velocity of one piece.</summary>
/// <param name="VelocityMPerS">Through the real bore, m/s.</param>
/// <param name="Velocity">What it means, by nominal diameter.</param>
public sealed record PieceSpeed(double VelocityMPerS, VelocityFlag Velocity);

/// <summary>Suction at one hole under one fan, positive.</summary>
/// <param name="Label">The hole.</param>
/// <param name="NowPa">On a day like the test's, Pa.</param>
/// <param name="WinterPa">In design winter, Pa.</param>
/// <param name="WinterLowPa">Least that readings and their resolution allow, Pa.</param>
/// <param name="WinterHighPa">Greatest such value, Pa.</param>
public sealed record HoleSuction(string Label, double NowPa, double WinterPa, double WinterLowPa, double WinterHighPa);
