using System.Text.Json;
using System.Text.Json.Serialization;
using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Business.Design.Files;

/// <summary>Where the mouth stands. What is left out was not measured.</summary>
public sealed record FileDischarge
{
    [Within(-300, 300, "m")]
    public double? AboveGradeM { get; init; }

    [Within(0, 300, "m")]
    public double? OpeningDistanceM { get; init; }

    [Within(-300, 300, "m")]
    public double? AboveOpeningTopM { get; init; }

    [Within(-300, 300, "m")]
    public double? AboveRoofM { get; init; }

    [Within(0, 300, "m")]
    public double? AdjacentBuildingM { get; init; }
    public bool RainCap { get; init; }

    [Within(0, 180, "degrees")]
    public double FromVerticalDeg { get; init; }

    /// <summary>Key of the siting rules.</summary>
    public required string Rules { get; init; }

    /// <summary>The text of a rule set that the program does not bring, or in place of its own of that key.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public JsonElement? RuleSet { get; init; }

    /// <summary>Null follows from the route.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public DischargeMounting? Mounting { get; init; }

    /// <summary>Null follows from the route.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public FanLocation? Fan { get; init; }

    /// <summary>Every opening near, in place of the nearest one.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull), Within(0, 100, "openings")]
    public IReadOnlyList<FileOpening>? Openings { get; init; }

    /// <summary>Every building near, in place of the nearest one.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull), Within(0, 100, "buildings")]
    public IReadOnlyList<FileBuilding>? AdjacentBuildings { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull), Within(0, 100, "walls")]
    public IReadOnlyList<FileWall>? Walls { get; init; }
}

public sealed record FileOpening
{
    public required string Name { get; init; }
    public required OpeningKind Kind { get; init; }

    [Within(0, 300, "m")]
    public required double DistanceM { get; init; }

    /// <summary>How far its top lies below the mouth; negative where it reaches above it.</summary>
    [Within(-300, 300, "m")]
    public double? TopBelowMouthM { get; init; }
}

public sealed record FileBuilding
{
    public required string Name { get; init; }

    [Within(0, 300, "m")]
    public required double DistanceM { get; init; }

    [Within(0, 300, "m")]
    public double? NearestOpeningM { get; init; }
}

public sealed record FileWall
{
    public required string Name { get; init; }

    [Within(0, 300, "m")]
    public required double DistanceM { get; init; }

    [Within(-300, 300, "m")]
    public required double TopAboveMouthM { get; init; }
}
