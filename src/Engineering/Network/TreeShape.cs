namespace MitigationOffice.Engineering.Network;

/// <summary>Branches by number: who joins whom, and which suction points lie above each.</summary>
internal sealed class TreeShape
{
    private TreeShape(IReadOnlyList<NetworkBranch> branches, int[] joins)
    {
        Branches = branches;
        Joins = joins;
        Root = Array.IndexOf(joins, -1);
        Leaves = [.. Enumerable.Range(0, joins.Length).Where(i => branches[i].Soil is not null)];
        FromLeaves = [.. Enumerable.Range(0, joins.Length).OrderByDescending(Depth)];
        PointsAbove = new int[joins.Length][];
        for (var i = 0; i < joins.Length; i++)
            PointsAbove[i] = [.. Enumerable.Range(0, Leaves.Length).Where(leaf => Passes(Leaves[leaf], i))];
    }

    internal IReadOnlyList<NetworkBranch> Branches { get; }

    /// <summary>Index of the branch joined into; -1 for the one at the fan.</summary>
    internal int[] Joins { get; }

    internal int Root { get; }

    /// <summary>Branches that begin at a pit.</summary>
    internal int[] Leaves { get; }

    /// <summary>Branches in an order that puts each before the one it joins.</summary>
    internal int[] FromLeaves { get; }

    /// <summary>For each branch the places in <see cref="Leaves"/> whose air passes through it.</summary>
    internal int[][] PointsAbove { get; }

    internal static TreeShape Of(IReadOnlyList<NetworkBranch> branches)
    {
        RefuseNames(branches);
        var joins = branches.Select(branch => IndexOf(branches, branch)).ToArray();
        if (joins.Count(join => join < 0) != 1)
            throw new ArgumentException($"Exactly one branch must end at the fan; {joins.Count(join => join < 0)} do.", nameof(branches));
        RefuseRings(branches, joins);
        RefuseEnds(branches, joins);
        return new(branches, joins);
    }

    private static void RefuseNames(IReadOnlyList<NetworkBranch> branches)
    {
        var twice = branches.GroupBy(branch => branch.Name).FirstOrDefault(group => group.Count() > 1);
        if (twice is not null) throw new ArgumentException($"Two branches are called '{twice.Key}'.", nameof(branches));
        var suctionPoints = branches.Count(branch => branch.Soil is not null);
        Require.InRange(suctionPoints, 1, AirNetwork.MostSuctionPoints, "suction points");
    }

    private static int IndexOf(IReadOnlyList<NetworkBranch> branches, NetworkBranch branch)
    {
        if (branch.JoinsInto is null) return -1;
        for (var i = 0; i < branches.Count; i++)
            if (branches[i].Name == branch.JoinsInto)
                return i;
        throw new ArgumentException($"Branch '{branch.Name}' joins into '{branch.JoinsInto}', which does not exist.", nameof(branches));
    }

    private static void RefuseRings(IReadOnlyList<NetworkBranch> branches, int[] joins)
    {
        for (var i = 0; i < joins.Length; i++)
        {
            var steps = 0;
            for (var at = i; at >= 0; at = joins[at])
                if (++steps > joins.Length)
                    throw new ArgumentException($"Branch '{branches[i].Name}' leads round in a ring and never reaches the fan.", nameof(branches));
        }
    }

    private static void RefuseEnds(IReadOnlyList<NetworkBranch> branches, int[] joins)
    {
        for (var i = 0; i < joins.Length; i++)
        {
            var joined = joins.Contains(i);
            if (branches[i].Soil is null && !joined)
                throw new ArgumentException($"Branch '{branches[i].Name}' begins nowhere: it has no suction point and none joins it.", nameof(branches));
            if (branches[i].Soil is not null && joined)
                throw new ArgumentException($"Branch '{branches[i].Name}' begins at a suction point, so none can join its beginning; split it there.", nameof(branches));
        }
    }

    private int Depth(int branch)
    {
        var depth = 0;
        for (var at = Joins[branch]; at >= 0; at = Joins[at]) depth++;
        return depth;
    }

    private bool Passes(int leaf, int branch)
    {
        for (var at = leaf; at >= 0; at = Joins[at])
            if (at == branch)
                return true;
        return false;
    }
}
