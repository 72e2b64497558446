using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Siting;

/// <summary>A slab floor of a house.</summary>
/// <param name="Name">What names it on the page.</param>
/// <param name="AreaFt2">Its area, ft².</param>
public sealed record SlabFloor(string Name, decimal AreaFt2);

/// <summary>The test holes a pressure field extension test owes.</summary>
/// <param name="InHouse">Fewest in the whole house, count (dimensionless).</param>
/// <param name="Slabs">The slabs that need at least one each.</param>
/// <param name="Source">Where the rule comes from.</param>
public sealed record TestHolesOwed(int InHouse, IReadOnlyList<SlabFloor> Slabs, Citation Source);

/// <summary>How many test holes a pressure field extension test needs.</summary>
public static class TestHoles
{
    /// <summary>Fewest test holes in a house, count (dimensionless).</summary>
    public const int FewestInHouse = 3;

    /// <summary>Slabs larger than this need a hole of their own, ft².</summary>
    public const decimal SlabNeedsHoleOverFt2 = 64m;

    /// <summary>Source of the counts; the text is that of the chapter on vapor intrusion.</summary>
    public static readonly Citation Source = new("ANSI/AARST SGM-SF 2017, 13.3.3.2", Certainty.Published);

    /// <summary>
    /// The test holes owed: three in a house, and one in each slab over 64 ft². A slab of 900 ft², a garage of 400 ft² and a
    /// landing of 50 ft²: three, at least one in each of the first two.
    /// </summary>
    /// <param name="slabs">The slab floors.</param>
    /// <returns>What is owed.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An area outside 0 to 1 000 000 ft².</exception>
    /// <remarks>Range: areas 0 to 1 000 000 ft². Source: ANSI/AARST SGM-SF 2017, 13.3.3.2.</remarks>
    public static TestHolesOwed Owed(IReadOnlyList<SlabFloor> slabs)
    {
        foreach (var slab in slabs)
            Require.InRange(slab.AreaFt2, 0m, 1_000_000m, "ft²", $"The area of {slab.Name}");
        var needy = slabs.Where(slab => slab.AreaFt2 > SlabNeedsHoleOverFt2).ToList();
        return new(Math.Max(FewestInHouse, needy.Count), needy, Source);
    }

    /// <summary>What is still missing, in sentences; none when enough holes were drilled.</summary>
    /// <param name="slabs">The slab floors.</param>
    /// <param name="holesBySlab">Holes drilled in each slab, by the slab's name.</param>
    /// <returns>The sentences.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An area outside 0 to 1 000 000 ft².</exception>
    /// <remarks>Range: areas 0 to 1 000 000 ft². Source: ANSI/AARST SGM-SF 2017, 13.3.3.2.</remarks>
    public static IReadOnlyList<string> Missing(
        IReadOnlyList<SlabFloor> slabs, IReadOnlyDictionary<string, int> holesBySlab)
    {
        var owed = Owed(slabs);
        var missing = owed.Slabs
            .Where(slab => holesBySlab.GetValueOrDefault(slab.Name) < 1)
            .Select(slab => $"{slab.Name} is larger than 64 ft² and has no test hole.")
            .ToList();
        var drilled = holesBySlab.Values.Sum();
        if (drilled < owed.InHouse)
            missing.Add(FormattableString.Invariant($"The house has {drilled} test holes; {owed.InHouse} are owed."));
        return missing;
    }
}
