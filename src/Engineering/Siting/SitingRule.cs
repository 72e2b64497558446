using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Siting;

/// <summary>What a siting rule looks at.</summary>
public enum SitingRuleKind
{
    /// <summary>Height above grade; needs minimumFt.</summary>
    HeightAboveGrade,

    /// <summary>Distance from openings of the house; needs minimumFt, may have unlessOpeningTopBelowFt and ignoreOpenings.</summary>
    OpeningClearance,

    /// <summary>Distance from buildings next door; needs minimumFt.</summary>
    AdjacentBuilding,

    /// <summary>Distance from openings of buildings next door; needs minimumFt.</summary>
    AdjacentOpening,

    /// <summary>Height above a roof the pipe comes through; needs pitchedMinimumIn and flatMinimumIn.</summary>
    RoofClearance,

    /// <summary>Height above the roof edge of a pipe on the side of the house; needs aboveEdgeIn, may have strictlyAbove and orHeightAboveGradeFt.</summary>
    RoofEdge,

    /// <summary>Direction; needs maximumFromVerticalDeg.</summary>
    Direction,

    /// <summary>No rain cap.</summary>
    NoRainCap,

    /// <summary>Distance from walls that rise above the discharge; needs minimumFt.</summary>
    RisingWall,

    /// <summary>Where the fan may not stand; needs forbidden.</summary>
    FanLocation,
}

/// <summary>One rule of a rule set, as its file gives it.</summary>
public sealed record SitingRule
{
    /// <summary>Its name within the set.</summary>
    public required string Id { get; init; }

    /// <summary>What it looks at.</summary>
    public required SitingRuleKind Kind { get; init; }

    /// <summary>The rule in one plain sentence.</summary>
    public required string Text { get; init; }

    /// <summary>Its own citation where it differs from the set's.</summary>
    public string? Citation { get; init; }

    /// <summary>Its own certainty where it differs from the set's.</summary>
    public Certainty? Certainty { get; init; }

    /// <summary>True when the rule advises and does not bind.</summary>
    public bool Advisory { get; init; }

    /// <summary>Least height or distance, ft.</summary>
    public decimal? MinimumFt { get; init; }

    /// <summary>An opening nearer than the least distance is still right when its top lies this far below the discharge or more, ft.</summary>
    public decimal? UnlessOpeningTopBelowFt { get; init; }

    /// <summary>Kinds of opening the rule does not count.</summary>
    public IReadOnlyList<OpeningKind> IgnoreOpenings { get; init; } = [];

    /// <summary>Least height above a pitched roof, inches.</summary>
    public decimal? PitchedMinimumIn { get; init; }

    /// <summary>Least height above a flat roof, inches.</summary>
    public decimal? FlatMinimumIn { get; init; }

    /// <summary>Least height above the roof edge, inches.</summary>
    public decimal? AboveEdgeIn { get; init; }

    /// <summary>True when the height above the edge must be more than the least, not equal to it.</summary>
    public bool StrictlyAbove { get; init; }

    /// <summary>Below the roof edge, the rule is met from this height above grade, ft.</summary>
    public decimal? OrHeightAboveGradeFt { get; init; }

    /// <summary>Largest angle from straight up, degrees.</summary>
    public decimal? MaximumFromVerticalDeg { get; init; }

    /// <summary>Places where the fan may not stand.</summary>
    public IReadOnlyList<FanLocation> Forbidden { get; init; } = [];
}
