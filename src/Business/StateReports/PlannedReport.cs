using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports;

/// <summary>A row that a report would hold.</summary>
/// <param name="Values">As they are now; of a withdrawal those reported before.</param>
/// <param name="ToldJson">Of a withdrawal the row it takes back, as it was kept; null where that is word for word what the values are.</param>
public sealed record PlannedRow(SystemToReport System, Occurrence Occurrence, RowKind Kind, ReportValues Values, string Amends = "", string Changed = "", string? ToldJson = null)
{
    public bool Counts => Kind is RowKind.New or RowKind.Late;
}

public enum PlaceKind
{
    /// <summary>Stands in a report.</summary>
    Reported,

    /// <summary>Stood in a report and was withdrawn in a later one.</summary>
    Withdrawn,

    /// <summary>Left out, with the reason.</summary>
    LeftOut,

    /// <summary>Comes in the report that is next, or in one after it.</summary>
    Open,
}

/// <summary>Where a system stands in a profile's reports.</summary>
/// <param name="Words">The reason it is left out or waits.</param>
/// <param name="Told">Its rows in the reports, the first that counts and the amendments after it.</param>
public sealed record SystemPlace(SystemToReport System, Occurrence? Occurrence, PlaceKind Kind, string Words, IReadOnlyList<ToldRow> Told);

/// <summary>Everything a report would hold and where every system stands.</summary>
public sealed record PlannedReport(ReportPeriod Period, IReadOnlyList<PlannedRow> Rows, IReadOnlyList<SystemPlace> Places)
{
    public int Counted => Rows.Count(r => r.Counts);
    public DateOnly? Earliest => Rows.Where(r => r.Counts).Select(r => (DateOnly?)r.Occurrence.Day).Min();
}
