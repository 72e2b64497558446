namespace MitigationOffice.Business.StateReports.Profiles;

/// <summary>One text of a profile and the reports frozen by it.</summary>
/// <param name="Number">0: as it came with the program.</param>
public sealed record ProfileEdition(int Number, DateTime? SavedAtUtc, string SavedBy, IReadOnlyList<ReportPeriod> Runs);
