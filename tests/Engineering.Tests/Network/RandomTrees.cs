using CsCheck;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Network;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Tests.Network;

/// <summary>Trees of any shape: 1 to 12 suction points, each branch joining one drawn at random.</summary>
internal static class RandomTrees
{
    private static readonly Gen<RoutePiece[]> Pieces = Gen.Select(Gen.Int[0, 4], Gen.Double[0.2, 40], Gen.Double[0, 6]).Select((size, length, k) => new RoutePiece[]
    {
        new(PieceKind.Pipe, PipeSize.All[size], length), new(PieceKind.Elbow90, PipeSize.All[size], LossK: k),
    });

    private static readonly Gen<SoilResistance> Soil = Gen.Select(Gen.Double[-5.5, -2.5], Gen.Double[0.5, 1]).Select((g, n) => new SoilResistance(Math.Pow(10, g), n, false));

    /// <summary>Inner branches and how many points; each point and inner branch joins an inner branch before it.</summary>
    internal static readonly Gen<(NetworkBranch[] Branches, RoutePiece[] Discharge)> Tree =
        from inner in Gen.Int[1, 8]
        from points in Gen.Int[1, 12]
        from joins in Gen.Int[0, 1000].Array[inner + points]
        from pieces in Pieces.Array[inner + points]
        from soils in Soil.Array[points + inner]
        from discharge in Pieces
        select (Grow(inner, points, joins, pieces, soils), discharge);

    internal static readonly Gen<FanCurve> Fan = Gen.Select(Gen.Double[50, 4000], Gen.Double[0.02, 0.3], Gen.Double[0.8, 3]).Select((pa, flow, bend) =>
        new FanCurve(Enumerable.Range(0, 9).Select(i => new FanPoint(flow * i / 8, pa * (1.02 - Math.Pow(i / 8.0, bend)), 10 + i))));

    private static NetworkBranch[] Grow(int inner, int points, int[] joins, RoutePiece[][] pieces, SoilResistance[] soils)
    {
        var branches = new List<NetworkBranch>();
        for (var i = 0; i < inner; i++) branches.Add(new($"b{i}", pieces[i], i == 0 ? null : $"b{joins[i] % i}"));
        for (var i = 0; i < points; i++) branches.Add(new($"p{i}", pieces[inner + i], $"b{joins[inner + i] % inner}", soils[i]));
        // A branch that nothing joins begins at a pit of its own, as long as a fan takes so many; else it is left off.
        var free = AirNetwork.MostSuctionPoints - points;
        for (var i = inner - 1; i >= 0; i--)
        {
            if (branches.Any(b => b.JoinsInto == $"b{i}")) continue;
            var at = branches.FindIndex(b => b.Name == $"b{i}");
            if (free-- > 0) branches[at] = branches[at] with { Soil = soils[points + i] };
            else branches.RemoveAt(at);
        }

        return [.. branches];
    }
}
