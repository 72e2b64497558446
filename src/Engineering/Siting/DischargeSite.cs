namespace MitigationOffice.Engineering.Siting;

/// <summary>How the outdoor pipe meets the roof.</summary>
public enum DischargeMounting
{
    /// <summary>Through a pitched roof.</summary>
    ThroughPitchedRoof,

    /// <summary>Through a flat roof.</summary>
    ThroughFlatRoof,

    /// <summary>Up the side of the house, past the roof edge or ending below it.</summary>
    SideOfHouse,
}

/// <summary>What an opening is.</summary>
public enum OpeningKind
{
    /// <summary>A window that opens.</summary>
    Window,

    /// <summary>A door.</summary>
    Door,

    /// <summary>An air intake.</summary>
    AirIntake,

    /// <summary>A chimney.</summary>
    Chimney,

    /// <summary>Any other opening into conditioned space.</summary>
    Other,
}

/// <summary>Where the fan stands.</summary>
public enum FanLocation
{
    /// <summary>Outdoors, above grade.</summary>
    Outdoors,

    /// <summary>In an attic that is not conditioned.</summary>
    Attic,

    /// <summary>In a garage with no living space above.</summary>
    Garage,

    /// <summary>In a garage with living space above.</summary>
    GarageUnderLivingSpace,

    /// <summary>In conditioned space.</summary>
    ConditionedSpace,

    /// <summary>In a basement.</summary>
    Basement,

    /// <summary>In a crawl space under living space.</summary>
    CrawlSpaceUnderLivingSpace,

    /// <summary>In a window well.</summary>
    WindowWell,

    /// <summary>Anywhere else below grade.</summary>
    BelowGrade,
}

/// <summary>An opening of the house near the discharge.</summary>
/// <param name="Name">What names it on the page.</param>
/// <param name="Kind">What it is.</param>
/// <param name="DistanceFt">Distance from the discharge, ft, measured as the rule set says.</param>
/// <param name="TopBelowExhaustFt">How far its top lies below the discharge, ft; negative where it reaches above it.</param>
/// <param name="BottomBelowExhaustFt">How far its bottom lies below the discharge, ft; null where not measured. Shown, not judged: every rule here goes by the top.</param>
public sealed record NearbyOpening(
    string Name, OpeningKind Kind, decimal DistanceFt, decimal? TopBelowExhaustFt, decimal? BottomBelowExhaustFt = null);

/// <summary>A building next door.</summary>
/// <param name="Name">What names it on the page.</param>
/// <param name="DistanceFt">Distance of its nearest part from the discharge, ft.</param>
/// <param name="NearestOpeningFt">Distance of its nearest opening from the discharge, ft; null where not measured.</param>
public sealed record AdjacentBuilding(string Name, decimal DistanceFt, decimal? NearestOpeningFt = null);

/// <summary>A wall near the discharge.</summary>
/// <param name="Name">What names it on the page.</param>
/// <param name="DistanceFt">Horizontal distance from the discharge, ft.</param>
/// <param name="TopAboveExhaustFt">How far it rises above the discharge, ft; 0 or less where the discharge is as high.</param>
public sealed record NearbyWall(string Name, decimal DistanceFt, decimal TopAboveExhaustFt);

/// <summary>Where a discharge stands. What is null was not measured: the rules that need it say so and neither pass nor fail.</summary>
public sealed record DischargeSite
{
    /// <summary>Height of the discharge above the ground nearest to it, ft.</summary>
    public decimal? HeightAboveGradeFt { get; init; }

    /// <summary>How the pipe meets the roof.</summary>
    public DischargeMounting? Mounting { get; init; }

    /// <summary>Height of the discharge above the roof surface where it comes through, inches.</summary>
    public decimal? AboveRoofIn { get; init; }

    /// <summary>Height of the discharge above the roof edge beside it, inches; negative below the edge. For a pipe on the side of the house.</summary>
    public decimal? AboveRoofEdgeIn { get; init; }

    /// <summary>Openings of the house near the discharge; an empty list says there are none.</summary>
    public IReadOnlyList<NearbyOpening>? Openings { get; init; }

    /// <summary>Buildings next door; an empty list says there are none.</summary>
    public IReadOnlyList<AdjacentBuilding>? AdjacentBuildings { get; init; }

    /// <summary>Walls near the discharge; an empty list says there are none.</summary>
    public IReadOnlyList<NearbyWall>? Walls { get; init; }

    /// <summary>Angle of the discharge from straight up, degrees: 0 up, 90 level, 180 down.</summary>
    public decimal? FromVerticalDeg { get; init; }

    /// <summary>Whether there is a rain cap or another obstruction.</summary>
    public bool? HasRainCap { get; init; }

    /// <summary>Where the fan stands.</summary>
    public FanLocation? Fan { get; init; }
}
