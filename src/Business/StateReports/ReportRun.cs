using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports;

/// <summary>One report as it was frozen: what was in it, by which text of the profile, its files. Written once; hash-chained to the
/// one before it. What was wrong is amended in the next.</summary>
[Holds(Truth.Document, Frozen = true)]
[Index(nameof(ProfileCode), nameof(Number), IsUnique = true)]
[Index(nameof(ProfileCode), nameof(Period), IsUnique = true)]
public sealed class ReportRun : Record
{
    public required string ProfileCode { get; set; }

    /// <summary>1, 2, 3 … within its profile.</summary>
    public int Number { get; set; }
    public int ProfileEdition { get; set; }
    public required string ProfileJson { get; set; }

    /// <summary>The period's name, "2026-10".</summary>
    public required string Period { get; set; }
    public PeriodKind PeriodKind { get; set; }
    public DateOnly First { get; set; }
    public DateOnly Last { get; set; }
    public DateOnly? DueOn { get; set; }
    public DateTime FrozenAtUtc { get; set; }
    public required string FrozenBy { get; set; }
    public string SignedBy { get; set; } = "";

    /// <summary>Values of the whole report, JSON object of name to text.</summary>
    public required string HeadJson { get; set; }
    public int Counted { get; set; }
    public int Amendments { get; set; }
    public Money Fee { get; set; }
    public int? CsvDocumentId { get; set; }
    public int? XlsxDocumentId { get; set; }
    public int? PdfDocumentId { get; set; }
    public required string PreviousHash { get; set; }
    public required string Hash { get; set; }

    public ReportPeriod Days => new(PeriodKind, Period, First, Last);
    public IEnumerable<int> DocumentIds => new[] { CsvDocumentId, XlsxDocumentId, PdfDocumentId }.OfType<int>();
}
