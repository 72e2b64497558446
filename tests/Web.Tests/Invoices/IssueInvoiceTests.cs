using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Web.Tests.Messages;
using MitigationOffice.Web.Tests.Quotes;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Invoices;

/// <summary>What is issued, once, and cannot be changed.</summary>
public sealed class IssueInvoiceTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task Deposit_and_balance_together_are_what_was_signed()
    {
        var sale = await office.SignedSaleAsync();
        var (deposit, balance) = (await office.IssueAsync(sale, InvoiceKind.Deposit), await office.IssueAsync(sale, InvoiceKind.Balance));
        var all = await office.WithDbAsync(db => db.Invoices.AsNoTracking().Include(i => i.Lines).Include(i => i.Taxes).Where(i => i.HouseId == sale.HouseId).ToListAsync());
        Assert.Equal(sale.Deposit, all.Single(i => i.Id == deposit.InvoiceId).Total);
        Assert.Equal(sale.Total, all.Select(i => i.Total).Sum());
        var whole = all.Single(i => i.Id == balance.InvoiceId);
        Assert.Equal(6.875m, Assert.Single(whole.Taxes).Percent);
        Assert.Contains(whole.Lines, l => l.Kind == LineKind.Deposit && l.Amount == Money.Zero - sale.Deposit && l.Words.Contains(deposit.Number, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Fifty_who_issue_one_balance_at_once_make_exactly_one()
    {
        var sale = await office.SignedSaleAsync();
        var all = await Task.WhenAll(Enumerable.Range(0, 50).Select(_ => Task.Run(() => office.IssueAsync(sale, InvoiceKind.Balance, mail: true))));
        Assert.Single(all, i => i is { InvoiceId: > 0, Already: false });
        Assert.Equal(49, all.Count(i => i.Already));
        Assert.Single(all.Select(i => i.Number).Distinct());
        Assert.Equal(1, await office.WithDbAsync(db => db.Invoices.CountAsync(i => i.AcceptanceId == sale.AcceptanceId)));
        Assert.Equal(1, await office.WithDbAsync(db => db.Outbox.CountAsync(m => m.Key == $"invoice:{all[0].Number}:1")));
    }

    [Fact]
    public async Task Numbers_have_no_gap_when_many_issue_at_once_and_some_fail()
    {
        var sale = await office.SignedSaleAsync();
        await Task.WhenAll(Enumerable.Range(0, 20).Select(i => Task.Run(async () =>
        {
            if (i % 3 == 0) await Assert.ThrowsAsync<InvalidOperationException>(() => RolledBackAsync(sale));
            else Assert.Empty((await office.IssueFreeAsync(sale, 10 + i)).Refusals);
        })));
        var findings = await office.WithDbAsync(db => VerifyInvoices.RunAsync(db));
        Assert.Empty(findings.Problems);
        Assert.Equal(13, await office.WithDbAsync(db => db.Invoices.CountAsync(i => i.HouseId == sale.HouseId)));
    }

    /// <summary>Issues, and then the whole act around it fails.</summary>
    private Task RolledBackAsync(SignedSale sale) => office.WithDbAsync(async db =>
    {
        var issuer = await office.IssuerAsync(db);
        await db.WriteAsync(async () =>
        {
            var made = await IssueInvoice.FreeAsync(db, new(sale.HouseId, sale.CustomerId, "x", DateOnly.FromDateTime(issuer.NowUtc), [new InvoiceLine { Words = "x", UnitPrice = Money.FromDollars(5) }], "", ""), issuer);
            Assert.NotEqual("", made.Number);
            throw new InvalidOperationException("The power fails.");
        });
    });

    [Fact]
    public async Task The_paper_says_what_the_rows_say_and_its_letter_goes_out_with_it()
    {
        var sale = await office.SignedSaleAsync();
        var issued = await office.IssueAsync(sale, InvoiceKind.Balance, mail: true);
        var (invoice, paper, address) = await office.WithDbAsync(async db =>
        {
            var i = await db.Invoices.AsNoTracking().Include(x => x.Lines).SingleAsync(x => x.Id == issued.InvoiceId);
            return (i, await db.Documents.AsNoTracking().SingleAsync(d => d.Id == i.PdfDocumentId), await db.Customers.Where(c => c.Id == i.CustomerId).Select(c => c.Email).SingleAsync());
        });
        Assert.Equal((PaperKind.Invoice, invoice.PdfSha256, sale.HouseId), (paper.Kind, paper.Sha256, paper.HouseId!.Value));
        using (var pdf = PdfDocument.Open(paper.Bytes))
        {
            var text = string.Concat(pdf.GetPages().Select(p => p.Text)).Replace(" ", "", StringComparison.Ordinal);
            Assert.All([issued.Number, $"{invoice.Total}", $"{invoice.Net - invoice.TakenOff().Select(l => l.Amount).Sum()}", "Salestax,assigned,6.875%", "RosalindQuill"], w => Assert.Contains(w, text, StringComparison.Ordinal));
        }

        Assert.True(paper.SizeBytes < 200_000);
        await office.SendOutboxAsync();
        var mail = Assert.Single(office.MailTo(address), m => m.Subject!.Contains(issued.Number, StringComparison.Ordinal));
        Assert.Contains($"{invoice.Total}", mail.TextBody, StringComparison.Ordinal);
        Assert.Single(mail.Attachments);
    }

    [Fact]
    public async Task What_was_issued_cannot_be_changed_or_taken_out()
    {
        var issued = await office.IssueFreeAsync(await office.SignedSaleAsync(), 80);
        await office.WithDbAsync(async db =>
        {
            var invoice = await db.Invoices.SingleAsync(i => i.Id == issued.InvoiceId);
            invoice.Subject = "something else";
            await Assert.ThrowsAsync<InvalidOperationException>(() => db.SaveChangesAsync());
            db.ChangeTracker.Clear();
            db.Remove(await db.Invoices.SingleAsync(i => i.Id == issued.InvoiceId));
            await Assert.ThrowsAsync<InvalidOperationException>(() => db.SaveChangesAsync());
        });
    }

    [Fact]
    public async Task A_credit_note_brings_the_account_back_to_nothing_and_a_line_is_taken_back_once()
    {
        var sale = await office.SignedSaleAsync();
        var issued = await office.IssueAsync(sale, InvoiceKind.Balance);
        var first = await office.WithDbAsync(db => db.Set<InvoiceLine>().Where(l => l.InvoiceId == issued.InvoiceId).OrderBy(l => l.Position).Select(l => l.Id).FirstAsync());
        var part = await CreditAsync(issued.InvoiceId, [first]);
        Assert.StartsWith("C-2026-", part.Number, StringComparison.Ordinal);
        Assert.Contains("taken back already", (await CreditAsync(issued.InvoiceId, [first])).Refusals[0].Words, StringComparison.Ordinal);
        await CreditAsync(issued.InvoiceId, []);
        var totals = await office.WithDbAsync(db => db.Invoices.AsNoTracking().Where(i => i.HouseId == sale.HouseId).ToListAsync());
        Assert.Equal(Money.Zero, totals.Select(i => i.Total).Sum());
        Assert.Equal(3, totals.Count);
        Assert.False((await office.IssueAsync(sale, InvoiceKind.Balance)).Already);
    }

    [Fact]
    public async Task A_deposit_that_a_balance_has_taken_off_is_not_taken_back_before_it()
    {
        var sale = await office.SignedSaleAsync();
        var deposit = await office.IssueAsync(sale, InvoiceKind.Deposit);
        var balance = await office.IssueAsync(sale, InvoiceKind.Balance);
        Assert.Contains(balance.Number, (await CreditAsync(deposit.InvoiceId, [])).Refusals[0].Words, StringComparison.Ordinal);
        await CreditAsync(balance.InvoiceId, []);
        Assert.NotEqual(0, (await CreditAsync(deposit.InvoiceId, [])).InvoiceId);
    }

    private Task<Issued> CreditAsync(int invoiceId, int[] lines) =>
        office.WithDbAsync(async db => await CreditInvoice.RunAsync(db, invoiceId, lines, "Written twice.", await office.IssuerAsync(db)));
}
