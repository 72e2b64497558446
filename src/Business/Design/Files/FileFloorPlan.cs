using System.Text.Json.Serialization;

namespace MitigationOffice.Business.Design.Files;

/// <summary>The slab from above, with the places of pits and test holes: what the coverage map is computed from.</summary>
public sealed record FileFloorPlan
{
    [Within(1, 50, "areas")]
    public required IReadOnlyList<FileArea> Areas { get; init; }

    [Within(0, 200, "footings")]
    public IReadOnlyList<FileFooting> Footings { get; init; } = [];

    /// <summary>The points that ran, all at once, while the holes were read; the first is the one of the file's test.</summary>
    [Within(1, 12, "suction points")]
    public required IReadOnlyList<FilePit> SuctionPoints { get; init; }

    [Within(0, 200, "holes")]
    public required IReadOnlyList<FilePlacedHole> Holes { get; init; }

    /// <summary>Which setting of the file's test the readings are of, counted from 1; null takes the strongest.</summary>
    [Within(1, 50, "(number)")]
    public int? Setting { get; init; }

    /// <summary>Null takes the file's target.</summary>
    [Within(0.05, 100, "Pa")]
    public double? TargetPa { get; init; }

    [Within(0.05, 0.25, "m")]
    public double? GridM { get; init; }

    [Within(0.001, 20, "Pa")]
    public double? ResolutionPa { get; init; }

    [Within(0.5, 50, "m")]
    public double? AssumedReachM { get; init; }

    [Within(0.01, 100, "m")]
    public double? AssumedFootingM { get; init; }

    /// <summary>One more suction point, to see what it would do.</summary>
    public FilePit? WhatIf { get; init; }

    /// <summary>Asks for the best place of one more suction point.</summary>
    public FileProposal? Propose { get; init; }

    /// <summary>Whether the report holds every cell of the map.</summary>
    public bool WithCells { get; init; }
}

public sealed record FileArea
{
    public required string Name { get; init; }

    /// <summary>In order, either way round; the last joins the first.</summary>
    [Within(3, 500, "corners")]
    public required IReadOnlyList<FilePlace> Corners { get; init; }
}

public sealed record FileFooting
{
    public required FilePlace From { get; init; }
    public required FilePlace To { get; init; }
}

/// <summary>A place on the plan: metres to the right and up.</summary>
public sealed record FilePlace
{
    [JsonPropertyName("xM"), Within(-1000, 1000, "m")]
    public required double XM { get; init; }

    [JsonPropertyName("yM"), Within(-1000, 1000, "m")]
    public required double YM { get; init; }
}

public sealed record FilePit
{
    public string? Name { get; init; }
    public required FilePlace At { get; init; }

    /// <summary>Null takes the test's, where only one point ran.</summary>
    [Within(0.5, 20_000, "Pa")]
    public double? PitVacuumPa { get; init; }

    [Within(0.03, 0.6, "m")]
    public double? PitRadiusM { get; init; }

    [Within(0, 0.5, "m³/s")]
    public double? FlowM3PerS { get; init; }
}

public sealed record FilePlacedHole
{
    public required string Label { get; init; }
    public required FilePlace At { get; init; }

    /// <summary>Fan off less fan on; null takes the reading of the test's hole of this label.</summary>
    [Within(-100, 20_000, "Pa")]
    public double? VacuumPa { get; init; }
}

public sealed record FileProposal
{
    /// <summary>Null takes the first point's.</summary>
    [Within(0.5, 20_000, "Pa")]
    public double? PitVacuumPa { get; init; }

    [Within(0.03, 0.6, "m")]
    public double? PitRadiusM { get; init; }
}
