namespace MitigationOffice.Business.StateReports;

/// <summary>What a frozen report told of a system, as the next one needs it.</summary>
/// <param name="Counts">It is the row that counts and no amendment.</param>
/// <param name="RowJson">Null where the values are word for word those of now: of ten thousand rows most are.</param>
public sealed record ToldRow(int ReportRunId, int InstalledSystemId, string EventKey, bool Counts, RowKind Kind, int Position, DateOnly Day, string Changed, string? RowJson);
