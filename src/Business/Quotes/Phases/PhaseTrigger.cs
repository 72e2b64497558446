using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Business.Quotes.Phases;

/// <summary>When a second phase is due. The result counts as it is reported: a mean of 3.95 pCi/L is reported as 4.0 and reaches 4.0.</summary>
public static class PhaseTrigger
{
    /// <summary>0.1 to 100 pCi/L, or as much in Bq/m³.</summary>
    public const decimal LeastPCiL = 0.1m, MostPCiL = 100m, LeastBqPerM3 = 4m, MostBqPerM3 = 3700m;

    public static bool IsReached(QuotePhase phase, decimal decidingPCiL)
    {
        var result = RadonConcentration.FromPciPerL(decidingPCiL);
        return (phase.Unit == RadonUnit.BqPerM3 ? result.ReportedBqPerM3 : result.ReportedPciPerL) >= phase.Level;
    }

    /// <summary>"4.0 pCi/L", "148 Bq/m³".</summary>
    public static string LevelOf(QuotePhase phase) => phase.Unit == RadonUnit.BqPerM3
        ? string.Create(CultureInfo.InvariantCulture, $"{phase.Level:0} Bq/m³")
        : string.Create(CultureInfo.InvariantCulture, $"{phase.Level:0.0} pCi/L");

    /// <summary>A result in the unit that was agreed.</summary>
    public static string ResultIn(QuotePhase phase, decimal pCiL)
    {
        var result = RadonConcentration.FromPciPerL(pCiL);
        return phase.Unit == RadonUnit.BqPerM3 ? string.Create(CultureInfo.InvariantCulture, $"{result.ReportedBqPerM3:0} Bq/m³") : result.ToString();
    }

    /// <summary>What the house owner agrees to, in two sentences.</summary>
    public static string WordsOf(QuotePhase phase, decimal taxPercent)
    {
        var tax = phase.Taxable && taxPercent > 0 ? $"{phase.Price.Percent(taxPercent)} sales tax, together {phase.Price + phase.Price.Percent(taxPercent)}" : "no sales tax";
        return $"Only if the test after the work shows {LevelOf(phase)} or more, until {HouseTime.Show(phase.ValidUntil)}: {phase.Scope.Trim().TrimEnd('.')}. Price {phase.Price} and {tax}. "
            + "If the result is lower, or that day passes, nothing more is done and nothing more is owed.";
    }
}
