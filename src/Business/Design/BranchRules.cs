using System.Globalization;

namespace MitigationOffice.Business.Design;

public enum BranchPart
{
    Name,
    Test,
    Pieces,
    JoinsInto,
    JoinsAfter,
}

/// <summary>What is amiss with a branch, and where.</summary>
public sealed record BranchFault(int Branch, BranchPart Part, string Words);

/// <summary>What further suction points must have before the pipe tree can be computed, in words that say what to do.</summary>
public static class BranchRules
{
    /// <param name="design">With its pieces and branches.</param>
    /// <param name="pits">How many holes drew at once in a PFE test of the house; null for a test of another house.</param>
    /// <param name="shown">How a piece of a line is numbered where its author sees it; null for its place in the line.</param>
    public static IEnumerable<BranchFault> Faults(SuctionDesign design, Func<int, int?> pits, Func<int, int, int>? shown = null)
    {
        foreach (var branch in design.BranchesInOrder())
            foreach (var fault in Name(design, branch).Concat(Test(design, branch, pits)).Concat(Pieces(design, branch)).Concat(Joins(design, branch, shown ?? ((_, place) => place))))
                yield return fault;
    }

    private static IEnumerable<BranchFault> Name(SuctionDesign design, SuctionBranch branch)
    {
        if (string.IsNullOrWhiteSpace(branch.Name)) yield return new(branch.Number, BranchPart.Name, "Give this suction point a name, such as that of its hole.");
        else if (design.Branches.Exists(b => b.Number < branch.Number && string.Equals(b.Name.Trim(), branch.Name.Trim(), StringComparison.OrdinalIgnoreCase)))
            yield return new(branch.Number, BranchPart.Name, $"Two suction points are called {branch.Name}; give each its own name.");
    }

    private static IEnumerable<BranchFault> Test(SuctionDesign design, SuctionBranch branch, Func<int, int?> pits)
    {
        if (branch.PressureFieldTestId is not { } test)
            yield return new(branch.Number, BranchPart.Test, "Choose the PFE test that drew at this point; write one down on sheet 2 first.");
        else if (pits(test) is not { } holes)
            yield return new(branch.Number, BranchPart.Test, "That PFE test belongs to another house.");
        else if (holes > 1)
            yield return new(branch.Number, BranchPart.Test, $"That PFE test drew at {Count(holes)} holes at once. A suction point needs a test with suction at it alone.");
        else if (design.PressureFieldTestId == test || design.Branches.Exists(b => b.Number < branch.Number && b.PressureFieldTestId == test))
            yield return new(branch.Number, BranchPart.Test, "Another suction point answers this PFE test already. Each point needs a test with suction at it alone.");
        else if (design.PressureFieldTestId is { } first && pits(first) > 1)
            yield return new(branch.Number, BranchPart.Test, "The test of the first suction point drew at several holes at once. With several points in the design each needs a test with suction at it alone.");
    }

    private static IEnumerable<BranchFault> Pieces(SuctionDesign design, SuctionBranch branch)
    {
        var line = design.Line(branch.Number);
        if (!line.Any(p => p.Kind == PieceKind.Pipe)) yield return new(branch.Number, BranchPart.Pieces, "This branch has no pipe. Write its pieces from its pit to where it joins.");
        if (line.Any(p => p.Kind == PieceKind.Fan)) yield return new(branch.Number, BranchPart.Pieces, "The one fan stands in the route; take the fan out of this branch.");
    }

    private static IEnumerable<BranchFault> Joins(SuctionDesign design, SuctionBranch branch, Func<int, int, int> shown)
    {
        if (branch.JoinsBranch != 0 && !design.Branches.Exists(b => b.Number == branch.JoinsBranch))
        {
            yield return new(branch.Number, BranchPart.JoinsInto, "Choose the line that this branch joins.");
            yield break;
        }

        if (IsRing(design, branch))
        {
            yield return new(branch.Number, BranchPart.JoinsInto, "This branch leads round in a ring and never reaches the fan. Let one of the ring join the route.");
            yield break;
        }

        var line = design.Line(branch.JoinsBranch);
        var fan = line.ToList().FindIndex(p => p.Kind == PieceKind.Fan);
        var most = fan < 0 ? line.Count : fan;
        if (branch.JoinsAfterPiece >= 0 && branch.JoinsAfterPiece <= most) yield break;
        var last = most == 0 ? 0 : shown(branch.JoinsBranch, most);
        yield return new(branch.Number, BranchPart.JoinsAfter, fan < 0 || branch.JoinsBranch != 0
            ? $"The line it joins ends with piece {Count(last)}. Write a number from 0, at the pit, to {Count(last)}."
            : $"The fan is piece {Count(shown(0, fan + 1))} of the route, and a branch must join before it. Write a number from 0, at the pit, to {Count(last)}.");
    }

    private static bool IsRing(SuctionDesign design, SuctionBranch branch)
    {
        var at = branch.JoinsBranch;
        for (var i = 0; at != 0 && i <= design.Branches.Count; i++) at = design.Branches.Find(b => b.Number == at)?.JoinsBranch ?? 0;
        return at != 0;
    }

    private static string Count(int number) => number.ToString(CultureInfo.InvariantCulture);
}
