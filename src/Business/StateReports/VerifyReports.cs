using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports.Files;

namespace MitigationOffice.Business.StateReports;

/// <summary>Proves that every frozen report is what was frozen: its rows and files by their chain, its sums by counting, its CSV by
/// writing it again, and that no system is counted twice.</summary>
public static class VerifyReports
{
    public static async Task<VerifyRecords.Findings> RunAsync(OfficeDb db, CancellationToken cancel = default)
    {
        var (problems, previous, count) = (new List<string>(), new Dictionary<string, ReportRun>(StringComparer.Ordinal), 0);
        foreach (var run in await db.ReportRuns.AsNoTracking().OrderBy(r => r.ProfileCode).ThenBy(r => r.Number).ToListAsync(cancel))
        {
            count++;
            await OneAsync(db, run, previous.GetValueOrDefault(run.ProfileCode), problems, cancel);
            previous[run.ProfileCode] = run;
        }

        await TwiceAsync(db, problems, cancel);
        return new([$"{count} state reports followed."], problems);
    }

    private static async Task OneAsync(OfficeDb db, ReportRun run, ReportRun? before, List<string> problems, CancellationToken cancel)
    {
        var name = $"State report {run.ProfileCode} {run.Period}";
        var entries = await db.ReportEntries.AsNoTracking().Where(e => e.ReportRunId == run.Id).OrderBy(e => e.Position).ToListAsync(cancel);
        var ids = run.DocumentIds.ToList();
        var files = (await db.Documents.AsNoTracking().Where(d => ids.Contains(d.Id)).Select(d => new { d.Id, d.Bytes }).ToListAsync(cancel)).ToDictionary(d => d.Id, d => d.Bytes);
        if (run.Number != (before?.Number ?? 0) + 1 || run.PreviousHash != (before?.Hash ?? "")) problems.Add($"{name} does not follow the one before it: one is missing or was changed.");
        if (HashReport.Of(run, entries, ids.Select(id => Convert.ToHexStringLower(SHA256.HashData(files[id])))) != run.Hash) problems.Add($"{name} or one of its files is not what was frozen.");
        if (entries.Count(e => e.CountsKey is not null) != run.Counted || entries.Count(e => e.CountsKey is null) != run.Amendments || entries.Where((e, i) => e.Position != i + 1).Any()) problems.Add($"The rows of {name} do not add up.");
        if (run.CsvDocumentId is { } csv && !ReportCsv.Bytes(PreviewReport.Frozen(run, entries)).AsSpan().SequenceEqual(files[csv])) problems.Add($"The CSV of {name} is not what its rows say.");
    }

    private static async Task TwiceAsync(OfficeDb db, List<string> problems, CancellationToken cancel)
    {
        var twice = await db.ReportEntries.Where(e => e.Kind == RowKind.New || e.Kind == RowKind.Late).GroupBy(e => new { e.ProfileCode, e.InstalledSystemId, e.EventKey })
            .Where(g => g.Count() > 1).Select(g => g.Key).ToListAsync(cancel);
        problems.AddRange(twice.Select(t => $"System {t.InstalledSystemId} is counted twice under {t.ProfileCode}."));
    }
}
