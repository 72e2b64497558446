using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Design;

/// <summary>One drawn-up system for a house. Frozen once quoted; a change makes the next revision.</summary>
[Holds(Truth.Fact)]
[Index(nameof(HouseId), nameof(Revision), IsUnique = true)]
public sealed partial class SuctionDesign : Record
{
    public int HouseId { get; set; }
    public int? PressureFieldTestId { get; set; }

    /// <summary>"A", "B", … "Z", "AA".</summary>
    public required string Revision { get; set; }
    public string Notes { get; set; } = "";
    public int? FanId { get; set; }
    public double TargetPa { get; set; } = 1.0;

    /// <summary>Discharge mouth above the ground nearest it, metres.</summary>
    public double? DischargeAboveGradeM { get; set; }

    /// <summary>Nearest window or door: distance, and how far the mouth stands over its top (negative: below).</summary>
    public double? OpeningDistanceM { get; set; }
    public double? AboveOpeningTopM { get; set; }

    /// <summary>Mouth above the roof where it comes through, or above the roof edge beside it (negative: below).</summary>
    public double? AboveRoofM { get; set; }

    /// <summary>Nearest building next door; empty: not measured.</summary>
    public double? AdjacentBuildingM { get; set; }
    public bool RainCap { get; set; }

    /// <summary>How far the mouth points away from straight up, degrees.</summary>
    public double FromVerticalDeg { get; set; }

    /// <summary>Key of the siting rules it is held against; empty: those of the house's state.</summary>
    public string SitingRules { get; set; } = "";
    public DateTime? FrozenAtUtc { get; set; }

    /// <summary>The pieces of the route and of every branch.</summary>
    public List<RoutePiece> Pieces { get; set; } = [];

    /// <summary>The suction points beside the first.</summary>
    public List<SuctionBranch> Branches { get; set; } = [];

    /// <summary>The stored report as JSON, with the version of the engine and the hash of what went in.</summary>
    [NotAudited]
    public string? ReportJson { get; set; }

    /// <summary>Days at risk of ice in a winter as the stored report has them, for those who look over all houses.</summary>
    public double? FreezeDaysAtRisk { get; set; }
    public string? EngineVersion { get; set; }
    public string? InputsHash { get; set; }
    public DateTime? ComputedAtUtc { get; set; }

    /// <summary>The pieces of the route (0) or of a branch in the order of the air.</summary>
    public IReadOnlyList<RoutePiece> Line(int branch = 0) => [.. Pieces.Where(p => p.Branch == branch).OrderBy(p => p.Position)];

    public IEnumerable<SuctionBranch> BranchesInOrder() => Branches.OrderBy(b => b.Number);
}

public enum PieceKind
{
    Pipe,
    Elbow90,
    LongElbow90,
    Elbow45,
    Tee,
    Coupling,
    Reducer,
    Fan,
}

public enum PiecePlace
{
    Indoors,
    Garage,
    Attic,
    Outdoors,
}

/// <summary>One piece of the route, in order from the pit to the mouth, or of a branch, from its pit to where it joins. Pieces before
/// the fan are under suction.</summary>
[Holds(Truth.Fact)]
public sealed class RoutePiece : Record
{
    public int SuctionDesignId { get; set; }

    /// <summary>Number of the branch it is part of; 0: the route itself.</summary>
    public int Branch { get; set; }
    public int Position { get; set; }
    public PieceKind Kind { get; set; }

    /// <summary>A key of the pipe sizes ("4in").</summary>
    public string Size { get; set; } = "4in";
    public double LengthM { get; set; }

    /// <summary>How much of the length goes up (negative: down), metres.</summary>
    public double RiseM { get; set; }
    public PiecePlace Place { get; set; }
    public int Count { get; set; } = 1;

    /// <summary>Measured loss coefficient where it is known better than the handbook's.</summary>
    public double? LossK { get; set; }
}
