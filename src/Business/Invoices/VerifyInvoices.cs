using System.Globalization;
using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices;

/// <summary>Proves that every invoice is what was issued: its paper by its hash, its rows by their chain, its sums by adding up,
/// its numbers without a gap.</summary>
public static class VerifyInvoices
{
    public static async Task<VerifyRecords.Findings> RunAsync(OfficeDb db, CancellationToken cancel = default)
    {
        var (problems, count, previous) = (new List<string>(), 0, "");
        await foreach (var i in db.Invoices.AsNoTracking().Include(i => i.Lines).Include(i => i.Taxes).OrderBy(i => i.Id).AsAsyncEnumerable().WithCancellation(cancel))
        {
            count++;
            if (i.PreviousHash != previous || i.ComputeHash() != i.Hash) problems.Add($"Invoice {i.Number} was changed, or one before it is missing.");
            if (i.Net != i.Lines.Select(l => l.Amount).Sum() || i.Tax != i.Taxes.Select(t => t.Amount).Sum() || i.Total != i.Net + i.Tax) problems.Add($"The sums of invoice {i.Number} are not those of its lines.");
            previous = i.Hash;
        }

        await PapersAsync(db, problems, cancel);
        await NumbersAsync(db, problems, cancel);
        return new([$"{count} invoices and credit notes followed."], problems);
    }

    private static async Task PapersAsync(OfficeDb db, List<string> problems, CancellationToken cancel)
    {
        var papers = from i in db.Invoices.AsNoTracking()
                     join d in db.Documents on i.PdfDocumentId equals d.Id
                     orderby i.Id
                     select new { i.Number, i.PdfSha256, d.Bytes };
        await foreach (var p in papers.AsAsyncEnumerable().WithCancellation(cancel))
            if (Convert.ToHexStringLower(SHA256.HashData(p.Bytes)) != p.PdfSha256)
                problems.Add($"The paper of invoice {p.Number} is not the one that was issued.");
    }

    /// <summary>Each series must hold 1, 2, 3 … up to the last number given out.</summary>
    private static async Task NumbersAsync(OfficeDb db, List<string> problems, CancellationToken cancel)
    {
        var given = (await db.Invoices.Select(i => i.Number).ToListAsync(cancel)).GroupBy(n => n[..n.LastIndexOf('-')])
            .ToDictionary(g => g.Key, g => g.Select(n => int.Parse(n[(n.LastIndexOf('-') + 1)..], CultureInfo.InvariantCulture)).Order().ToList(), StringComparer.Ordinal);
        foreach (var counter in await db.Counters.AsNoTracking().Where(c => c.Series.StartsWith("I-") || c.Series.StartsWith("C-")).ToListAsync(cancel))
            if (!given.GetValueOrDefault(counter.Series, []).SequenceEqual(Enumerable.Range(1, counter.Last))) problems.Add($"The numbers of series {counter.Series} have a gap.");
    }
}
