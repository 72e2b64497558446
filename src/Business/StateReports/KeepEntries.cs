using System.Data;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports;

/// <summary>Writes the rows of a frozen report: a month may have ten thousand, and the run's hash is their proof, so that nothing has
/// to follow each of them.</summary>
internal static class KeepEntries
{
    private static readonly InsertRows Rows = new(
        nameof(OfficeDb.ReportEntries),
        [
            new(nameof(ReportEntry.ReportRunId), DbType.Int32), new(nameof(ReportEntry.ProfileCode), DbType.String), new(nameof(ReportEntry.InstalledSystemId), DbType.Int32),
            new(nameof(ReportEntry.EventKey), DbType.String), new(nameof(ReportEntry.CountsKey), DbType.String), new(nameof(ReportEntry.Kind), DbType.String),
            new(nameof(ReportEntry.Position), DbType.Int32), new(nameof(ReportEntry.Day), DbType.Date), new(nameof(ReportEntry.Amends), DbType.String),
            new(nameof(ReportEntry.Changed), DbType.String), new(nameof(ReportEntry.RowJson), DbType.String),
        ]);

    /// <summary>Inside the transaction that the run was added in.</summary>
    public static Task RunAsync(OfficeDb db, IReadOnlyList<ReportEntry> entries, CancellationToken cancel) => Rows.RunAsync(db, entries, Fill, cancel);

    private static void Fill(ReportEntry e, object?[] row)
    {
        (row[0], row[1], row[2], row[3], row[4], row[5]) = (e.ReportRunId, e.ProfileCode, e.InstalledSystemId, e.EventKey, e.CountsKey, $"{e.Kind}");
        (row[6], row[7], row[8], row[9], row[10]) = (e.Position, e.Day, e.Amends, e.Changed, e.RowJson);
    }
}
