using static MitigationOffice.Engineering.Require;

namespace MitigationOffice.Engineering.Slab;

/// <summary>A suction point: a pit under the slab held at a vacuum.</summary>
public sealed record SuctionPlace
{
    /// <summary>Name, as shown beside results.</summary>
    public string Name { get; init; } = "suction point";

    /// <summary>Where it is on the plan.</summary>
    public required PlanPoint At { get; init; }

    /// <summary>Vacuum in the pit, Pa (0.5 to 20 000).</summary>
    public required double PitVacuumPa { get; init; }

    /// <summary>Radius of the dug-out pit, m (0.03 to 0.6); a cored hole without a pit has its own radius.</summary>
    public double PitRadiusM { get; init; } = 0.15;

    /// <summary>Flow drawn from it, m³/s (0 to 0.5); null when not measured. It gives the sheet's conductance.</summary>
    public double? FlowM3PerS { get; init; }
}

/// <summary>What a test hole showed with the fan on, less what it showed with the fan off.</summary>
public sealed record HoleReading
{
    /// <summary>Name, as shown beside results.</summary>
    public required string Name { get; init; }

    /// <summary>Where it is on the plan.</summary>
    public required PlanPoint At { get; init; }

    /// <summary>Vacuum made by the suction, Pa (−100 to 20 000); at or under the resolution it counts as "at most that".</summary>
    public required double VacuumPa { get; init; }
}

/// <summary>Everything a coverage map is computed from.</summary>
public sealed record CoverageInput
{
    /// <summary>The floor plan.</summary>
    public required SlabPlan Plan { get; init; }

    /// <summary>The suction points that ran during the test, all at once.</summary>
    public required IReadOnlyList<SuctionPlace> SuctionPoints { get; init; }

    /// <summary>The test holes' readings.</summary>
    public required IReadOnlyList<HoleReading> Readings { get; init; }

    /// <summary>Vacuum that the floor should have, Pa (0.05 to 100); a house rule, not from a standard.</summary>
    public double TargetPa { get; init; } = 1;

    /// <summary>Smallest vacuum that the instrument shows, Pa (0.001 to 20).</summary>
    public double ResolutionPa { get; init; } = 0.1;

    /// <summary>Reach λ taken when no reading can be used, m (0.5 to 50); assumed, no source.</summary>
    public double AssumedReachM { get; init; } = 3;

    /// <summary>Hindrance of a footing taken when the readings say nothing of it, m of open slab (0.01 to 100); assumed, no source.</summary>
    public double AssumedFootingM { get; init; } = 2;

    internal void Check()
    {
        InRange(SuctionPoints.Count, 1, 12, "(number)", "Number of suction points");
        InRange(Readings.Count, 0, 200, "(number)", "Number of test holes");
        InRange(TargetPa, 0.05, 100, "Pa", "Target");
        InRange(ResolutionPa, 0.001, 20, "Pa", "Resolution");
        InRange(AssumedReachM, 0.5, 50, "m", "Assumed reach");
        InRange(AssumedFootingM, 0.01, 100, "m", "Assumed hindrance of a footing");
        foreach (var reading in Readings)
        {
            SlabPlan.CheckPlace(reading.At, $"Test hole '{reading.Name}'");
            InRange(reading.VacuumPa, -100, 20_000, "Pa", $"Reading of test hole '{reading.Name}'");
        }
    }

    internal static void Check(SuctionPlace place, SlabGrid grid)
    {
        SlabPlan.CheckPlace(place.At, $"Place of '{place.Name}'");
        InRange(place.PitVacuumPa, 0.5, 20_000, "Pa", $"Pit vacuum of '{place.Name}'");
        InRange(place.PitRadiusM, 0.03, 0.6, "m", $"Pit radius of '{place.Name}'");
        InRange(place.FlowM3PerS ?? 0, 0, 0.5, "m³/s", $"Flow of '{place.Name}'");
        if (!grid.Holds(place.At))
            throw Words.Refusal("place", Words.Say($"'{place.Name}' at ({place.At.XM:0.##}, {place.At.YM:0.##}) m lies outside every slab of the plan."));
    }
}
