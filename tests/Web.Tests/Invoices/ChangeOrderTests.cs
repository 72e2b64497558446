using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Web.Tests.Offer;
using MitigationOffice.Web.Tests.Quotes;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Invoices;

/// <summary>What a change order does to the price, once, provably.</summary>
public sealed class ChangeOrderTests(OfferOffice office) : IClassFixture<OfferOffice>
{
    [Fact]
    public async Task The_last_invoice_comes_to_the_quote_and_all_signed_changes()
    {
        var sale = await office.SignedSaleAsync();
        var scope = (await office.WithDbAsync(db => ReadScope.OfAsync(db, sale.AcceptanceId)))!;
        var (pit, pipe) = (scope.Lines.First(l => l.Words.StartsWith("Suction point", StringComparison.Ordinal)), scope.Lines.First(l => l.Taxable));
        var first = await office.SentChangeAsync(sale, ChangeVerbs.Added(123.45m), new ChangeLine { Kind = ChangeKind.Changed, Of = pipe.Key, Words = pipe.Words, Quantity = pipe.Quantity + 7, Unit = pipe.Unit, UnitPrice = pipe.UnitPrice, Priced = true });
        Assert.True((await office.SignChangeAsync(first)).SignatureId > 0);
        var second = await office.SentChangeAsync(sale, new ChangeLine { Kind = ChangeKind.TakenOut, Of = pit.Key, Priced = true }, ChangeVerbs.Added(-20, "For the waiting"));
        Assert.True((await office.SignChangeAsync(second)).SignatureId > 0);
        await office.SentChangeAsync(sale, ChangeVerbs.Added(9_999));

        // By hand from the lines: net and taxed parts with both changes, the tax once, half away from zero.
        var net = scope.Net.Cents + 12_345 + (pipe.UnitPrice.Cents * 7) - pit.Amount.Cents - 2_000;
        var taxed = scope.Lines.Where(l => l.Taxable).Sum(l => l.Amount.Cents) + 12_345 + (pipe.UnitPrice.Cents * 7) - 2_000;
        var expected = net + (long)Math.Round(taxed * 0.06875m, 0, MidpointRounding.AwayFromZero);
        var (one, two) = (await office.ChangeAsync(first.ChangeId), await office.ChangeAsync(second.ChangeId));
        Assert.Equal((sale.Total, one.NewTotal, expected), (one.OldTotal, two.OldTotal, two.NewTotal.Cents));
        Assert.EndsWith("-1", one.Number, StringComparison.Ordinal);
        await office.IssueAsync(sale, InvoiceKind.Deposit);
        Assert.Empty((await office.IssueAsync(sale, InvoiceKind.Balance)).Refusals);
        var all = await office.WithDbAsync(db => db.Invoices.AsNoTracking().Include(i => i.Lines).Where(i => i.HouseId == sale.HouseId).ToListAsync());
        Assert.Equal(expected, all.Select(i => i.Total).Sum().Cents);
        Assert.Contains(all.SelectMany(i => i.Lines), l => l.Words == $"{two.Number}. Taken out: {pit.Words}" && l.Amount == Money.Zero - pit.Amount);
    }

    [Fact]
    public async Task Discounts_of_the_quote_stay_in_its_changes_and_in_the_last_invoice()
    {
        var draft = await office.DraftedQuoteAsync();
        var (all, taxed) = await office.WithDbAsync(async db =>
        {
            var r = await db.QuoteRevisions.WithPrices().SingleAsync(x => x.Id == draft.RevisionId);
            (r.DiscountAmount, r.DiscountReason) = (Money.FromDollars(33.33m), "A neighbour of ours");
            var tier = r.Tiers.OrderBy(t => t.Position).ElementAt(1);
            (tier.DiscountPercent, tier.DiscountReason) = (7.5m, "Work in the slack months");
            await db.SaveChangesAsync();
            return (tier.Lines.Sum(l => l.Amount.Cents), tier.Lines.Where(l => l.Taxable).Sum(l => l.Amount.Cents));
        });
        var offer = await office.SendAsync(draft);
        var signed = await office.AcceptedQuoteAsync(offer);
        var customer = await office.WithDbAsync(db => db.Quotes.Where(q => q.Id == offer.QuoteId).Select(q => q.CustomerId).SingleAsync());
        var sale = new SignedSale(offer.HouseId, customer, signed.Id, signed.Total, signed.Deposit);
        var change = await office.SentChangeAsync(sale, ChangeVerbs.Added(123.45m));
        Assert.True((await office.SignChangeAsync(change)).SignatureId > 0);

        // By hand: each discount once in cents, its taxed share in proportion; the change after them; the tax once.
        static long Half(decimal cents) => (long)Math.Round(cents, MidpointRounding.AwayFromZero);
        var first = Half(all * 0.075m);
        var firstTaxed = Half((decimal)first * taxed / all);
        var secondTaxed = Half(3_333m * (taxed - firstTaxed) / (all - first));
        var (net, ofTax) = (all - first - 3_333 + 12_345, taxed - firstTaxed - secondTaxed + 12_345);
        var expected = net + Half(ofTax * 0.06875m);
        Assert.Equal(expected, (await office.ChangeAsync(change.ChangeId)).NewTotal.Cents);
        var issued = await office.IssueAsync(sale, InvoiceKind.Balance);
        Assert.Equal(expected, await office.WithDbAsync(db => db.Invoices.Where(v => v.Id == issued.InvoiceId).Select(v => v.Total.Cents).SingleAsync()));
    }

    [Fact]
    public async Task Fifty_who_sign_at_once_make_exactly_one_signature()
    {
        var change = await office.SentChangeAsync();
        var all = await Task.WhenAll(Enumerable.Range(0, 50).Select(i => Task.Run(() => office.SignChangeAsync(change, $"Signer {(char)('A' + i % 26)}{i}"))));
        Assert.Single(all, o => o.SignatureId > 0);
        Assert.All(all, o => Assert.Equal(ChangeLinkState.Agreed, o.State));
        Assert.Equal(1, await office.WithDbAsync(db => db.ChangeSignatures.CountAsync(s => s.ChangeOrderId == change.ChangeId)));
        Assert.Equal(1, await office.WithDbAsync(db => db.Outbox.CountAsync(m => m.Key == $"change-signed:{change.ChangeId}")));
        Assert.Empty((await office.WithDbAsync(db => VerifyChanges.RunAsync(db))).Problems);
    }

    [Fact]
    public async Task The_signed_copy_says_what_was_agreed_and_is_mailed_as_it_is_kept()
    {
        var change = await office.SentChangeAsync();
        await office.SignChangeAsync(change, "Rosalind Quill");
        var (order, signature) = (await office.ChangeAsync(change.ChangeId), await office.WithDbAsync(db => db.ChangeSignatures.AsNoTracking().SingleAsync(s => s.ChangeOrderId == change.ChangeId)));
        var paper = await office.WithDbAsync(db => db.Documents.AsNoTracking().SingleAsync(d => d.Id == signature.SignedDocumentId));
        using var pdf = PdfDocument.Open(paper.Bytes);
        var text = string.Concat(pdf.GetPages().Select(p => p.Text)).Replace(" ", "", StringComparison.Ordinal);
        Assert.All([order.Number, $"{order.OldTotal}", $"+{order.Difference}", $"{order.NewTotal}", "Sealedlidoverthepit", "RosalindQuill", signature.PdfSha256, "192.0.2.7"], w => Assert.Contains(w.Replace(" ", "", StringComparison.Ordinal), text, StringComparison.Ordinal));
        Assert.True(paper.SizeBytes < 200_000);
        Assert.Equal((change.Sale.Total, order.NewTotal), (signature.OldTotal, signature.NewTotal));
    }

    [Theory]
    [InlineData("row")]
    [InlineData("line")]
    [InlineData("shown")]
    [InlineData("copy")]
    [InlineData("state")]
    public async Task Every_change_of_a_signed_change_order_is_found(string what)
    {
        var change = await office.SentChangeAsync();
        await office.SignChangeAsync(change);
        var s = await office.WithDbAsync(db => db.ChangeSignatures.AsNoTracking().SingleAsync(x => x.ChangeOrderId == change.ChangeId));
        await TamperAsync(what, change.ChangeId, s, undo: false);
        var found = await office.WithDbAsync(db => VerifyChanges.RunAsync(db));
        await TamperAsync(what, change.ChangeId, s, undo: true);
        Assert.Contains(found.Problems, p => p.Contains(s.Number, StringComparison.Ordinal));
        Assert.Empty((await office.WithDbAsync(db => VerifyChanges.RunAsync(db))).Problems);
    }

    [Fact]
    public async Task After_the_last_invoice_and_after_a_cancellation_nothing_is_changed_any_more()
    {
        var change = await office.SentChangeAsync();
        var balance = await office.IssueAsync(change.Sale, InvoiceKind.Balance);
        Assert.Equal(ChangeLinkState.Closed, (await office.SignChangeAsync(change)).State);
        var refused = await office.WithDbAsync(db => DraftChange.BeginAsync(db, change.JobId, office.Clock.GetUtcNow().UtcDateTime, "x"));
        Assert.Contains(balance.Number, refused.Refusals[0].Words, StringComparison.Ordinal);
        var other = await office.SentChangeAsync();
        await office.WithDbAsync(async db => await CancelSale.RunAsync(db, other.Sale.AcceptanceId, new(2026, 3, 2), new(2026, 3, 2), "", await office.IssuerAsync(db)));
        Assert.Equal(ChangeLinkState.Closed, (await office.SignChangeAsync(other)).State);
    }

    [Fact]
    public async Task An_invoice_of_the_whole_work_and_a_signature_never_cross()
    {
        for (var i = 0; i < 4; i++)
        {
            var change = await office.SentChangeAsync();
            var (signing, issuing) = (Task.Run(() => office.SignChangeAsync(change)), Task.Run(() => office.IssueAsync(change.Sale, InvoiceKind.Balance)));
            var (outcome, issued) = (await signing, await issuing);
            var total = await office.WithDbAsync(db => db.Invoices.Where(x => x.Id == issued.InvoiceId).Select(x => new Money(x.Total.Cents)).SingleAsync());
            Assert.Equal(outcome.SignatureId > 0 ? (await office.ChangeAsync(change.ChangeId)).NewTotal : change.Sale.Total, total);
        }
    }

    [Fact]
    public async Task What_is_not_in_order_is_refused_in_words()
    {
        var sale = await office.SignedSaleAsync();
        Assert.Contains("has no price yet", await RefusedAsync(await office.DraftedChangeAsync(sale, new ChangeLine { Kind = ChangeKind.Added, Words = "A thing" })), StringComparison.Ordinal);
        Assert.Contains("No more can be taken off", await RefusedAsync(await office.DraftedChangeAsync(sale, ChangeVerbs.Added(-100_000))), StringComparison.Ordinal);
        Assert.Contains("more than $10,000,000.00", await RefusedAsync(await office.DraftedChangeAsync(sale, ChangeVerbs.Added(90_000_000_000_000))), StringComparison.Ordinal);
        Assert.Contains("not part of the work any more", await RefusedAsync(await office.DraftedChangeAsync(sale, new ChangeLine { Kind = ChangeKind.TakenOut, Of = "quote:999999", WasWords = "x" })), StringComparison.Ordinal);
    }

    private async Task<string> RefusedAsync(ChangeAtHand change)
    {
        var version = await office.VersionAsync(change.ChangeId);
        var sent = await office.WithDbAsync(async db => await SendChange.RunAsync(db, change.ChangeId, version, null, await Quotes.QuoteVerbs.LetterheadAsync(office, db), office.Clock.GetUtcNow().UtcDateTime, "x"));
        Assert.Null(sent.Token);
        return sent.Refusals[0].Words;
    }

    private Task TamperAsync(string what, int id, ChangeSignature s, bool undo) => office.WithDbAsync(async db =>
    {
        switch (what)
        {
            case "row": await db.ChangeSignatures.Where(x => x.Id == s.Id).ExecuteUpdateAsync(x => x.SetProperty(y => y.TypedName, undo ? s.TypedName : "Somebody Else")); break;
            case "line": await db.Database.ExecuteSqlAsync($"UPDATE \"ChangeLine\" SET \"UnitPrice_Cents\" = \"UnitPrice_Cents\" + {(undo ? -1 : 1)} WHERE \"ChangeOrderId\" = {id}"); break;
            case "state": await db.ChangeOrders.Where(x => x.Id == id).ExecuteUpdateAsync(x => x.SetProperty(y => y.State, undo ? ChangeState.Agreed : ChangeState.Sent)); break;
            default:
                var at = what == "shown" ? s.PdfDocumentId : s.SignedDocumentId;
                var bytes = await db.Documents.Where(d => d.Id == at).Select(d => d.Bytes).SingleAsync();
                bytes[bytes.Length / 2] ^= 1;
                await db.Documents.Where(d => d.Id == at).ExecuteUpdateAsync(d => d.SetProperty(x => x.Bytes, bytes));
                break;
        }
    });
}
