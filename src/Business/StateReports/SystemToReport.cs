using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports;

/// <summary>One thing of a system that a profile counts, and its day where the house stands.</summary>
public sealed record Occurrence(string Key, DateOnly Day);

/// <summary>A system as the records have it now.</summary>
/// <param name="LeftOutBecause">The office's reason to leave it out of this profile's reports; empty: not left out.</param>
public sealed record SystemToReport(int Id, int HouseId, string Tag, string State, string LeftOutBecause, DateTime ActivatedAtUtc, IReadOnlyList<Occurrence> Occurrences, ReportValues Values)
{
    /// <summary>Its job, its house's owner then and the test after the work, by which pages their values are entered on.</summary>
    public int? JobId { get; init; }
    public int? CustomerId { get; init; }
    public int? TestId { get; init; }
}
