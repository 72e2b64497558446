using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Radon;

/// <summary>Two devices side by side on a day.</summary>
/// <param name="Day">The day.</param>
/// <param name="First">One result; pCi/L inside.</param>
/// <param name="Second">The other result; pCi/L inside.</param>
public sealed record DuplicatePair(DateOnly Day, RadonConcentration First, RadonConcentration Second);

/// <summary>One point of the chart of pairs.</summary>
/// <param name="Pair">The pair.</param>
/// <param name="Finding">How it agrees, and the limits it was held against.</param>
public sealed record ControlPoint(DuplicatePair Pair, DuplicateFinding Finding);

/// <summary>Limits drawn from one's own pairs.</summary>
/// <param name="Pairs">Pairs behind them, count (dimensionless).</param>
/// <param name="MeanPercent">Mean relative difference, percent.</param>
/// <param name="WarningPercent">Mean and two standard deviations, percent.</param>
/// <param name="ControlPercent">Mean and three standard deviations, percent.</param>
/// <param name="Source">Where the rule comes from.</param>
public sealed record OwnPairLimits(
    int Pairs, decimal MeanPercent, decimal WarningPercent, decimal ControlPercent, Citation Source);

/// <summary>The control chart of pairs.</summary>
public static class ControlChart
{
    /// <summary>Pairs needed before one's own limits replace the defaults, count (dimensionless).</summary>
    public const int PairsForOwnLimits = 20;

    /// <summary>The points in order of day, each against the default limits of its average.</summary>
    /// <param name="pairs">The pairs, in any order.</param>
    /// <returns>One point for each pair.</returns>
    /// <remarks>Range: any number of pairs. Source: ANSI/AARST MS-QA 2019, 3.5 and Table 7.1.</remarks>
    public static IReadOnlyList<ControlPoint> Points(IEnumerable<DuplicatePair> pairs) =>
        [.. pairs
            .OrderBy(pair => pair.Day)
            .Select(pair => new ControlPoint(pair, RadonStatistics.JudgeDuplicates(pair.First, pair.Second)))];

    /// <summary>
    /// Limits from one's own pairs with an average of at least 4.0 pCi/L; null with fewer than 20 of them. Twenty pairs,
    /// half at 10 % and half at 20 %: mean 15 %, warning 25.26 %, control 30.39 %.
    /// </summary>
    /// <param name="pairs">The pairs, in any order.</param>
    /// <returns>The limits, or null.</returns>
    /// <remarks>Range: any number of pairs. Source: 20 pairs: ANSI/AARST MS-QA 2019, 3.5; two and three standard deviations: from memory.</remarks>
    public static OwnPairLimits? OwnLimits(IEnumerable<DuplicatePair> pairs)
    {
        var differences = Points(pairs)
            .Where(point => point.Finding.Mean.PciPerL >= RadonLevels.EpaActionPciPerL)
            .Select(point => point.Finding.RelativePercentDifference)
            .OfType<decimal>()
            .ToList();
        if (differences.Count < PairsForOwnLimits)
            return null;
        var mean = differences.Average();
        var deviation = SampleDeviation(differences, mean);
        return new(differences.Count, mean, mean + 2m * deviation, mean + 3m * deviation, RadonSources.OwnLimits);
    }

    private static decimal SampleDeviation(List<decimal> values, decimal mean)
    {
        var variance = values.Sum(value => (value - mean) * (value - mean)) / (values.Count - 1);
        return (decimal)Math.Sqrt((double)variance);
    }
}
