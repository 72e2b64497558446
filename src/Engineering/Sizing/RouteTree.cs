using MitigationOffice.Engineering.Network;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Sizing;

/// <summary>Route and further suction points cut at their junctions into the branches of a pipe tree. Cost: pieces plus points squared.</summary>
internal sealed class RouteTree
{
    private const string Main = "";

    private readonly IReadOnlyList<RoutePiece> _route;
    private readonly int _fan;
    private readonly int[] _branchPieces;

    private RouteTree(IReadOnlyList<RoutePiece> route, int fan, IReadOnlyList<NetworkBranch> branches, int[] branchPieces)
    {
        (_route, _fan, _branchPieces) = (route, fan, branchPieces);
        Branches = branches;
        Discharge = [.. route.Skip(fan + 1)];
    }

    /// <summary>The route's own branches first, in the order of the air, then those of each further point.</summary>
    internal IReadOnlyList<NetworkBranch> Branches { get; }

    internal IReadOnlyList<RoutePiece> Discharge { get; }

    /// <summary>Cuts a route; without a fan among its pieces all of them lie after it.</summary>
    internal static RouteTree Of(IReadOnlyList<RoutePiece> route, SoilResistance soil, IReadOnlyList<FurtherPoint> further, IReadOnlyList<SoilResistance> furtherSoils)
    {
        var fan = -1;
        for (var i = 0; i < route.Count; i++)
            if (route[i].Kind == PieceKind.Fan)
                fan = i;
        Refuse(further);
        var branches = Cut(Main, [.. route.Take(Math.Max(fan, 0))], soil, null, further);
        for (var i = 0; i < further.Count; i++)
            branches = branches.Concat(Cut(further[i].Name, further[i].Branch, furtherSoils[i], NameOf(further[i].JoinsInto ?? Main, further[i].JoinsAfterPiece), further));
        return new(route, fan, [.. branches], [.. further.Select(point => point.Branch.Count)]);
    }

    /// <summary>The operating point in the words of the report.</summary>
    internal OperatingPoint PointOf(NetworkSolution solution)
    {
        var before = Math.Max(_fan, 0);
        var own = solution.Pieces.Take(before).Concat(_fan < 0 ? [] : [Still(_route[_fan])]).Concat(solution.Pieces.Skip(solution.Pieces.Count - Discharge.Count)).ToArray();
        var (fastest, flag) = Fastest(solution);
        var points = solution.Branches.Where(branch => branch.IsSuctionPoint).Select(branch => new PointFlow(branch.Name, branch.FlowM3PerS, branch.StartVacuumPa)).ToArray();
        return new(
            solution.FlowM3PerS, solution.FanPressurePa, points[0].PitVacuumPa, solution.FanPressurePa - points[0].PitVacuumPa, solution.Watts!.Value,
            fastest, flag, solution.ResidualPa, [.. own.Select(piece => piece.LossPa)])
        {
            FanInletVacuumPa = solution.FanInletVacuumPa,
            Points = points,
            Speeds = [.. own.Select(piece => new PieceSpeed(piece.VelocityMPerS, piece.Velocity))],
            Branches = [.. BranchPieces(solution, before)],
        };
    }

    private IEnumerable<IReadOnlyList<BranchPiece>> BranchPieces(NetworkSolution solution, int from)
    {
        foreach (var count in _branchPieces)
        {
            yield return [.. solution.Pieces.Skip(from).Take(count).Select(piece => new BranchPiece(piece.LossPa, piece.VelocityMPerS, piece.FlowM3PerS))];
            from += count;
        }
    }

    private static PieceFlow Still(RoutePiece fan) => new(Main, fan, 0, 0, 0, VelocityFlag.Fine);

    private static (double MPerS, VelocityFlag Flag) Fastest(NetworkSolution solution) => solution.Pieces.Where(piece => piece.Piece.Kind != PieceKind.Fan)
        .Select(piece => (Velocity.NominalMPerS(piece.Piece.Size, Math.Abs(piece.FlowM3PerS)), piece.Velocity)).DefaultIfEmpty().MaxBy(speed => speed.Item1);

    private static string NameOf(string line, int afterPiece) => afterPiece < 0 ? line : $"{line} after piece {afterPiece}";

    private static IEnumerable<NetworkBranch> Cut(string line, IReadOnlyList<RoutePiece> pieces, SoilResistance soil, string? joins, IReadOnlyList<FurtherPoint> further)
    {
        var cuts = further.Where(point => (point.JoinsInto ?? Main) == line).Select(point => point.JoinsAfterPiece).Distinct().Order().ToArray();
        foreach (var cut in cuts) Require.InRange(cut, 0, pieces.Count, "pieces before the junction", "JoinsAfterPiece");
        for (var i = 0; i <= cuts.Length; i++)
        {
            var (from, to) = (i == 0 ? 0 : cuts[i - 1], i == cuts.Length ? pieces.Count : cuts[i]);
            yield return new(NameOf(line, i == 0 ? -1 : from), [.. pieces.Skip(from).Take(to - from)], i == cuts.Length ? joins : NameOf(line, to), i == 0 ? soil : null);
        }
    }

    private static void Refuse(IReadOnlyList<FurtherPoint> further)
    {
        if (further.Any(point => string.IsNullOrWhiteSpace(point.Name))) throw new ArgumentException("Every further suction point needs a name.", nameof(further));
        foreach (var point in further)
        {
            if (point.JoinsInto is { } line && further.All(other => other.Name != line))
                throw new ArgumentException($"Suction point {point.Name} joins {line}, which is no suction point of this design.", nameof(further));
            if (point.Branch.Any(piece => piece.Kind == PieceKind.Fan))
                throw new ArgumentException($"The branch of suction point {point.Name} has a fan; the one fan stands in the route.", nameof(further));
        }
    }
}
