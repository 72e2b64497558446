using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Invoices.Changes;

/// <summary>One line of the work as it stands.</summary>
/// <param name="Key">"quote:12", "addition:5" or "change:7".</param>
public sealed record ScopeLine(string Key, string Words, decimal Quantity, string Unit, Money UnitPrice, Money Amount, bool Taxable, int? PriceItemId);

/// <summary>The work of a signed quote with all signed change orders, and what it comes to.</summary>
public sealed record Scope(int AcceptanceId, string AcceptanceHash, decimal TaxPercent, IReadOnlyList<ScopeLine> Lines, Money Total, IReadOnlyList<ChangeOrder> Changes)
{
    public Money Net => Lines.Select(l => l.Amount).Sum();

    /// <summary>Net, tax and total with these lines changed: the tax once on all that is taxed, as an invoice has it.</summary>
    public (Money Net, Money Tax, Money Total) After(IReadOnlyCollection<ChangeLine> changes)
    {
        var net = Net + changes.Select(c => c.Difference).Sum();
        var taxable = Lines.Where(l => l.Taxable).Select(l => l.Amount).Sum() + changes.Where(c => c.Taxable).Select(c => c.Difference).Sum();
        var tax = taxable.Percent(TaxPercent);
        return (net, tax, net + tax);
    }
}

/// <summary>Reads what the work is, now.</summary>
public static class ReadScope
{
    public static async Task<Scope?> OfAsync(OfficeDb db, int acceptanceId)
    {
        if (await db.Acceptances.AsNoTracking().SingleOrDefaultAsync(a => a.Id == acceptanceId) is not { } signed) return null;
        var revision = await db.QuoteRevisions.AsNoTracking().WithPrices().SingleAsync(r => r.Id == signed.QuoteRevisionId);
        return Of(signed, revision, await SignedAsync(db, acceptanceId));
    }

    public static Task<List<ChangeOrder>> SignedAsync(OfficeDb db, int acceptanceId) =>
        db.ChangeOrders.AsNoTracking().Include(c => c.Lines).Where(c => c.AcceptanceId == acceptanceId && c.State == ChangeState.Agreed).OrderBy(c => c.Position).ToListAsync();

    public static Scope Of(Acceptance acceptance, QuoteRevision revision, IReadOnlyList<ChangeOrder> changes)
    {
        var lines = Quoted(acceptance, revision).ToList();
        foreach (var line in changes.OrderBy(c => c.Position).SelectMany(c => c.Lines.OrderBy(l => l.Position))) Apply(lines, line);
        return new(acceptance.Id, acceptance.Hash, revision.TaxPercent, lines, changes.Count == 0 ? acceptance.Total : changes.MaxBy(c => c.Position)!.NewTotal, changes);
    }

    private static IEnumerable<ScopeLine> Quoted(Acceptance signed, QuoteRevision revision)
    {
        foreach (var l in revision.Tiers.Single(t => t.Id == signed.QuoteTierId).Lines.OrderBy(l => l.Position))
            yield return new($"quote:{l.Id}", l.Words, l.Quantity, l.Unit, l.UnitPrice, l.Amount, l.Taxable, l.PriceItemId);
        var chosen = OpenJob.Ids(signed.AddOnIds);
        foreach (var a in revision.AddOns.Where(a => chosen.Contains(a.Id)).OrderBy(a => a.Position).ThenBy(a => a.Id))
            yield return new($"addition:{a.Id}", a.Words, 1, "each", a.Price, a.Price, a.Taxable, a.PriceItemId);
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
