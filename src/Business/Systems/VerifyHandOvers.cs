using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Systems;

/// <summary>Proves that every signed walk-through list is the paper that was signed.</summary>
public static class VerifyHandOvers
{
    public static async Task<VerifyRecords.Findings> RunAsync(OfficeDb db, CancellationToken cancel = default)
    {
        var (problems, count) = (new List<string>(), 0);
        var papers = from h in db.HandOvers.AsNoTracking()
                     join d in db.Documents on h.DocumentId equals d.Id
                     orderby h.Id
                     select new { h.Id, h.DocumentSha256, d.Bytes };
        await foreach (var p in papers.AsAsyncEnumerable().WithCancellation(cancel))
        {
            count++;
            if (Convert.ToHexStringLower(SHA256.HashData(p.Bytes)) != p.DocumentSha256) problems.Add($"The paper of hand-over {p.Id} is not the one that was signed.");
        }

        return new([$"{count} hand-overs followed."], problems);
    }
}
