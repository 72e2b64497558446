namespace MitigationOffice.Engineering.Slab;

/// <summary>The sentences of a coverage map.</summary>
internal static class CoverageWords
{
    private const double PoorMissFactor = 1.5;
    private const double WideLogError = 0.3;

    public static IReadOnlyList<string> Sources { get; } =
    [
        "Leaky sheet: the steady leaky-aquifer equation of Hantush and Jacob (1955), from memory, on the floor plan by finite volumes.",
        "Pit in a grid cell: equivalent radius after Peaceman (1978), from memory, here derived from the square lattice's potential kernel.",
        "Far from the pit the vacuum falls by the same share over each metre: field observation, AARST Symposium 1996 (Saum).",
        "Target: house rule, not from a standard.",
    ];

    public static IReadOnlyList<string> Weaknesses(SlabCoverage slab, ReachFit fit, int used, bool hasFootings)
    {
        var weak = new List<string>();
        if (used == 0) weak.Add(Words.Say($"No test hole could be used: the map rests on an assumed reach of {slab.ReachM:0.#} m and proves nothing."));
        else if (used < 3) weak.Add(Words.Say($"Only {Words.Count(used)} test hole{(used == 1 ? "" : "s")} could be used: the map is weak; three or more, spread over the floor, are needed."));
        if (used > 0 && slab.TypicalMissFactor > PoorMissFactor)
            weak.Add(Words.Say($"Poor fit: the map misses a typical reading by a factor of {slab.TypicalMissFactor:0.0}; the layer is not even, or something blocks or leaks."));
        if (used > 0 && fit.AtItsEnd)
            weak.Add(Words.Say($"The fitted reach of {slab.ReachM:0.#} m is at the end of what the map can tell; the holes do not show where the vacuum fades."));
        else if (used >= 3 && slab.LogReachError > WideLogError)
            weak.Add(Words.Say($"The readings leave the reach between {slab.ReachLowM:0.#} and {slab.ReachHighM:0.#} m: holes at more different distances would narrow it."));
        if (hasFootings && !slab.FootingFitted && used > 0)
            weak.Add(Words.Say($"No reading tells how much the footings hinder; {slab.FootingM:0.#} m of open slab is assumed for each."));
        foreach (var hole in slab.Holes.Where(hole => !hole.Used))
            weak.Add($"Test hole '{hole.Reading.Name}' was left out: it lies outside the slabs or right beside a pit.");
        return weak;
    }

    public static IReadOnlyList<string> Assumptions(SlabCoverage slab, CoverageInput input)
    {
        var sentences = new List<string>
        {
            "The layer under the slab is taken as even, and the slab as evenly leaky.",
            "Flow through the layer is taken as slow (loss in proportion to flow).",
            "Walls and outer footings let nothing through.",
            Words.Say($"Target {input.TargetPa:0.##} Pa: house rule, not from a standard."),
        };
        if (slab.ConductanceM3PerSPa is null) sentences.Add("No flow was measured, so flows of further points are not foretold.");
        return sentences;
    }
}
