using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Design;

/// <summary>A suction point beside the first. Its pit is the one at which its own PFE test drew; its pipe, the design's pieces of its
/// number, joins the route before the fan, or another branch.</summary>
[Holds(Truth.Fact)]
public sealed class SuctionBranch : Record
{
    /// <summary>As many as a design file takes.</summary>
    public const int Most = 11;

    public int SuctionDesignId { get; set; }

    /// <summary>From 1 on; <see cref="RoutePiece.Branch"/> refers to it.</summary>
    public int Number { get; set; }
    public required string Name { get; set; }

    /// <summary>The PFE test with suction at this point only.</summary>
    public int? PressureFieldTestId { get; set; }

    /// <summary>Number of the branch that it joins; 0: the route itself.</summary>
    public int JoinsBranch { get; set; }

    /// <summary>How many pieces of the line it joins lie before the junction.</summary>
    public int JoinsAfterPiece { get; set; }
}
