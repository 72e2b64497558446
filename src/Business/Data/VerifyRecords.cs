using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;

namespace MitigationOffice.Business.Data;

/// <summary>Proves that what was stored is what is there: documents by their hashes, changes by their chain.</summary>
public static class VerifyRecords
{
    public sealed record Findings(IReadOnlyList<string> Counted, IReadOnlyList<string> Problems);

    public static async Task<Findings> RunAsync(OfficeDb db, CancellationToken cancel = default)
    {
        var problems = new List<string>();
        var documents = await DocumentsAsync(db, problems, cancel);
        var changes = await ChainAsync(db, problems, cancel);
        return new([$"{documents} documents read, {changes} audit entries followed."], problems);
    }

    private static async Task<int> DocumentsAsync(OfficeDb db, List<string> problems, CancellationToken cancel)
    {
        var count = 0;
        await foreach (var document in db.Documents.AsNoTracking().OrderBy(d => d.Id).Select(d => new { d.Id, d.Title, d.Sha256, d.Bytes }).AsAsyncEnumerable().WithCancellation(cancel))
        {
            count++;
            if (Convert.ToHexStringLower(SHA256.HashData(document.Bytes)) != document.Sha256)
                problems.Add($"Document {document.Id} ({document.Title}) is not what was stored.");
        }

        return count;
    }

    private static async Task<int> ChainAsync(OfficeDb db, List<string> problems, CancellationToken cancel)
    {
        var (count, previous) = (0, "");
        await foreach (var entry in db.Audit.AsNoTracking().OrderBy(a => a.Id).AsAsyncEnumerable().WithCancellation(cancel))
        {
            count++;
            if (entry.PreviousHash != previous || entry.ComputeHash() != entry.Hash) problems.Add($"Audit entry {entry.Id} was changed, or one before it is missing.");
            previous = entry.Hash;
        }

        return count;
    }
}
