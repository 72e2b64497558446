using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports;

/// <summary>One month's report, frozen with what was in it.</summary>
[Holds(Truth.Document)]
[Index(nameof(Month), nameof(Layout), IsUnique = true)]
public sealed class ReportRun : Record
{
    /// <summary>First day of the month reported.</summary>
    public DateOnly Month { get; set; }
    public required string Layout { get; set; }
    public DateTime FrozenAtUtc { get; set; }
    public required string FrozenBy { get; set; }
    public int CsvDocumentId { get; set; }
    public DateOnly? SentOn { get; set; }
    public string SentHow { get; set; } = "";
    public List<ReportEntry> Entries { get; set; } = [];
}

/// <summary>A system's place in a run. A system stands in one run of a layout and never in a second.</summary>
[Holds(Truth.Document)]
[Index(nameof(Layout), nameof(InstalledSystemId), IsUnique = true)]
public sealed class ReportEntry : Record
{
    public int ReportRunId { get; set; }
    public required string Layout { get; set; }
    public int InstalledSystemId { get; set; }
    public int Position { get; set; }

    /// <summary>The row as reported, JSON object of column to text.</summary>
    public required string RowJson { get; set; }
}
