using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Radon;

/// <summary>One published row of the lifetime risk table.</summary>
/// <param name="Level">The level of the row; pCi/L inside.</param>
/// <param name="SmokersPerThousand">Lung cancers in 1000 smokers (dimensionless); null where the table is blank.</param>
/// <param name="NeverSmokersPerThousand">Lung cancers in 1000 who never smoked (dimensionless); null where the table is blank.</param>
/// <param name="Advice">What the table advises, in our words.</param>
public sealed record RiskRow(RadonConcentration Level, int? SmokersPerThousand, int? NeverSmokersPerThousand, string Advice);

/// <summary>
/// The lifetime lung-cancer risk table of the EPA Citizen's Guide: the published rows, never anything between them.
/// There is no row for 1 pCi/L. A former smoker's risk may lie between the two columns.
/// </summary>
public static class RiskTable
{
    private const string Fix = "Fix the house.";

    /// <summary>Source of the rows.</summary>
    public static readonly Citation Source = new("EPA 402/K-12/002, A Citizen's Guide to Radon, risk table", Certainty.Published);

    /// <summary>The published rows, highest first. At 4 pCi/L: 62 in 1000 smokers, 7 in 1000 never smokers.</summary>
    public static readonly IReadOnlyList<RiskRow> Rows =
    [
        Row(20m, 260, 36, Fix),
        Row(10m, 150, 18, Fix),
        Row(8m, 120, 15, Fix),
        Row(4m, 62, 7, Fix),
        Row(2m, 32, 4, "Consider fixing between 2 and 4 pCi/L."),
        Row(1.3m, 20, 2, "Average indoors; below 2 pCi/L is hard to reach."),
        Row(0.4m, null, null, "Average outdoors."),
    ];

    /// <summary>The published row for exactly this level, or null: 4 pCi/L has one, 5 pCi/L has none.</summary>
    /// <param name="level">The level.</param>
    /// <returns>The row, or null.</returns>
    /// <remarks>Range: any concentration. Source: EPA 402/K-12/002.</remarks>
    public static RiskRow? Find(RadonConcentration level) => Rows.FirstOrDefault(row => row.Level == level);

    /// <summary>The published rows a result lies between; the same row twice where it is one. 5 pCi/L lies between 4 and 8.</summary>
    /// <param name="result">The result.</param>
    /// <returns>The row at or below and the row at or above; null beyond the table's ends.</returns>
    /// <remarks>Range: any concentration. Source: EPA 402/K-12/002; nothing is interpolated.</remarks>
    public static (RiskRow? AtOrBelow, RiskRow? AtOrAbove) Around(RadonConcentration result) =>
        (Rows.FirstOrDefault(row => row.Level <= result), Rows.LastOrDefault(row => row.Level >= result));

    private static RiskRow Row(decimal pciPerL, int? smokers, int? neverSmokers, string advice) =>
        new(RadonConcentration.FromPciPerL(pciPerL), smokers, neverSmokers, advice);
}
