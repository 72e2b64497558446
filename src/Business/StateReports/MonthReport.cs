using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;

namespace MitigationOffice.Business.StateReports;

/// <param name="Refused">Cannot be reported so; other gaps may be frozen knowingly.</param>
public sealed record ReportGap(int SystemId, int HouseId, string Tag, EnteredAt At, string Words, bool Refused);

/// <summary>What a month's report would hold if it were frozen now.</summary>
public sealed record ReportPreview(DateOnly Month, IReadOnlyList<ReportRow> Rows, IReadOnlyList<ReportGap> Gaps, int BeforeFirst, bool Over, ReportRun? Frozen)
{
    public bool MayFreeze => Over && Frozen is null && !Gaps.Any(g => g.Refused);
}

/// <summary>The month-end report. In a month's run stands every system activated in that month in the company's time zone, and every
/// one of earlier months, back to the first month ever frozen, that stands in no run yet. Systems from before the first run were
/// reported before this program; they are counted in the preview and left out.</summary>
public static class MonthReport
{
    public static async Task<ReportPreview> PreviewAsync(OfficeDb db, DateOnly month, DateTime nowUtc, CancellationToken cancel = default)
    {
        var company = await db.Company.AsNoTracking().SingleAsync(cancel);
        var zone = HouseTime.Zone(company.TimeZone);
        var frozen = await db.ReportRuns.AsNoTracking().Include(r => r.Entries).SingleOrDefaultAsync(r => r.Month == month && r.Layout == ReportLayout.General, cancel);
        var over = nowUtc >= ReportMonth.BeginUtc(month.AddMonths(1), zone);
        if (frozen is not null) return new ReportPreview(month, [], [], 0, over, frozen);
        var first = await db.ReportRuns.Where(r => r.Layout == ReportLayout.General).MinAsync(r => (DateOnly?)r.Month, cancel);
        var (since, until) = (ReportMonth.BeginUtc(first < month ? first.Value : month, zone), ReportMonth.BeginUtc(month.AddMonths(1), zone));
        var open = db.Systems.Where(s => s.ActivatedAtUtc < until && !db.ReportEntries.Any(e => e.InstalledSystemId == s.Id && e.Layout == ReportLayout.General));
        var rows = await new ReportRows(db, company, month).ReadAsync(open.Where(s => s.ActivatedAtUtc >= since), cancel);
        var before = await open.CountAsync(s => s.ActivatedAtUtc < since, cancel);
        return new ReportPreview(month, rows, [.. Gaps(rows, company, month)], before, over, null);
    }

    /// <summary>Freezes the month: the run, its entries and its file in one transaction.</summary>
    /// <exception cref="InvalidOperationException">It cannot be frozen now; the message says why.</exception>
    public static Task<ReportRun> FreezeAsync(OfficeDb db, DateOnly month, string by, DateTime nowUtc, bool withGaps, CancellationToken cancel = default) => db.WriteAsync(async () =>
    {
        if (db.Database.ProviderName?.Contains("Npgsql", StringComparison.Ordinal) == true) await db.Database.ExecuteSqlRawAsync("SELECT pg_advisory_xact_lock(7303)", cancel);
        var preview = await PreviewAsync(db, month, nowUtc, cancel);
        if (preview.Frozen is not null) throw new InvalidOperationException($"{ReportMonth.Words(month)} is frozen already.");
        if (!preview.Over) throw new InvalidOperationException($"{ReportMonth.Words(month)} is not over yet.");
        if (preview.Gaps.FirstOrDefault(g => g.Refused) is { } refused) throw new InvalidOperationException($"{refused.Tag}: {refused.Words}");
        if (!withGaps && preview.Gaps.Count > 0)
            throw new InvalidOperationException($"{preview.Gaps.Count} values are missing, the first: {preview.Gaps[0].Tag}: {preview.Gaps[0].Words}");
        return await StoreAsync(db, preview, by, nowUtc, cancel);
    }, cancel);

    private static async Task<ReportRun> StoreAsync(OfficeDb db, ReportPreview preview, string by, DateTime nowUtc, CancellationToken cancel)
    {
        var company = await db.Company.AsNoTracking().SingleAsync(cancel);
        var words = ReportMonth.Words(preview.Month);
        var csv = ReportCsv.Bytes(preview.Rows.Count > 0 ? [.. preview.Rows.Select(r => r.Values)] : [Nil(company, preview.Month)]);
        var file = StoredDocument.Of(csv, PaperKind.StateReport, $"State report {words}", $"state-report-{words}.csv", "text/csv", null, nowUtc, by);
        db.Documents.Add(file);
        await db.SaveChangesAsync(cancel);
        var run = new ReportRun { Month = preview.Month, Layout = ReportLayout.General, FrozenAtUtc = nowUtc, FrozenBy = by, CsvDocumentId = file.Id };
        run.Entries.AddRange(preview.Rows.Select((row, i) => new ReportEntry
        {
            Layout = ReportLayout.General, InstalledSystemId = row.SystemId, Position = i + 1, RowJson = JsonSerializer.Serialize(row.Values),
        }));
        db.ReportRuns.Add(run);
        await db.SaveChangesAsync(cancel);
        return run;
    }

    private static Dictionary<string, string> Nil(CompanyProfile company, DateOnly month)
    {
        var values = ReportMonth.CompanyValues(company, month);
        values["no_work"] = "yes";
        return values;
    }

    private static IEnumerable<ReportGap> Gaps(List<ReportRow> rows, CompanyProfile company, DateOnly month)
    {
        var companyGaps = ReportLayout.Columns.Where(c => c.At == EnteredAt.Company)
            .SelectMany(c => GapsOf(c, (rows.Count > 0 ? rows[0].Values : ReportMonth.CompanyValues(company, month)).GetValueOrDefault(c.Name, ""), 0, 0, "Company"));
        return companyGaps.Concat(rows.SelectMany(r => ReportLayout.Columns.Where(c => c.At != EnteredAt.Company)
            .SelectMany(c => GapsOf(c, r.Values.GetValueOrDefault(c.Name, ""), r.SystemId, r.HouseId, r.Tag))));
    }

    private static IEnumerable<ReportGap> GapsOf(ReportColumn column, string value, int systemId, int houseId, string tag)
    {
        if (column.Needed && value.Length == 0) yield return new(systemId, houseId, tag, column.At, $"the {column.Words} is missing", false);
        if (column.Free && ReportCsv.LooksLikeFormula(value))
            yield return new(systemId, houseId, tag, column.At, $"the {column.Words} begins with “{value[0]}”, which a spreadsheet would take for a formula: write it otherwise", true);
        if (column.Name == "customer_phone" && value.Any(c => !char.IsAsciiDigit(c) && !" +-().extEXT#,".Contains(c, StringComparison.Ordinal)))
            yield return new(systemId, houseId, tag, column.At, $"the {column.Words} holds more than a number", ReportCsv.LooksLikeFormula(value));
    }
}
