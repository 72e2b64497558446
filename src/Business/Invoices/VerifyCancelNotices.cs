using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices;

/// <summary>Proves that every notice of cancellation is what came by the link: its row by the chain, its paper by its hash,
/// the signature it takes back by that one's hash.</summary>
public static class VerifyCancelNotices
{
    public static async Task<VerifyRecords.Findings> RunAsync(OfficeDb db, CancellationToken cancel = default)
    {
        var (problems, count, previous) = (new List<string>(), 0, "");
        var notices = from n in db.CancelNotices.AsNoTracking()
                      join a in db.Acceptances on n.AcceptanceId equals a.Id
                      join d in db.Documents on n.PdfDocumentId equals d.Id
                      orderby n.Id
                      select new { Notice = n, Signed = a.Hash, d.Bytes, Taken = db.CancelledSales.Any(c => c.AcceptanceId == n.AcceptanceId) };
        await foreach (var n in notices.AsAsyncEnumerable().WithCancellation(cancel))
        {
            count++;
            if (n.Notice.PreviousHash != previous || n.Notice.ComputeHash() != n.Notice.Hash) problems.Add($"Notice of cancellation {n.Notice.Id} was changed, or one before it is missing.");
            if (n.Notice.AcceptanceHash != n.Signed) problems.Add($"Notice of cancellation {n.Notice.Id} does not belong to the signature on record.");
            if (Convert.ToHexStringLower(SHA256.HashData(n.Bytes)) != n.Notice.PdfSha256) problems.Add($"The paper of notice of cancellation {n.Notice.Id} is not what was stored.");
            if (!n.Taken) problems.Add($"Notice of cancellation {n.Notice.Id} stands, but its sale does not say that it was cancelled.");
            previous = n.Notice.Hash;
        }

        return new([$"{count} notices of cancellation followed."], problems);
    }
}
