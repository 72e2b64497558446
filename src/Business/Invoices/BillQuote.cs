using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Invoices.Papers;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Invoices;

/// <summary>A signed quote with its signed change orders, and what was invoiced of it so far.</summary>
public sealed class BillQuote
{
    private readonly Acceptance _signed;
    private readonly QuoteRevision _revision;
    private readonly Quote _quote;
    private readonly IReadOnlyList<Invoice> _invoices;
    private readonly IReadOnlyDictionary<int, PriceKind> _kinds;
    private readonly Scope _scope;

    private BillQuote(Acceptance signed, QuoteRevision revision, IReadOnlyList<Invoice> invoices, IReadOnlyDictionary<int, PriceKind> kinds, IReadOnlyList<ChangeOrder> changes) =>
        (_signed, _revision, _quote, _invoices, _kinds, _scope) = (signed, revision, revision.Quote!, invoices, kinds, ReadScope.Of(signed, revision, revision.Tiers.Single(t => t.Id == signed.QuoteTierId), changes));

    public static async Task<BillQuote?> ReadAsync(OfficeDb db, int acceptanceId)
    {
        if (await db.Acceptances.AsNoTracking().SingleOrDefaultAsync(a => a.Id == acceptanceId) is not { } signed) return null;
        var revision = await db.QuoteRevisions.AsNoTracking().WithPrices().Include(r => r.Quote).SingleAsync(r => r.Id == signed.QuoteRevisionId);
        var invoices = await db.Invoices.AsNoTracking().Include(i => i.Lines).Where(i => i.AcceptanceId == acceptanceId).ToListAsync();
        var kinds = await db.PriceItems.AsNoTracking().ToDictionaryAsync(p => p.Id, p => p.Kind);
        return new(signed, revision, invoices, kinds, await ReadScope.SignedAsync(db, acceptanceId));
    }

    /// <summary>The invoice of this kind that stands: not taken back line by line.</summary>
    public Invoice? Standing(InvoiceKind kind) => _invoices.FirstOrDefault(i => i.Kind == kind && !TakenBack(i));

    /// <summary>What is to be issued, without number and days; or why not.</summary>
    public (Invoice? Draft, string? Problem) Draft(InvoiceKind kind) => kind switch
    {
        InvoiceKind.Deposit => Deposit(),
        InvoiceKind.Balance => Balance(),
        _ => (null, "Only the deposit and the balance come from a quote."),
    };

    private (Invoice?, string?) Deposit()
    {
        if (_signed.Deposit <= Money.Zero) return (null, "No deposit was agreed in this quote.");
        if (Standing(InvoiceKind.Balance) is { } balance) return (null, $"The whole work is on invoice {balance.Number} already.");
        return Make(InvoiceKind.Deposit, [new InvoiceLine { Words = $"Deposit as agreed in quote {Name}", Kind = LineKind.Deposit, UnitPrice = _signed.Deposit }], []);
    }

    private (Invoice?, string?) Balance()
    {
        var lines = Work().ToList();
        InvoiceTax[] taxes = _revision.TaxPercent == 0 ? [] : [new InvoiceTax { Name = "Sales tax, as signed", Percent = _revision.TaxPercent }];
        if (AddUpInvoice.Of(lines, taxes) is var (sums, problem) && sums is null) return (null, problem);
        if (sums.Total != _scope.Total)
            return (null, $"The lines of quote {Name}{(_scope.Changes.Count > 0 ? " and its change orders" : "")} come to {sums.Total}, but {_scope.Total} was signed. Nothing else than what was signed is invoiced from a quote: write the invoice by hand.");
        if (Standing(InvoiceKind.Deposit) is { } deposit)
            lines.Add(new InvoiceLine { Words = $"Deposit invoiced before, {deposit.Number}", Kind = LineKind.Deposit, UnitPrice = Money.Zero - deposit.Total });
        return Make(InvoiceKind.Balance, lines, taxes);
    }

    private (Invoice?, string?) Make(InvoiceKind kind, List<InvoiceLine> lines, InvoiceTax[] taxes)
    {
        var (sums, problem) = AddUpInvoice.Of(lines, taxes);
        if (sums is null) return (null, problem);
        var subject = kind == InvoiceKind.Deposit ? $"Deposit, quote {Name}" : $"Radon mitigation as signed in quote {Name}{(_scope.Changes.Count > 0 ? $" and change order{(_scope.Changes.Count > 1 ? "s" : "")} {string.Join(", ", _scope.Changes.Select(c => c.Number))}" : "")}";
        var draft = IssueInvoice.Blank(kind, _quote.HouseId, _quote.CustomerId, subject, "", lines, sums, default, default);
        draft.AcceptanceId = _signed.Id;
        draft.OnceKey = $"{kind}:{_signed.Id}:{_invoices.Count(i => i.Kind == kind) + 1}";
        return (draft, null);
    }

    /// <summary>Days from issue until it is due, as they were agreed in the quote.</summary>
    public int DueDays(InvoiceKind kind) => kind == InvoiceKind.Deposit ? _revision.DepositDueDays : _revision.BalanceDueDays;

    private string Name => $"{_quote.Number} {_revision.Letter}";

    private IEnumerable<InvoiceLine> Work()
    {
        var tier = _revision.Tiers.Single(t => t.Id == _signed.QuoteTierId);
        foreach (var l in tier.Lines.OrderBy(l => l.Position))
            yield return new InvoiceLine { Words = l.Words, Kind = KindOf(l.PriceItemId), Quantity = l.Quantity, Unit = l.Unit, UnitPrice = l.UnitPrice, Taxed = l.Taxable };
        var chosen = OpenJob.Ids(_signed.AddOnIds);
        foreach (var a in _revision.AddOns.Where(a => chosen.Contains(a.Id)).OrderBy(a => a.Position).ThenBy(a => a.Id))
            yield return new InvoiceLine { Words = a.Words, Kind = KindOf(a.PriceItemId), UnitPrice = a.Price, Taxed = a.Taxable };
        foreach (var change in _scope.Changes)
            foreach (var l in change.Lines.OrderBy(l => l.Position))
                yield return new InvoiceLine { Words = $"{change.Number}. {ChangePaper.Words(l)}", Kind = KindOf(l.PriceItemId), UnitPrice = l.Difference, Taxed = l.Taxable };
        foreach (var d in _scope.Discounts)
        {
            if (d.Taxed != Money.Zero) yield return new InvoiceLine { Words = d.Words, Kind = LineKind.Other, UnitPrice = Money.Zero - d.Taxed, Taxed = true };
            if (d.Untaxed != Money.Zero) yield return new InvoiceLine { Words = d.Taxed == Money.Zero ? d.Words : $"{d.Words} (on what is not taxed)", Kind = LineKind.Other, UnitPrice = Money.Zero - d.Untaxed };
        }
    }

    private LineKind KindOf(int? priceItemId) => priceItemId is { } id && _kinds.TryGetValue(id, out var kind)
        ? kind switch { PriceKind.Material => LineKind.Material, PriceKind.Labour => LineKind.Labour, PriceKind.Subcontract => LineKind.Subcontract, PriceKind.Permit => LineKind.Permit, _ => LineKind.Other }
        : LineKind.Other;

    private bool TakenBack(Invoice invoice)
    {
        var taken = _invoices.Where(c => c.CreditsInvoiceId == invoice.Id).SelectMany(c => c.Lines).Select(l => l.CreditsLineId).ToHashSet();
        return invoice.Lines.All(l => taken.Contains(l.Id));
    }
}
