using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports;

/// <summary>When and how a frozen report went to the state, and its fee with it.</summary>
[Holds(Truth.Fact)]
[Index(nameof(ReportRunId), IsUnique = true)]
public sealed class ReportSending : Record
{
    public int ReportRunId { get; set; }
    public DateOnly? SentOn { get; set; }
    public string How { get; set; } = "";
    public string Confirmation { get; set; } = "";
    public DateOnly? FeePaidOn { get; set; }
}
