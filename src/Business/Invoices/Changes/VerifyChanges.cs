using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices.Changes;

/// <summary>Proves that every signed change order is what was signed: its evidence by the chain, its papers and its lines by
/// their hashes.</summary>
public static class VerifyChanges
{
    public static async Task<VerifyRecords.Findings> RunAsync(OfficeDb db, CancellationToken cancel = default)
    {
        var (problems, count, previous) = (new List<string>(), 0, "");
        var orders = (await db.ChangeOrders.AsNoTracking().Include(c => c.Lines).Where(c => c.State == ChangeState.Agreed).ToListAsync(cancel)).ToDictionary(c => c.Id);
        await foreach (var s in db.ChangeSignatures.AsNoTracking().OrderBy(s => s.Id).AsAsyncEnumerable().WithCancellation(cancel))
        {
            count++;
            if (s.PreviousHash != previous || s.ComputeHash() != s.Hash) problems.Add($"The signature of change order {s.Number} was changed, or one before it is missing.");
            if (!orders.Remove(s.ChangeOrderId, out var order)) problems.Add($"Change order {s.Number} was signed, but its row does not say so.");
            else if (ChangeSignature.LinesOf(order) != s.LinesSha256) problems.Add($"Change order {s.Number} is not what was signed.");
            previous = s.Hash;
        }

        await PapersAsync(db, problems, cancel);
        problems.AddRange(orders.Values.Select(o => $"Change order {o.Number} says it was signed, but the evidence is missing."));
        return new([$"{count} signed change orders followed."], problems);
    }

    private static async Task PapersAsync(OfficeDb db, List<string> problems, CancellationToken cancel)
    {
        var papers = from s in db.ChangeSignatures.AsNoTracking()
                     join a in db.ChangeOrders on s.ChangeOrderId equals a.Id
                     join x in db.Acceptances on a.AcceptanceId equals x.Id
                     join shown in db.Documents on s.PdfDocumentId equals shown.Id
                     join signed in db.Documents on s.SignedDocumentId equals signed.Id
                     orderby s.Id
                     select new { s.Number, s.PdfSha256, s.SignedSha256, s.AcceptanceHash, x.Hash, Shown = shown.Bytes, Signed = signed.Bytes };
        await foreach (var p in papers.AsAsyncEnumerable().WithCancellation(cancel))
        {
            if (HashOf(p.Shown) != p.PdfSha256) problems.Add($"The paper shown for change order {p.Number} is not the one that was signed.");
            if (HashOf(p.Signed) != p.SignedSha256) problems.Add($"The signed copy of change order {p.Number} is not what was stored.");
            if (p.Hash != p.AcceptanceHash) problems.Add($"Change order {p.Number} does not belong to the signature on record.");
        }
    }

    private static string HashOf(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));
}
