using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Documents;

namespace MitigationOffice.Business.Data;

/// <summary>Proves that what was stored is what is there: documents by their hashes, changes by their chain.</summary>
public static class VerifyRecords
{
    public sealed record Findings(IReadOnlyList<string> Counted, IReadOnlyList<string> Problems);

    public static async Task<Findings> RunAsync(OfficeDb db, CancellationToken cancel = default)
    {
        var problems = new List<string>();
        var told = new Dictionary<int, string>();
        var changes = await ChainAsync(db, problems, told, cancel);
        var documents = await DocumentsAsync(db, problems, told, cancel);
        return new([$"{documents} documents read, {changes} audit entries followed."], problems);
    }

    private static async Task<int> DocumentsAsync(OfficeDb db, List<string> problems, Dictionary<int, string> told, CancellationToken cancel)
    {
        var count = 0;
        await foreach (var document in db.Documents.AsNoTracking().OrderBy(d => d.Id).AsAsyncEnumerable().WithCancellation(cancel))
        {
            count++;
            if (Convert.ToHexStringLower(SHA256.HashData(document.Bytes)) != document.Sha256 || document.SizeBytes != document.Bytes.Length || (told.TryGetValue(document.Id, out var json) && !IsAsTold(document, json)))
                problems.Add($"Document {document.Id} ({document.Title}) is not what was stored.");
        }

        return count;
    }

    private static async Task<int> ChainAsync(OfficeDb db, List<string> problems, Dictionary<int, string> told, CancellationToken cancel)
    {
        var (count, previous) = (0, "");
        await foreach (var entry in db.Audit.AsNoTracking().OrderBy(a => a.Id).AsAsyncEnumerable().WithCancellation(cancel))
        {
            count++;
            if (entry.PreviousHash != previous || entry.ComputeHash() != entry.Hash) problems.Add($"Audit entry {entry.Id} was changed, or one before it is missing.");
            previous = entry.Hash;
            if (entry is { Subject: nameof(StoredDocument), Act: nameof(EntityState.Added) }) told[entry.SubjectId] = entry.Changes;
        }

        return count;
    }

    /// <summary>A document's other columns are in the audit entry that was written with it.</summary>
    private static bool IsAsTold(StoredDocument document, string json)
    {
        using var told = JsonDocument.Parse(json);
        foreach (var column in told.RootElement.EnumerateObject())
        {
            var (written, now) = (column.Value[1], typeof(StoredDocument).GetProperty(column.Name)?.GetValue(document));
            var same = now switch
            {
                null => written.ValueKind == JsonValueKind.Null,
                DateTime at => written.TryGetDateTime(out var then) && then.Ticks / 10 == at.Ticks / 10,
                int number => written.TryGetInt32(out var before) && before == number,
                _ => written.ToString() == now.ToString(),
            };
            if (!same) return false;
        }

        return true;
    }
}
