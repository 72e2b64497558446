using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports;

public enum RowKind
{
    /// <summary>Its day lies in the period reported.</summary>
    New,

    /// <summary>Its day lies in an earlier period; it was registered after that report.</summary>
    Late,

    /// <summary>Reported before; these are the right values.</summary>
    Correction,

    /// <summary>Reported before and should not have been.</summary>
    Withdrawal,
}

/// <summary>A row of a frozen report. Its proof is the run's hash, so it needs no audit row of its own.</summary>
[Holds(Truth.Document, Frozen = true)]
[Index(nameof(ReportRunId), nameof(Position), IsUnique = true)]
[Index(nameof(ProfileCode), nameof(CountsKey), IsUnique = true)]
[Index(nameof(InstalledSystemId))]
public sealed class ReportEntry
{
    public long Id { get; set; }
    public int ReportRunId { get; set; }
    public required string ProfileCode { get; set; }
    public int InstalledSystemId { get; set; }

    /// <summary>What of the system is reported: "activation", or one of its alterations.</summary>
    public required string EventKey { get; set; }

    /// <summary>System and event on the row that counts; empty on an amendment. Unique, so that nothing is counted twice.</summary>
    public string? CountsKey { get; set; }
    public RowKind Kind { get; set; }
    public int Position { get; set; }
    public DateOnly Day { get; set; }

    /// <summary>On an amendment: the report and row it amends, "2026-10 row 3".</summary>
    public string Amends { get; set; } = "";

    /// <summary>On an amendment: names of what changed, or why it is withdrawn.</summary>
    public string Changed { get; set; } = "";

    /// <summary>The system's values as reported, JSON object of name to text.</summary>
    public required string RowJson { get; set; }

    public static string KeyOf(int systemId, string eventKey) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{systemId}:{eventKey}");
}
