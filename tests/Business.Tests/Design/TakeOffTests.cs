using MitigationOffice.Business.Design;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Tests.Design;

/// <summary>Counted by hand from the drawn pieces. Supports: one to each begun 6 ft across, 8 ft up (EPA 402-R-93-078, 14.2.3, from
/// memory); stock length 10 ft, a tenth for waste (common practice, no source).</summary>
public sealed class TakeOffTests
{
    private static RoutePiece Pipe(double feet, bool up, PiecePlace place = PiecePlace.Indoors, string size = "4in", int count = 1) =>
        new() { Kind = PieceKind.Pipe, Size = size, LengthM = feet * 0.3048, RiseM = up ? feet * 0.3048 : 0, Place = place, Count = count };

    private static RoutePiece Bit(PieceKind kind, PiecePlace place = PiecePlace.Indoors, int count = 1, string size = "4in") => new() { Kind = kind, Size = size, Place = place, Count = count };

    private static TakeOff Of(params RoutePiece[] pieces)
    {
        for (var i = 0; i < pieces.Length; i++) pieces[i].Position = i + 1;
        return TakeOff.Of(pieces.Reverse());
    }

    /// <summary>7 up, 14 across, out, 22 up: 43 ft; 43 × 1.1 = 47.3 → 5 lengths; joints 0 + 1 + 2; supports 1 + 3 + 3.</summary>
    [Fact]
    public void Up_the_outside_of_a_two_storey_house()
    {
        var t = Of(Pipe(7, true), Bit(PieceKind.Elbow90, count: 3), Pipe(14, false), Bit(PieceKind.Elbow90, PiecePlace.Outdoors), Bit(PieceKind.Fan, PiecePlace.Outdoors), Pipe(22, true, PiecePlace.Outdoors));
        Assert.Equal([new PipeTaken("4in", 43, 22, 5, 3, 7)], t.Pipes);
        Assert.Equal([new FittingTaken(PieceKind.Elbow90, "4in", 4)], t.Fittings);
        Assert.Equal([new PassageTaken(PassageKind.Wall, "4in", 1)], t.Passages);
        Assert.Equal(("4in", 1), (t.SizeAtFan, t.SuctionPoints));
    }

    /// <summary>The route as above, and a branch of 3 in: 7 up, 12 across in the garage, a tee into the indoor pipe: 19 ft more, 20.9 → 3 lengths,
    /// joints 0 + 1, supports 1 + 2; out of the house and back in, once at each end of the garage stretch.</summary>
    [Fact]
    public void A_branch_counts_its_own_pipe_pit_and_passages()
    {
        RoutePiece[] route = [Pipe(7, true), Bit(PieceKind.Elbow90, count: 3), Pipe(14, false), Bit(PieceKind.Elbow90, PiecePlace.Outdoors), Bit(PieceKind.Fan, PiecePlace.Outdoors), Pipe(22, true, PiecePlace.Outdoors)];
        RoutePiece[] branch = [Pipe(7, true, size: "3in"), Bit(PieceKind.Elbow90, size: "3in"), Pipe(12, false, PiecePlace.Garage, "3in"), Bit(PieceKind.Tee, PiecePlace.Garage, size: "3in")];
        for (var i = 0; i < route.Length; i++) route[i].Position = i;
        for (var i = 0; i < branch.Length; i++) (branch[i].Position, branch[i].Branch) = (i, 1);
        var design = new SuctionDesign { Revision = "A", Pieces = [.. branch, .. route], Branches = [new() { Number = 1, Name = "B", JoinsAfterPiece = 3 }] };
        var t = TakeOff.Of(design);
        Assert.Equal([new PipeTaken("3in", 19, 0, 3, 1, 3), new PipeTaken("4in", 43, 22, 5, 3, 7)], t.Pipes);
        Assert.Equal([new FittingTaken(PieceKind.Elbow90, "3in", 1), new FittingTaken(PieceKind.Tee, "3in", 1), new FittingTaken(PieceKind.Elbow90, "4in", 4)], t.Fittings);
        Assert.Equal([new PassageTaken(PassageKind.Wall, "4in", 1), new PassageTaken(PassageKind.Garage, "3in", 2)], t.Passages);
        Assert.Equal(("4in", 2), (t.SizeAtFan, t.SuctionPoints));
        Assert.Contains(MaterialList.Of(t, null, null), r => r.What.StartsWith("Suction pit", StringComparison.Ordinal) && r.Quantity == 2);
    }

    /// <summary>9 up, 11 across with 18 up behind it (29 ft of one run), fan, 5 + 2 up: 45 ft; 49.5 → 5 lengths; joints 0 + 2 + 0;
    /// supports 2 + 2 + 3 + 1 + 1.</summary>
    [Fact]
    public void Through_the_attic_and_the_roof()
    {
        var t = Of(Pipe(9, true), Bit(PieceKind.Elbow90, count: 2), Pipe(11, false), Pipe(18, true), Bit(PieceKind.Fan, PiecePlace.Attic), Pipe(5, true, PiecePlace.Attic), Pipe(2, true, PiecePlace.Outdoors));
        Assert.Equal([new PipeTaken("4in", 45, 2, 5, 2, 9)], t.Pipes);
        Assert.Equal([new PassageTaken(PassageKind.Roof, "4in", 1), new PassageTaken(PassageKind.Ceiling, "4in", 1)], t.Passages);
    }

    /// <summary>Two drops of 3 in, 12 ft each: 24 ft, 26.4 → 3 lengths, joints 2 × 1, supports 2 × 2. Then 4 in: 6 across, into the garage 10 up: 16 ft, 17.6 → 2.</summary>
    [Fact]
    public void Two_sizes_and_a_garage()
    {
        var t = Of(Pipe(12, true, size: "3in", count: 2), Bit(PieceKind.Tee, size: "3in"), Bit(PieceKind.Reducer), Pipe(6, false), Bit(PieceKind.Elbow45, PiecePlace.Garage, 2), Pipe(10, true, PiecePlace.Garage), Bit(PieceKind.Fan, PiecePlace.Garage), Pipe(3, true, PiecePlace.Outdoors));
        Assert.Equal([new PipeTaken("3in", 24, 0, 3, 2, 4), new PipeTaken("4in", 19, 3, 3, 0, 4)], t.Pipes);
        Assert.Equal([new FittingTaken(PieceKind.Tee, "3in", 1), new FittingTaken(PieceKind.Elbow45, "4in", 2), new FittingTaken(PieceKind.Reducer, "4in", 1)], t.Fittings);
        Assert.Equal([new PassageTaken(PassageKind.Wall, "4in", 1), new PassageTaken(PassageKind.Garage, "4in", 1)], t.Passages);
    }

    [Theory]
    [InlineData(10, 10, 2, 0)]
    [InlineData(9.09, 10, 1, 0)]
    [InlineData(10.2, 11, 2, 1)]
    [InlineData(20, 20, 3, 1)]
    [InlineData(0.5, 1, 1, 0)]
    public void Feet_and_lengths_are_whole_upward_and_ten_feet_stay_ten(double feet, int whole, int lengths, int joints)
    {
        var pipe = Assert.Single(Of(Pipe(feet, true)).Pipes);
        Assert.Equal((whole, lengths, joints), ((int)pipe.Feet, pipe.Lengths, pipe.Joints));
    }

    [Fact]
    public void A_fan_of_another_size_than_its_pipe_takes_soft_couplings_that_fit_both()
    {
        var rows = MaterialList.Of(Of(Pipe(8, true), Bit(PieceKind.Fan)), new Fan { Model = "Test 9", Connection = "3in" }, null);
        Assert.Contains(rows, r => r is { What: "Soft coupling, 3 in to 4 in", Quantity: 2 });
        Assert.Contains(rows, r => r is { What: "Pipe, 4 in, to buy", Quantity: 1, Unit: "lengths of 10 ft" });
    }

    [Fact]
    public void Nothing_drawn_takes_only_its_pit()
    {
        var row = Assert.Single(MaterialList.Of(Of(), null, null));
        Assert.StartsWith("Suction pit", row.What, StringComparison.Ordinal);
    }
}
