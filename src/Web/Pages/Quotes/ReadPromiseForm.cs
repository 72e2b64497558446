using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Quotes;

/// <summary>Reads discounts, guarantee and second phase of a typed draft.</summary>
/// <param name="costs">Whether the person may see and write costs.</param>
public sealed class ReadPromiseForm(QuoteForm form, FormReading read, bool costs)
{
    public void Into(QuoteRevision r)
    {
        (r.DiscountPercent, r.DiscountAmount, r.DiscountReason) = Discount(read, "", form.DiscountPercent, form.DiscountAmount, form.DiscountReason);
        r.GuaranteePCiL = read.Number(form.GuaranteePCiL, nameof(form.GuaranteePCiL), "guaranteed level", 0, 20);
        r.GuaranteeMonths = read.Whole(form.GuaranteeMonths, nameof(form.GuaranteeMonths), "number of months", 0, 240) ?? 0;
        r.GuaranteeVisits = read.Whole(form.GuaranteeVisits, nameof(form.GuaranteeVisits), "number of free visits", 0, 50) ?? 0;
        r.GuaranteeConditions = read.Text(form.GuaranteeConditions, nameof(form.GuaranteeConditions), "conditions", most: 4000);
        Phase(r);
    }

    public static (decimal Percent, Money Amount, string Reason) Discount(FormReading read, string at, string? percent, string? amount, string? reason)
    {
        var share = read.Number(percent, $"{at}DiscountPercent", "discount", 0, 100) ?? 0;
        var off = read.Money(amount, $"{at}DiscountAmount", "discount") ?? Money.Zero;
        if (share > 0 && off > Money.Zero) read.Refuse($"{at}DiscountAmount", "Write the discount as a share or as an amount, not both.");
        return (share, off, read.Text(reason, $"{at}DiscountReason", "reason of the discount", most: 200));
    }

    private void Phase(QuoteRevision r)
    {
        var typed = form.Phase;
        if (string.IsNullOrWhiteSpace(typed.Scope + typed.Price))
        {
            r.Phase = null;
            return;
        }

        var phase = r.Phase ??= new QuotePhase();
        var bq = typed.Unit == RadonUnit.BqPerM3;
        phase.Unit = typed.Unit;
        phase.Level = (bq ? read.Number(typed.Level, "Phase.Level", "result", PhaseTrigger.LeastBqPerM3, PhaseTrigger.MostBqPerM3, needed: true)
            : read.Number(typed.Level, "Phase.Level", "result", PhaseTrigger.LeastPCiL, PhaseTrigger.MostPCiL, needed: true)) ?? phase.Level;
        if (phase.Level != Math.Round(phase.Level, bq ? 0 : 1, MidpointRounding.AwayFromZero)) read.Refuse("Phase.Level", bq ? "Results are reported in whole Bq/m³; write a whole number." : "Results are reported in tenths of a pCi/L; write one decimal at most.");
        phase.Scope = read.Text(typed.Scope, "Phase.Scope", "work of the second phase", most: 4000);
        phase.Price = read.Money(typed.Price, "Phase.Price", "price of the second phase") ?? Money.Zero;
        if (costs) phase.Cost = read.Money(typed.Cost, "Phase.Cost", "cost of the second phase") ?? Money.Zero;
        phase.Taxable = typed.Taxable;
        phase.ValidUntil = string.IsNullOrWhiteSpace(typed.ValidUntil) ? (r.ValidUntil ?? DateOnly.FromDateTime(r.CreatedAtUtc)).AddYears(1) : read.Day(typed.ValidUntil, "Phase.ValidUntil", "last day of the second phase");
    }
}
