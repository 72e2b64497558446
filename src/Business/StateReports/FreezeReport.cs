using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.StateReports.Files;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports;

/// <summary>Freezes a report: the run, its rows and its files in one transaction.</summary>
public static class FreezeReport
{
    /// <param name="withGaps">Freeze even where values are missing; what is refused stays refused.</param>
    /// <exception cref="InvalidOperationException">It cannot be frozen now; the message says why.</exception>
    public static Task<ReportRun> RunAsync(OfficeDb db, string code, string period, string by, string signedBy, DateTime nowUtc, bool withGaps, CancellationToken cancel = default) => db.WriteAsync(async () =>
    {
        await db.TakeTurnAsync(Turn.Report, cancel);
        var head = await ReportHead.ReadAsync(db, code, cancel) ?? throw new InvalidOperationException($"There is no profile “{code}”.");
        var days = head.PeriodOf(period) ?? throw new InvalidOperationException($"Write the period as {ReportPeriod.Example(head.Profile.Period)}.");
        if (head.Runs.Any(r => r.Period == days.Name)) throw new InvalidOperationException($"{days.Words} is frozen already.");
        var preview = await PreviewReport.RunAsync(db, head, days, nowUtc, signedBy, cancel);
        if (preview.NotNow.Length > 0) throw new InvalidOperationException(preview.NotNow);
        if (preview.Gaps.FirstOrDefault(g => g.Refused) is { } refused) throw new InvalidOperationException($"{refused.Tag}: {refused.Words}");
        if (!withGaps && preview.Gaps.Count > 0)
            throw new InvalidOperationException($"{preview.Gaps.Count} values are missing or doubtful, the first: {preview.Gaps[0].Tag}: {preview.Gaps[0].Words}");
        return await StoreAsync(db, preview, by, nowUtc, cancel);
    }, cancel);

    private static async Task<ReportRun> StoreAsync(OfficeDb db, ReportPreview preview, string by, DateTime nowUtc, CancellationToken cancel)
    {
        var (head, table, at) = (preview.Head, preview.Table, new DateTime(nowUtc.Ticks - nowUtc.Ticks % 10, DateTimeKind.Utc));
        if (head.Duty is null) db.ReportDuties.Add(new ReportDuty { ProfileCode = head.Profile.Code, StartsOn = head.StartsOn(preview.Period), State = head.Profile.State });
        var files = await FilesAsync(preview, by, at, head.Zone, cancel);
        db.Documents.AddRange(files.Values);
        await db.SaveChangesAsync(cancel);
        var run = new ReportRun
        {
            ProfileCode = head.Profile.Code, Number = head.Runs.Count + 1, ProfileEdition = head.InBook.Edition, ProfileJson = WriteProfile.Text(head.Profile),
            Period = preview.Period.Name, PeriodKind = preview.Period.Kind, First = preview.Period.First, Last = preview.Period.Last, DueOn = preview.DueOn,
            FrozenAtUtc = at, FrozenBy = by, SignedBy = table.Head["signed_by"], HeadJson = JsonSerializer.Serialize(table.Head),
            Counted = preview.Plan.Counted, Amendments = preview.Plan.Rows.Count - preview.Plan.Counted, Fee = preview.Fee,
            CsvDocumentId = files.GetValueOrDefault(FileKind.Csv)?.Id, XlsxDocumentId = files.GetValueOrDefault(FileKind.Xlsx)?.Id, PdfDocumentId = files.GetValueOrDefault(FileKind.Pdf)?.Id,
            PreviousHash = head.LastRun?.Hash ?? "", Hash = "",
        };
        var text = new RowText(head.Profile);
        var entries = preview.Plan.Rows.Select((r, i) => Entry(r, i + 1, head.Profile.Code, text)).ToList();
        run.Hash = HashReport.Of(run, entries, files.Values.Select(f => f.Sha256));
        db.ReportRuns.Add(run);
        await db.SaveChangesAsync(cancel);
        foreach (var entry in entries) entry.ReportRunId = run.Id;
        await KeepEntries.RunAsync(db, entries, cancel);
        return run;
    }

    private static ReportEntry Entry(PlannedRow row, int position, string code, RowText text) => new()
    {
        ProfileCode = code, InstalledSystemId = row.System.Id, EventKey = row.Occurrence.Key, Kind = row.Kind, Position = position, Day = row.Occurrence.Day,
        CountsKey = row.Counts ? ReportEntry.KeyOf(row.System.Id, row.Occurrence.Key) : null, Amends = row.Amends, Changed = row.Changed, RowJson = row.ToldJson ?? text.Of(row.Values),
    };

    private static async Task<SortedDictionary<FileKind, StoredDocument>> FilesAsync(ReportPreview preview, string by, DateTime at, TimeZoneInfo zone, CancellationToken cancel)
    {
        var (table, totals, files) = (preview.Table, preview.Totals, new SortedDictionary<FileKind, StoredDocument>());
        // The list on paper takes as long as all the rest; it is made beside it.
        var paper = table.Profile.Files.Contains(FileKind.Pdf) ? Task.Run(() => ReportPaper.Make(table, totals, by, at, zone), cancel) : Task.FromResult<byte[]>([]);
        foreach (var kind in table.Profile.Files.OrderBy(k => k))
        {
            var (bytes, type) = kind switch
            {
                FileKind.Xlsx => (await ReportXlsx.BytesAsync(table, totals, cancel), "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"),
                FileKind.Pdf => (await paper, "application/pdf"),
                _ => (ReportCsv.Bytes(table), "text/csv"),
            };
            var name = $"state-report-{table.Profile.Code}-{preview.Period.Name}.{kind.ToString().ToLowerInvariant()}";
            files[kind] = StoredDocument.Of(bytes, PaperKind.StateReport, $"{table.Profile.Name}, {preview.Period.Words}", name, type, null, at, by);
        }

        return files;
    }
}
