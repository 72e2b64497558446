using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports;

/// <summary>The office leaves a system out of a report, and why. Taken back by a day, never removed.</summary>
[Holds(Truth.Fact)]
[Index(nameof(ProfileCode), nameof(InstalledSystemId))]
[Index(nameof(OpenKey), IsUnique = true)]
public sealed class ReportExclusion : Record
{
    public required string ProfileCode { get; set; }
    public int InstalledSystemId { get; set; }
    public required string Reason { get; set; }
    public DateTime AtUtc { get; set; }
    public required string By { get; set; }
    public DateTime? TakenBackAtUtc { get; set; }
    public string TakenBackBy { get; set; } = "";

    /// <summary>Profile and system while it holds; empty once taken back. Unique: a system is left out once.</summary>
    public string? OpenKey { get; set; }
}
