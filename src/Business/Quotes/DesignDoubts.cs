using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Report;

namespace MitigationOffice.Business.Quotes;

/// <summary>What the designs that a quote stands on leave open, by their stored reports: no reason to hold the quote, but one to look before
/// a price goes out for it.</summary>
public static class DesignDoubts
{
    /// <param name="design">Its letter.</param>
    /// <param name="reportJson">Its stored report; null where it has none.</param>
    public static IEnumerable<QuoteGap> Of(string design, string? reportJson) =>
        ComputeDesign.Stored(reportJson) is { } report ? Of(report, $"Design {design}") : [new($"Design {design} has not been computed.", "House.Design")];

    private static IEnumerable<QuoteGap> Of(DesignReport report, string design)
    {
        if (report.Shown is not { } fan) yield return new($"{design}: no fan of the catalogue runs on it.", "House.Design");
        else if (!fan.Holds) yield return new($"{design}: the {fan.Model} does not hold. {fan.Why}", "House.Design");
        foreach (var rule in report.Siting?.Rules.Where(r => r is { Outcome: "fails", Advisory: false }) ?? [])
            yield return new($"{design}: its mouth or fan fails a rule. {rule.Rule} ({rule.Source}) {rule.Why}", "House.Design");
    }
}
