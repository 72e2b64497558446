using MitigationOffice.Business.Design;

namespace MitigationOffice.Business.Tests.Design;

public sealed class BranchRulesTests
{
    private const int First = 1, Second = 2, Third = 3, TwoHoles = 4, Foreign = 9;

    [Fact]
    public void A_sound_branch_and_one_that_joins_it_have_no_fault()
    {
        Assert.Empty(Faults(Design(Branch(1, "B", Second, 0, 2))));
        Assert.Empty(Faults(Design(Branch(1, "B", Second, 0, 0), Branch(2, "C", Third, 1, 2))));
        Assert.Empty(Faults(Design(Branch(1, "B", Second, 2, 2), Branch(2, "C", Third, 0, 1))));
    }

    [Theory]
    [InlineData("", Second, 0, 1, BranchPart.Name, "Give this suction point a name")]
    [InlineData("B", null, 0, 1, BranchPart.Test, "Choose the PFE test that drew at this point")]
    [InlineData("B", Foreign, 0, 1, BranchPart.Test, "belongs to another house")]
    [InlineData("B", TwoHoles, 0, 1, BranchPart.Test, "drew at 2 holes at once")]
    [InlineData("B", First, 0, 1, BranchPart.Test, "Another suction point answers this PFE test already")]
    [InlineData("B", Second, 7, 1, BranchPart.JoinsInto, "Choose the line that this branch joins.")]
    [InlineData("B", Second, 1, 1, BranchPart.JoinsInto, "leads round in a ring")]
    [InlineData("B", Second, 0, 3, BranchPart.JoinsAfter, "The fan is piece 3 of the route, and a branch must join before it. Write a number from 0, at the pit, to 2.")]
    [InlineData("B", Second, 0, -1, BranchPart.JoinsAfter, "Write a number from 0, at the pit, to 2.")]
    public void What_is_wrong_is_told_at_its_field(string name, int? test, int joins, int after, BranchPart part, string words)
    {
        var fault = Assert.Single(Faults(Design(Branch(1, name, test, joins, after))));
        Assert.Equal((1, part), (fault.Branch, fault.Part));
        Assert.Contains(words, fault.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_of_one_name_a_ring_of_two_and_a_test_of_several_holes_are_refused()
    {
        Assert.Contains(Faults(Design(Branch(1, "B", Second, 0, 1), Branch(2, "b ", Third, 0, 1))), f => f is { Branch: 2, Part: BranchPart.Name });
        Assert.Equal([1, 2], Faults(Design(Branch(1, "B", Second, 2, 1), Branch(2, "C", Third, 1, 1))).Where(f => f.Part == BranchPart.JoinsInto).Select(f => f.Branch));
        var design = Design(Branch(1, "B", Second, 0, 1));
        design.PressureFieldTestId = TwoHoles;
        Assert.Contains("The test of the first suction point drew at several holes at once.", Assert.Single(Faults(design)).Words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_branch_without_pipe_or_with_a_fan_is_refused()
    {
        var design = Design(Branch(1, "B", Second, 0, 1));
        design.Pieces.RemoveAll(p => p is { Branch: 1, Kind: PieceKind.Pipe });
        Assert.Contains("has no pipe", Assert.Single(Faults(design)).Words, StringComparison.Ordinal);
        design.Pieces.Add(new() { Branch = 1, Position = 8, Kind = PieceKind.Fan });
        Assert.Contains(Faults(design), f => f.Words.StartsWith("The one fan stands in the route", StringComparison.Ordinal));
    }

    private static SuctionBranch Branch(int number, string name, int? test, int joins, int after) =>
        new() { Number = number, Name = name, PressureFieldTestId = test, JoinsBranch = joins, JoinsAfterPiece = after };

    private static SuctionDesign Design(params SuctionBranch[] branches) => new()
    {
        Revision = "A", PressureFieldTestId = First, Branches = [.. branches],
        Pieces =
        [
            new() { Kind = PieceKind.Pipe, LengthM = 2 }, new() { Position = 1, Kind = PieceKind.Elbow90 }, new() { Position = 2, Kind = PieceKind.Fan }, new() { Position = 3, Kind = PieceKind.Pipe, LengthM = 4 },
            .. branches.SelectMany(b => new RoutePiece[] { new() { Branch = b.Number, Kind = PieceKind.Pipe, LengthM = 3 }, new() { Branch = b.Number, Position = 1, Kind = PieceKind.Tee } }),
        ],
    };

    private static List<BranchFault> Faults(SuctionDesign design) => [.. BranchRules.Faults(design, test => test switch { TwoHoles => 2, Foreign => null, _ => 1 }, (_, place) => place)];
}
