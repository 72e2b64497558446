using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Invoices.Changes;

/// <summary>One line of the work as it stands.</summary>
/// <param name="Key">"quote:12", "addition:5" or "change:7".</param>
public sealed record ScopeLine(string Key, string Words, decimal Quantity, string Unit, Money UnitPrice, Money Amount, bool Taxable, int? PriceItemId);

/// <summary>The work of a signed quote with all signed change orders, and what it comes to.</summary>
/// <param name="Discounts">Those of the quote, in the cents that were signed; a change order leaves them as they are.</param>
public sealed record Scope(int AcceptanceId, string AcceptanceHash, decimal TaxPercent, IReadOnlyList<ScopeLine> Lines, IReadOnlyList<DiscountTaken> Discounts, Money Total, IReadOnlyList<ChangeOrder> Changes)
{
    public Money Net => Lines.Select(l => l.Amount).Sum() - Discounts.Select(d => d.Amount).Sum();

    /// <summary>Net, tax and total with these lines changed: the tax once on all that is taxed, as an invoice has it.</summary>
    public (Money Net, Money Tax, Money Total) After(IReadOnlyCollection<ChangeLine> changes)
    {
        var net = Net + changes.Select(c => c.Difference).Sum();
        var taxable = Lines.Where(l => l.Taxable).Select(l => l.Amount).Sum() - Discounts.Select(d => d.Taxed).Sum() + changes.Where(c => c.Taxable).Select(c => c.Difference).Sum();
        var tax = taxable.Percent(TaxPercent);
        return (net, tax, net + tax);
    }
}

/// <summary>Reads what the work is, now.</summary>
public static class ReadScope
{
    /// <summary>Four statements.</summary>
    public static async Task<Scope?> OfAsync(OfficeDb db, int acceptanceId)
    {
        if (await db.Acceptances.AsNoTracking().SingleOrDefaultAsync(a => a.Id == acceptanceId) is not { } signed) return null;
        var tier = await db.Set<QuoteTier>().AsNoTracking().Include(t => t.Lines).AsSingleQuery().SingleAsync(t => t.Id == signed.QuoteTierId);
        var revision = await db.QuoteRevisions.AsNoTracking().Include(r => r.AddOns).AsSingleQuery().SingleAsync(r => r.Id == signed.QuoteRevisionId);
        return Of(signed, revision, tier, await SignedAsync(db, acceptanceId));
    }

    public static Task<List<ChangeOrder>> SignedAsync(OfficeDb db, int acceptanceId) =>
        db.ChangeOrders.AsNoTracking().Include(c => c.Lines).AsSingleQuery().Where(c => c.AcceptanceId == acceptanceId && c.State == ChangeState.Agreed).OrderBy(c => c.Position).ToListAsync();

    /// <param name="revision">With its add-ons.</param>
    /// <param name="tier">The one that was chosen, with its lines.</param>
    /// <param name="changes">Those that were signed.</param>
    public static Scope Of(Acceptance acceptance, QuoteRevision revision, QuoteTier tier, IReadOnlyList<ChangeOrder> changes)
    {
        var chosen = OpenJob.Ids(acceptance.AddOnIds);
        var added = revision.AddOns.Where(a => chosen.Contains(a.Id)).OrderBy(a => a.Position).ThenBy(a => a.Id).ToList();
        List<ScopeLine> work =
        [
            .. tier.Lines.OrderBy(l => l.Position).Select(l => new ScopeLine($"quote:{l.Id}", l.Words, l.Quantity, l.Unit, l.UnitPrice, l.Amount, l.Taxable, l.PriceItemId)),
            .. added.Select(a => new ScopeLine($"addition:{a.Id}", a.Words, 1, "each", a.Price, a.Price, a.Taxable, a.PriceItemId)),
        ];
        foreach (var line in changes.OrderBy(c => c.Position).SelectMany(c => c.Lines.OrderBy(l => l.Position))) Apply(work, line);
        var total = changes.Count == 0 ? acceptance.Total : changes.MaxBy(c => c.Position)!.NewTotal;
        return new(acceptance.Id, acceptance.Hash, revision.TaxPercent, work, PriceQuote.Of(revision, tier, added).Discounts, total, changes);
    }

    private static void Apply(List<ScopeLine> lines, ChangeLine change)
    {
        var now = new ScopeLine($"change:{change.Id}", change.Words, change.Quantity, change.Unit, change.UnitPrice, change.Amount, change.Taxable, change.PriceItemId);
        var at = lines.FindIndex(l => l.Key == change.Of);
        if (change.Kind == ChangeKind.Added) lines.Add(now);
        else if (at >= 0 && change.Kind == ChangeKind.TakenOut) lines.RemoveAt(at);
        else if (at >= 0) lines[at] = now;
    }
}
