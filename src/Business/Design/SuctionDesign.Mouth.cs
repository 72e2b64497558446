using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Business.Design;

/// <summary>What stands near the mouth beside the nearest opening and the nearest building, which the route's form knows too.</summary>
public sealed partial class SuctionDesign
{
    public string OpeningName { get; set; } = "";
    public OpeningKind OpeningKind { get; set; } = OpeningKind.Window;
    public string BuildingName { get; set; } = "";
    public double? BuildingOpeningM { get; set; }

    /// <summary>Further openings, further buildings and walls that rise near the mouth, a line each: see <see cref="NearbyText"/>.</summary>
    public string Nearby { get; set; } = "";

    /// <summary>Somebody looked and there is none, which is more than "not measured".</summary>
    public bool NoOpeningNear { get; set; }
    public bool NoBuildingNear { get; set; }
    public bool NoWallNear { get; set; }

    /// <summary>How the pipe meets the roof, and where the fan stands; empty follows from the route.</summary>
    public DischargeMounting? Mounting { get; set; }
    public FanLocation? FanStands { get; set; }
}
