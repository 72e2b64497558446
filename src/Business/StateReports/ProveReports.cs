using System.Globalization;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports;

/// <summary>A period's account: every system of it stands in exactly one of the columns.</summary>
/// <param name="Period">Null: before the first day reported here, or nothing to count yet.</param>
public sealed record PeriodAccount(ReportPeriod? Period, string Words, int Systems, int Reported, int Amended, int LeftOut, int Open)
{
    public bool AddsUp => Systems == Reported + Amended + LeftOut + Open;
}

/// <summary>A frozen report's account: what was counted when it was frozen beside what its rows say now.</summary>
public sealed record RunAccount(ReportRun Run, int New, int Late, int Corrections, int Withdrawals)
{
    public bool AddsUp => New + Late == Run.Counted && Corrections + Withdrawals == Run.Amendments;
}

/// <param name="Right">Whether the two numbers, come by in two ways, are equal.</param>
public sealed record ProofCheck(string Words, int One, int Other)
{
    public bool Right => One == Other;
}

public sealed record ReportProof(ReportHead Head, PlannedReport Plan, DateOnly StartsOn, IReadOnlyList<PeriodAccount> Periods, IReadOnlyList<RunAccount> Runs, IReadOnlyList<ProofCheck> Checks)
{
    public bool AddsUp => Periods.All(p => p.AddsUp) && Runs.All(r => r.AddsUp) && Checks.All(c => c.Right);

    public ReportRun RunOf(ToldRow told) => Head.Runs.First(r => r.Id == told.ReportRunId);

    /// <summary>Where a system stands, in words.</summary>
    public string Words(SystemPlace place) => place.Kind switch
    {
        PlaceKind.LeftOut => $"left out: {place.Words}",
        PlaceKind.Withdrawn => $"{Told(place.Told[0])}, withdrawn in {At(place.Told[^1])}: {place.Words}",
        PlaceKind.Reported => string.Join(", ", place.Told.Select((t, i) => i == 0 ? Told(t) : $"{(t.Kind == RowKind.Withdrawal ? "withdrawn" : "corrected")} in {At(t)}")),
        _ => place.Words.Length > 0 ? $"open: {place.Words}" : $"open: comes in the report of {Plan.Period.Words}",
    };

    private string Told(ToldRow e) => $"{(e.Kind == RowKind.Late ? "reported late in" : "reported in")} {At(e)}";

    private string At(ToldRow e) => string.Create(CultureInfo.InvariantCulture, $"{RunOf(e).Period} row {e.Position}");
}

/// <summary>The account of a profile's reports since the start: systems = reported + amended + left out with a reason + still open.</summary>
public static class ProveReports
{
    public static async Task<ReportProof> RunAsync(OfficeDb db, ReportHead head, DateTime nowUtc, CancellationToken cancel = default)
    {
        var period = head.NextPeriod(head.Today(nowUtc)) ?? ReportPeriod.Days(head.LastRun?.Last.AddDays(1) ?? head.Duty?.StartsOn ?? head.Today(nowUtc), head.Today(nowUtc));
        var plan = await PreviewReport.PlanAsync(db, head, period, cancel);
        var startsOn = head.StartsOn(period);
        var told = plan.Places.SelectMany(p => p.Told).ToList();
        ProofCheck[] checks =
        [
            new("Systems on record, and systems in this account", head.Systems, plan.Places.Select(p => p.System.Id).Distinct().Count()),
            new("Rows that count in all reports, and systems told as reported or withdrawn", head.Counted, plan.Places.Count(p => p.Kind is PlaceKind.Reported or PlaceKind.Withdrawn)),
            new("Rows that count, and different systems in them", head.Counted, told.Where(e => e.Counts).Select(e => (e.InstalledSystemId, e.EventKey)).Distinct().Count()),
        ];
        return new(head, plan, startsOn, Periods(head, plan, startsOn), [.. head.Runs.Select(r => Of(r, told.Where(e => e.ReportRunId == r.Id).ToList()))], checks);
    }

    /// <summary>The period that a system's day lies in.</summary>
    public static ReportPeriod? PeriodOf(ReportHead head, ReportPeriod next, DateOnly startsOn, SystemPlace place)
    {
        if (place.Occurrence is not { } o || o.Day < startsOn) return null;
        if (head.Profile.Period is not (PeriodKind.Days or PeriodKind.None)) return ReportPeriod.Of(head.Profile.Period, o.Day);
        return head.Runs.FirstOrDefault(r => r.Days.Holds(o.Day))?.Days ?? next;
    }

    private static List<PeriodAccount> Periods(ReportHead head, PlannedReport plan, DateOnly startsOn) =>
        [.. plan.Places.GroupBy(p => PeriodOf(head, plan.Period, startsOn, p)).OrderBy(g => g.Key?.First ?? DateOnly.MinValue).Select(g => new PeriodAccount(
            g.Key, g.Key?.Words ?? $"before {HouseTime.Show(startsOn)}, or nothing to count yet", g.Count(),
            g.Count(p => p is { Kind: PlaceKind.Reported, Told.Count: 1 }), g.Count(p => p is { Kind: PlaceKind.Reported, Told.Count: > 1 }),
            g.Count(p => p.Kind is PlaceKind.LeftOut or PlaceKind.Withdrawn), g.Count(p => p.Kind == PlaceKind.Open)))];

    private static RunAccount Of(ReportRun run, List<ToldRow> told) => new(
        run, told.Count(e => e.Kind == RowKind.New), told.Count(e => e.Kind == RowKind.Late), told.Count(e => e.Kind == RowKind.Correction), told.Count(e => e.Kind == RowKind.Withdrawal));
}
