using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes.Phases;

namespace MitigationOffice.Business.Quotes;

/// <summary>What a guarantee and a second phase must say: the level, the conditions, what will be done, until when.</summary>
internal static class CheckPromise
{
    public static IEnumerable<QuoteGap> Gaps(QuoteRevision r)
    {
        if (r.GuaranteePCiL is not { } level) yield return new("Write the radon level that is guaranteed, or 0 where none is.", nameof(r.GuaranteePCiL));
        else if (level > 0)
        {
            if (r.GuaranteeMonths < 1) yield return new("Write for how many months the level is guaranteed.", nameof(r.GuaranteeMonths));
            if (string.IsNullOrWhiteSpace(r.GuaranteeConditions)) yield return new("Write the conditions of the guarantee.", nameof(r.GuaranteeConditions));
        }
    }

    public static IEnumerable<QuoteGap> PhaseGaps(QuoteRevision r, DateOnly today)
    {
        if (r.Phase is not { } p) yield break;
        var (least, most) = p.Unit == RadonUnit.BqPerM3 ? (PhaseTrigger.LeastBqPerM3, PhaseTrigger.MostBqPerM3) : (PhaseTrigger.LeastPCiL, PhaseTrigger.MostPCiL);
        if (p.Level < least || p.Level > most) yield return new($"Write the result from which the second phase is due, {TypedNumbers.Plain(least)} to {TypedNumbers.Plain(most)} {(p.Unit == RadonUnit.BqPerM3 ? "Bq/m³" : "pCi/L")}.", "Phase_Level");
        if (string.IsNullOrWhiteSpace(p.Scope)) yield return new("Write what is done in the second phase.", "Phase_Scope");
        if (p.Price <= Money.Zero) yield return new("Write what the second phase costs.", "Phase_Price");
        if (p.ValidUntil is null) yield return new("Write until when the second phase holds.", "Phase_ValidUntil");
        else if (p.ValidUntil <= today || p.ValidUntil <= r.ValidUntil) yield return new("The second phase must hold longer than the quote: work and test come after the signature.", "Phase_ValidUntil");
    }
}
