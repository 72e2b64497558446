using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Documents.Drawing;

public enum RoutePlace
{
    Indoors,
    Garage,
    Attic,
    Outdoors,
}

/// <summary>A stretch of pipe in one place.</summary>
public sealed record RouteStretch(RoutePlace Place, double LengthM, string Size);

/// <summary>A suction point beside the first, with its pipe.</summary>
/// <param name="Joins">Name of the point whose pipe it joins; empty: the route itself.</param>
/// <param name="PitVacuumPa">Foretold above its pit, where that is known.</param>
public sealed record BranchMark(string Name, IReadOnlyList<RouteStretch> Pipe, string Joins = "", double? PitVacuumPa = null);

/// <summary>A test hole with the suction that stands there (positive), where it is known.</summary>
public sealed record HoleMark(string Label, double? SuctionPa, double? DistanceM = null);

/// <summary>What the section through a house shows.</summary>
public sealed record HouseFacts
{
    public required string Name { get; init; }
    public bool Basement { get; init; }
    public bool FootingDivides { get; init; }
    public double Storeys { get; init; } = 1;
    public UnitSystem Units { get; init; }

    /// <summary>From the pit to the mouth; empty before there is a design.</summary>
    public IReadOnlyList<RouteStretch> Route { get; init; } = [];

    /// <summary>The suction points beside the first.</summary>
    public IReadOnlyList<BranchMark> Branches { get; init; } = [];
    public RoutePlace? FanPlace { get; init; }
    public string FanWords { get; init; } = "";
    public double? DischargeAboveGradeM { get; init; }
    public IReadOnlyList<HoleMark> Holes { get; init; } = [];
    public double? PitVacuumPa { get; init; }
    public double? StartUpPa { get; init; }

    /// <summary>Said beside the outdoor run, in a few words: "ice from 9 °F".</summary>
    public string Warning { get; init; } = "";

    public HoleMark? Weakest => Holes.Where(h => h.SuctionPa is not null).MinBy(h => h.SuctionPa);

    public double OutdoorM => Pipe.Where(r => r.Place == RoutePlace.Outdoors).Sum(r => r.LengthM);

    /// <summary>Every stretch, the branches' with the route's.</summary>
    public IEnumerable<RouteStretch> Pipe => Route.Concat(Branches.SelectMany(b => b.Pipe));

    public WayOut WayOut => Route.Count == 0 ? WayOut.None
        : Route.Any(r => r.Place == RoutePlace.Attic) ? WayOut.Roof
        : Route.Any(r => r.Place == RoutePlace.Garage) ? WayOut.Garage
        : Route.Any(r => r.Place == RoutePlace.Outdoors) ? WayOut.Side
        : WayOut.Roof;
}

/// <summary>How the pipe leaves the house.</summary>
public enum WayOut
{
    None,
    Side,
    Garage,
    Roof,
}
