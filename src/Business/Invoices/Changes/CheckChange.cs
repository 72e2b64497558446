using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Invoices.Changes;

/// <summary>What stands against a change order.</summary>
public static class CheckChange
{
    public const int MostLines = 60;

    /// <summary>Why nothing of this job can be changed any more, or null.</summary>
    public static async Task<string?> ClosedAsync(OfficeDb db, int acceptanceId)
    {
        var lines = db.Set<InvoiceLine>();
        var at = await db.Acceptances.Where(a => a.Id == acceptanceId).Select(a => new
        {
            Cancelled = db.CancelledSales.Any(c => c.AcceptanceId == a.Id),
            Final = db.Invoices.Where(i => i.AcceptanceId == a.Id && i.Kind == InvoiceKind.Balance && i.Lines.Any(l => !lines.Any(c => c.CreditsLineId == l.Id))).Select(i => i.Number).FirstOrDefault(),
            CalledOff = db.Jobs.Where(j => j.AcceptanceId == a.Id && j.State == JobState.CalledOff).Select(j => j.Number).FirstOrDefault(),
        }).SingleAsync();
        if (at.Cancelled) return "The buyer cancelled this contract; there is nothing left to change.";
        if (at.Final is not null) return $"The whole work is on invoice {at.Final} already. Take that invoice back first, or write a new one by hand for what came later.";
        return at.CalledOff is null ? null : $"Job {at.CalledOff} is called off. Take that back first.";
    }

    /// <summary>What is not in order in the lines, by field. Fills in what the changed lines were.</summary>
    public static List<Refusal> Lines(ChangeOrder order, Scope scope)
    {
        var refusals = new List<Refusal>();
        if (order.Reason.Length == 0) refusals.Add(new(nameof(ChangeOrder.Reason), "Write why the work changes; the customer reads it."));
        if (order.Lines.Count == 0) refusals.Add(new("", "Add a line, or change or take out one: there is nothing to sign yet."));
        if (order.Lines.Count > MostLines) refusals.Add(new("", $"A change order holds at most {MostLines} lines. Gather small parts in one line, or send a new quote."));
        foreach (var twice in order.Lines.Where(l => l.Of.Length > 0).GroupBy(l => l.Of).Where(g => g.Count() > 1))
            refusals.Add(new("", $"“{twice.First().WasWords}” is changed twice. Leave one of the two."));
        foreach (var line in order.Lines.Where(l => l.Kind != ChangeKind.Added)) Was(line, scope, refusals);
        foreach (var line in order.Lines.Where(l => l.Kind != ChangeKind.TakenOut && !l.Priced))
            refusals.Add(new("Price", $"“{line.Words}” has no price yet. The office writes it before it is signed."));
        if (refusals.Count == 0) refusals.AddRange(Sums(order, scope));
        return refusals;
    }

    private static void Was(ChangeLine line, Scope scope, List<Refusal> refusals)
    {
        if (scope.Lines.FirstOrDefault(l => l.Key == line.Of) is { } was) (line.WasWords, line.WasAmount, line.Taxable, line.PriceItemId) = (was.Words, was.Amount, was.Taxable, was.PriceItemId);
        else refusals.Add(new("", $"“{line.WasWords}” is not part of the work any more. Take that line out of the change."));
    }

    private static IEnumerable<Refusal> Sums(ChangeOrder order, Scope scope)
    {
        if (scope.After([]).Total != scope.Total) return [new("", $"The lines of this work come to {scope.After([]).Total}, but {scope.Total} was signed. Agree the change by a new quote.")];
        try
        {
            var (net, tax, total) = scope.After(order.Lines);
            if (total < Money.Zero || net < Money.Zero) return [new("", $"The work would come to {total}. No more can be taken off than was signed.")];
            if (total > AddUpInvoice.MostTotal) return [new("", $"The work would come to more than {AddUpInvoice.MostTotal}. Look at the quantities and prices.")];
            (order.OldTotal, order.Net, order.Tax, order.NewTotal) = (scope.Total, net, tax, total);
            return [];
        }
        catch (OverflowException)
        {
            return [new("", $"The work would come to more than {AddUpInvoice.MostTotal}. Look at the quantities and prices.")];
        }
    }
}
