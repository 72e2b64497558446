using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes;

/// <summary>Proves that what was signed is what is kept: every acceptance by its chain, its papers by their hashes, and
/// every quote that says it was accepted by its evidence.</summary>
public static class VerifyAcceptances
{
    public static async Task<VerifyRecords.Findings> RunAsync(OfficeDb db, CancellationToken cancel = default)
    {
        var (problems, count, previous) = (new List<string>(), 0, "");
        await foreach (var a in db.Acceptances.AsNoTracking().OrderBy(a => a.Id).AsAsyncEnumerable().WithCancellation(cancel))
        {
            count++;
            if (a.PreviousHash != previous || a.ComputeHash() != a.Hash) problems.Add($"Acceptance {a.Id} was changed, or one before it is missing.");
            previous = a.Hash;
        }

        await PapersAsync(db, problems, cancel);
        var sealedOnes = await OffersAsync(db, problems, cancel);
        var bare = await db.QuoteRevisions.Where(r => r.State == RevisionState.Accepted && !db.Acceptances.Any(a => a.QuoteRevisionId == r.Id)).Select(r => r.Id).ToListAsync(cancel);
        problems.AddRange(bare.Select(id => $"Quote revision {id} says it was accepted, but the evidence is missing."));
        var unsaid = await db.Acceptances.Where(a => !db.QuoteRevisions.Any(r => r.Id == a.QuoteRevisionId && r.State == RevisionState.Accepted)).Select(a => a.Id).ToListAsync(cancel);
        problems.AddRange(unsaid.Select(id => $"Acceptance {id} stands, but its quote does not say that it was accepted."));
        return new([$"{count} acceptances followed, {sealedOnes} offers compared with what was sent."], problems);
    }

    /// <summary>Everything a sent revision offered, row by row, against the hash taken when it was sent and the one that was signed.</summary>
    private static async Task<int> OffersAsync(OfficeDb db, List<string> problems, CancellationToken cancel)
    {
        var (count, last) = (0, 0);
        var signed = await db.Acceptances.Select(a => new { a.QuoteRevisionId, a.OfferSha256 }).ToDictionaryAsync(a => a.QuoteRevisionId, a => a.OfferSha256, cancel);
        while (await Sent(db, last).ToListAsync(cancel) is { Count: > 0 } some)
        {
            foreach (var r in some)
            {
                if (SealOffer.Of(r) != r.SentSha256) problems.Add($"Quote revision {r.Id} is not what was sent.");
                if (signed.TryGetValue(r.Id, out var hash) && hash != r.SentSha256) problems.Add($"Quote revision {r.Id} is not what was signed.");
            }

            (count, last) = (count + some.Count, some[^1].Id);
        }

        return count;
    }

    private static IQueryable<QuoteRevision> Sent(OfficeDb db, int after) => db.QuoteRevisions.AsNoTracking().WithPrices().AsSplitQuery()
        .Where(r => r.Id > after && (r.SentAtUtc != null || r.SentSha256 != "" || (r.State != RevisionState.Draft && r.State != RevisionState.Replaced))).OrderBy(r => r.Id).Take(100);

    private static async Task PapersAsync(OfficeDb db, List<string> problems, CancellationToken cancel)
    {
        var papers = from a in db.Acceptances.AsNoTracking()
                     join shown in db.Documents on a.PdfDocumentId equals shown.Id
                     join signed in db.Documents on a.SignedDocumentId equals signed.Id
                     orderby a.Id
                     select new { a.Id, a.PdfSha256, a.SignedSha256, Shown = shown.Bytes, Signed = signed.Bytes };
        await foreach (var a in papers.AsAsyncEnumerable().WithCancellation(cancel))
        {
            if (HashOf(a.Shown) != a.PdfSha256) problems.Add($"The quote shown for acceptance {a.Id} is not the one that was signed.");
            if (HashOf(a.Signed) != a.SignedSha256) problems.Add($"The signed copy of acceptance {a.Id} is not what was stored.");
        }
    }

    private static string HashOf(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));
}
