using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports.Files;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports;

/// <summary>What a report would hold if it were frozen now, and what stands against that.</summary>
/// <param name="NotNow">Why it cannot be frozen; empty: it can.</param>
public sealed record ReportPreview(ReportHead Head, PlannedReport Plan, ReportTable Table, IReadOnlyList<ReportGap> Gaps, string NotNow, ReportPeriod? First)
{
    public ReportPeriod Period => Plan.Period;
    public DateOnly? DueOn => Head.Profile.Deadline.DueOn(Period, Plan.Earliest);
    public Money Fee => new(checked(Head.Profile.Fee.Cents * Plan.Counted));
    public bool MayFreeze => NotNow.Length == 0 && !Gaps.Any(g => g.Refused);
    public IReadOnlyList<(string Words, string Value)> Totals => ReportTotals.Of(Table, Fee, DueOn);
}

/// <summary>Reads what the next report of a profile holds.</summary>
public static class PreviewReport
{
    /// <param name="signedBy">Empty: the person the office named for this profile.</param>
    public static async Task<ReportPreview> RunAsync(OfficeDb db, ReportHead head, ReportPeriod period, DateTime nowUtc, string signedBy = "", CancellationToken cancel = default)
    {
        var plan = await PlanAsync(db, head, period, cancel);
        var table = Table(head, plan, signedBy.Length > 0 ? signedBy : head.Duty?.SignedBy ?? "");
        var (why, first) = NotNow(head, plan, head.Today(nowUtc));
        return new(head, plan, table, ReportDoubts.Of(table, plan.Rows), why, first);
    }

    public static async Task<PlannedReport> PlanAsync(OfficeDb db, ReportHead head, ReportPeriod period, CancellationToken cancel = default)
    {
        var systems = await new GatherSystems(db, head).ReadAsync(cancel);
        return PlanReport.Of(head.Profile, period, head.StartsOn(period), systems, await ToldAsync(db, head, systems, cancel), head.Runs.ToDictionary(r => r.Id));
    }

    /// <summary>Every row ever frozen under the profile; the text of one that says what the records say now is dropped as it is read.</summary>
    private static async Task<List<ToldRow>> ToldAsync(OfficeDb db, ReportHead head, List<SystemToReport> systems, CancellationToken cancel)
    {
        var (code, told) = (head.Profile.Code, new List<ToldRow>());
        if (head.Runs.Count == 0) return told;
        var (text, shared, now) = (new RowText(head.Profile), new SharedText(), systems.ToDictionary(s => s.Id, s => s.Values));
        var rows = db.ReportEntries.AsNoTracking().Where(e => e.ProfileCode == code)
            .Select(e => new ToldRow(e.ReportRunId, e.InstalledSystemId, e.EventKey, e.CountsKey != null, e.Kind, e.Position, e.Day, e.Changed, e.RowJson)).AsAsyncEnumerable();
        await foreach (var row in rows.WithCancellation(cancel))
        {
            var same = now.TryGetValue(row.InstalledSystemId, out var values) && text.IsOf(row.RowJson!, values);
            told.Add(row with { EventKey = shared.Of(row.EventKey), RowJson = same ? null : row.RowJson });
        }

        return told;
    }

    /// <summary>A frozen report as its rows were kept, by the profile's text of then.</summary>
    public static ReportTable Frozen(ReportRun run, IEnumerable<ReportEntry> entries, IReadOnlyList<string>? alsoPrivate = null) => new(
        ReadProfile.Of(run.ProfileJson).Profile ?? throw new InvalidOperationException($"The profile of report {run.ProfileCode} {run.Period} cannot be read."),
        run.Days, JsonSerializer.Deserialize<Dictionary<string, string>>(run.HeadJson)!, [.. entries.OrderBy(e => e.Position).Select(RowToWrite.Of)])
    {
        AlsoPrivate = alsoPrivate ?? [],
    };

    private static ReportTable Table(ReportHead head, PlannedReport plan, string signedBy) => new(
        head.Profile, plan.Period, head.Values(plan.Period, plan.Rows.Count == 0, signedBy),
        [.. plan.Rows.Select(r => new RowToWrite(r.Kind, r.Occurrence.Key, r.Occurrence.Day, r.Amends, r.Changed, r.Values))])
    {
        AlsoPrivate = head.AlsoPrivate(plan.Rows.Select(r => r.System.State)),
    };

    private static (string Why, ReportPeriod? First) NotNow(ReportHead head, PlannedReport plan, DateOnly today)
    {
        var period = plan.Period;
        if (!head.Profile.Reports) return ("This profile asks for no report.", null);
        if (today <= period.Last) return ($"{period.Words} is not over yet. It can be frozen from {HouseTime.Show(period.Last.AddDays(1))}.", null);
        if (head.LastRun is { } last && period.First <= last.Last) return ($"{period.Words} is not after the last report frozen ({last.Days.Words}). What was registered late comes in the next one.", null);
        if (head.Duty is { } duty && period.Last < duty.StartsOn) return ($"{period.Words} is before {HouseTime.Show(duty.StartsOn)}, the first day reported here.", null);
        if (head.NextPeriod(today) is { } next && next.Last < period.First && (head.Profile.NilReport || plan.Rows.Any(r => r.Counts && r.Occurrence.Day < period.First)))
            return ($"{next.Words} comes first: its report is not frozen yet.", next);
        return ("", null);
    }
}
