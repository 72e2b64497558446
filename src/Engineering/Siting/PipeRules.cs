using System.Globalization;
using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Siting;

/// <summary>How a run of vent pipe must fall and be held.</summary>
public static class PipeRules
{
    /// <summary>Least fall toward the suction point, inches per foot of run.</summary>
    public const decimal LeastFallInPerFt = 0.125m;

    /// <summary>Farthest apart supports of a level run, ft.</summary>
    public const decimal SupportEveryLevelFt = 6m;

    /// <summary>Farthest apart supports of an upright run that passes no floor, ceiling or roof, ft.</summary>
    public const decimal SupportEveryUprightFt = 8m;

    /// <summary>Source of the fall.</summary>
    public static readonly Citation FallSource = new("ANSI/AARST SGM-SF 2017, 6.2.2", Certainty.Published);

    /// <summary>Source of the supports.</summary>
    public static readonly Citation SupportSource = new("EPA 402-R-93-078, 14.2.3", Certainty.FromMemory);

    /// <summary>Judges the fall of a run toward the suction point: 1/8 in per ft or more. 1 in over 8 ft passes; 1 in over 9 ft fails.</summary>
    /// <param name="fallIn">Fall toward the suction point, inches; negative falls the wrong way.</param>
    /// <param name="runFt">Level length of the run, ft.</param>
    /// <returns>The finding.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A run outside 0.1 to 1000 ft or a fall beyond ±12 000 in.</exception>
    /// <remarks>Range: run 0.1 to 1000 ft; fall −12 000 to 12 000 in. Source: ANSI/AARST SGM-SF 2017, 6.2.2.</remarks>
    public static SitingFinding JudgeFall(decimal fallIn, decimal runFt)
    {
        Require.InRange(runFt, 0.1m, 1000m, "ft", "The run of pipe");
        Require.InRange(fallIn, -12_000m, 12_000m, "in", "The fall of the pipe");
        var perFt = fallIn / runFt;
        return new("fall", "The pipe falls at least 1/8 in per ft toward the suction point, without a low spot.",
            perFt >= LeastFallInPerFt ? SitingOutcome.Passed : SitingOutcome.Failed,
            string.Create(CultureInfo.InvariantCulture, $"It falls {perFt:0.###} in per ft; 0.125 in per ft are needed."),
            false, FallSource);
    }

    /// <summary>The fall a run needs toward the suction point. 20 ft need 2.5 in.</summary>
    /// <param name="runFt">Level length of the run, ft.</param>
    /// <returns>The fall, inches.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A run outside 0 to 1000 ft.</exception>
    /// <remarks>Range: 0 to 1000 ft. Source: ANSI/AARST SGM-SF 2017, 6.2.2.</remarks>
    public static decimal FallNeededIn(decimal runFt) =>
        LeastFallInPerFt * Require.InRange(runFt, 0m, 1000m, "ft", "The run of pipe");

    /// <summary>Fewest supports of one straight run: no part farther apart than 6 ft level, 8 ft upright. 20 ft level need 4; 20 ft upright need 3.</summary>
    /// <param name="runFt">Length of the run, ft.</param>
    /// <param name="isUpright">Whether the run is upright and passes no floor, ceiling or roof that holds it.</param>
    /// <returns>Supports, count (dimensionless).</returns>
    /// <exception cref="ArgumentOutOfRangeException">A run outside 0 to 1000 ft.</exception>
    /// <remarks>Range: 0 to 1000 ft. Source: EPA 402-R-93-078, 14.2.3, from memory; counting one support to each begun 6 or 8 ft is a house rule.</remarks>
    public static int SupportsNeeded(decimal runFt, bool isUpright)
    {
        Require.InRange(runFt, 0m, 1000m, "ft", "The run of pipe");
        return (int)decimal.Ceiling(runFt / (isUpright ? SupportEveryUprightFt : SupportEveryLevelFt));
    }
}
