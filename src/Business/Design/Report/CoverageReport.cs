namespace MitigationOffice.Business.Design.Report;

/// <summary>What the floor plan and the test holes say about the suction under the whole slab.</summary>
public sealed record CoverageResult
{
    /// <summary>Reach of the layer, with the likely range that the readings leave.</summary>
    public required double ReachM { get; init; }
    public double? ReachLowM { get; init; }
    public double? ReachHighM { get; init; }

    /// <summary>Hindrance of a footing, as metres of open slab.</summary>
    public required double FootingM { get; init; }
    public required bool FootingFitted { get; init; }

    /// <summary>Factor by which the map misses a typical reading; 1 is perfect.</summary>
    public required double TypicalMissFactor { get; init; }
    public double? ConductanceM3PerSPa { get; init; }
    public double? LeakinessM3PerSPaM2 { get; init; }

    /// <summary>With the suction points that ran while the holes were read.</summary>
    public required MapResult AsTested { get; init; }

    /// <summary>With every suction point at the suction that the shown fan gives it; null where one has no place on the plan.</summary>
    public MapResult? WithShownFan { get; init; }

    /// <summary>The same in design winter: the target and winter's loss together.</summary>
    public double? WithShownFanWinterShare { get; init; }
    public MapResult? WhatIf { get; init; }
    public ProposalResult? Proposal { get; init; }
    public required IReadOnlyList<HoleMiss> Holes { get; init; }

    /// <summary>Why the map is weak; empty where nothing speaks against it.</summary>
    public required IReadOnlyList<string> Weaknesses { get; init; }
    public required IReadOnlyList<string> Assumptions { get; init; }
    public required IReadOnlyList<string> Sources { get; init; }
}

public sealed record MapResult
{
    public required string Sentence { get; init; }
    public required double TargetPa { get; init; }
    public required double ShareBeyondTarget { get; init; }
    public required CellResult WeakestSpot { get; init; }

    /// <summary>How far flow in and leakage differ, as a share: a proof of the solution.</summary>
    public required double BalanceError { get; init; }
    public required IReadOnlyList<PitResult> SuctionPoints { get; init; }

    /// <summary>Every cell, where the file asks for them.</summary>
    public IReadOnlyList<CellResult>? Cells { get; init; }
}

public sealed record CellResult(double AcrossM, double UpM, double VacuumPa, double AreaM2);

public sealed record PitResult(string Name, double AcrossM, double UpM, double PitVacuumPa, double? FlowM3PerS);

public sealed record ProposalResult(double AcrossM, double UpM, int PlacesTried, MapResult Map);

/// <summary>A test hole's reading beside what the map has there.</summary>
public sealed record HoleMiss(string Label, double ReadPa, double MapPa, bool Used);
