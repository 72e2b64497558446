using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;

namespace MitigationOffice.Web.Tests.Invoices;

/// <summary>A changed byte or row of an issued invoice is found.</summary>
public sealed class VerifyInvoicesTests : IAsyncLifetime
{
    private readonly OfficeApp _office = new();
    private int _invoiceId;

    public async Task InitializeAsync()
    {
        await _office.InitializeAsync();
        var sale = await _office.SignedSaleAsync();
        _invoiceId = (await _office.IssueAsync(sale, InvoiceKind.Deposit)).InvoiceId;
        await _office.IssueAsync(sale, InvoiceKind.Balance);
        Assert.Empty(await ProblemsAsync());
    }

    public Task DisposeAsync() => _office.DisposeAsync();

    [Fact]
    public async Task A_changed_byte_of_its_paper()
    {
        await _office.WithDbAsync(async db =>
        {
            var at = await db.Invoices.Where(i => i.Id == _invoiceId).Select(i => i.PdfDocumentId).SingleAsync();
            var paper = await db.Documents.SingleAsync(d => d.Id == at);
            var bytes = paper.Bytes.ToArray();
            bytes[bytes.Length / 2] ^= 1;
            await db.Documents.Where(d => d.Id == at).ExecuteUpdateAsync(d => d.SetProperty(x => x.Bytes, bytes));
        });
        Assert.Contains("The paper of invoice I-2026-0001 is not the one that was issued.", await ProblemsAsync());
    }

    [Fact]
    public async Task A_changed_amount()
    {
        await _office.WithDbAsync(db => db.Database.ExecuteSqlRawAsync("UPDATE \"InvoiceLine\" SET \"Amount_Cents\" = \"Amount_Cents\" + 1 WHERE \"InvoiceId\" = {0}", _invoiceId));
        var problems = await ProblemsAsync();
        Assert.Contains("Invoice I-2026-0001 was changed, or one before it is missing.", problems);
        Assert.Contains("The sums of invoice I-2026-0001 are not those of its lines.", problems);
    }

    [Fact]
    public async Task A_changed_due_day()
    {
        await _office.WithDbAsync(db => db.Invoices.Where(i => i.Id == _invoiceId).ExecuteUpdateAsync(i => i.SetProperty(x => x.DueOn, new DateOnly(2026, 12, 31))));
        Assert.Contains("Invoice I-2026-0001 was changed, or one before it is missing.", await ProblemsAsync());
    }

    [Fact]
    public async Task A_number_that_was_given_out_and_is_gone()
    {
        await _office.WithDbAsync(db => db.Counters.Where(c => c.Series == "I-2026").ExecuteUpdateAsync(c => c.SetProperty(x => x.Last, 3)));
        Assert.Contains("The numbers of series I-2026 have a gap.", await ProblemsAsync());
    }

    private async Task<IReadOnlyList<string>> ProblemsAsync() => (await _office.WithDbAsync(db => VerifyInvoices.RunAsync(db))).Problems;
}
