using System.Globalization;
using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Siting;

/// <summary>Rectangular downspout used as an outdoor vent.</summary>
public static class SmallDuct
{
    /// <summary>A downspout smaller than 3 by 4 in may carry no more than this, cfm.</summary>
    public const decimal MostFlowCfm = 40m;

    /// <summary>Source of the rule.</summary>
    public static readonly Citation Source = new("ANSI/AARST SGM-SF 2017, 6.3.7", Certainty.Published);

    /// <summary>
    /// Judges a downspout. Smaller than 3 by 4 in it is allowed only where the pressure field analysis shows that the whole
    /// system needs no more than 40 cfm: 2 by 3 with 45 cfm fails, with 40 cfm by analysis passes.
    /// </summary>
    /// <param name="sideIn">One side, inches.</param>
    /// <param name="otherSideIn">The other side, inches.</param>
    /// <param name="systemFlowCfm">Flow the whole system needs by the pressure field analysis, cfm; null where there is none.</param>
    /// <returns>The finding.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A side outside 0.5 to 24 in, or a flow outside 0 to 2000 cfm.</exception>
    /// <remarks>Range: sides 0.5 to 24 in; flow 0 to 2000 cfm. Source: ANSI/AARST SGM-SF 2017, 6.3.7.</remarks>
    public static SitingFinding Judge(decimal sideIn, decimal otherSideIn, decimal? systemFlowCfm)
    {
        Require.InRange(sideIn, 0.5m, 24m, "in", "The side of the downspout");
        Require.InRange(otherSideIn, 0.5m, 24m, "in", "The side of the downspout");
        Require.InRange(systemFlowCfm ?? 0m, 0m, 2000m, "cfm", "The flow of the system");
        var (outcome, why) = Verdict(IsSmall(sideIn, otherSideIn), systemFlowCfm);
        return new("small-duct",
            "A downspout smaller than 3 by 4 in is used only where the pressure field analysis shows a system flow of at most 40 cfm.",
            outcome, why, false, Source);
    }

    private static bool IsSmall(decimal sideIn, decimal otherSideIn) =>
        Math.Min(sideIn, otherSideIn) < 3m || Math.Max(sideIn, otherSideIn) < 4m;

    private static (SitingOutcome, string) Verdict(bool isSmall, decimal? flowCfm)
    {
        if (!isSmall)
            return (SitingOutcome.Passed, "The downspout is 3 by 4 in or larger.");
        if (flowCfm is not { } flow)
            return (SitingOutcome.NotEnoughData, "Not enough data: there is no flow from a pressure field analysis.");
        return (flow <= MostFlowCfm ? SitingOutcome.Passed : SitingOutcome.Failed,
            string.Create(CultureInfo.InvariantCulture, $"The analysis shows {flow:0.##} cfm."));
    }
}
