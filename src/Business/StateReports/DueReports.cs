using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports;

public enum DueKind
{
    Freeze,
    Send,
    Fee,
}

/// <param name="DueOn">Empty where the rule is not known.</param>
public sealed record DueReport(ReportProfile Profile, ReportPeriod Period, DueKind Kind, DateOnly? DueOn, Money Fee)
{
    public string Href => $"/state-reports/{Profile.Code}/{Period.Name}";

    public string What => Kind switch
    {
        DueKind.Freeze => $"{Profile.Name}: freeze the report of {Period.Words}",
        DueKind.Send => $"{Profile.Name}: send the report of {Period.Words}",
        _ => $"{Profile.Name}: pay the fee of {Fee} for {Period.Words}",
    };
}

/// <summary>A duty as one statement reads it, for many pages to ask what is due.</summary>
/// <param name="Code">Null, as is the day, only where the duty is joined to something and there is none.</param>
public sealed record DutyFacts(string? Code, DateOnly? Since, string? KeptJson, DateOnly? LastFrozen, DateOnly? EarliestOpen, IReadOnlyList<DutyFacts.Unsettled> Runs)
{
    /// <summary>The first day that no frozen report speaks of.</summary>
    public DateOnly? First => LastFrozen?.AddDays(1) ?? Since;

    public sealed record Unsettled(string Period, PeriodKind Kind, DateOnly First, DateOnly Last, DateOnly? DueOn, long FeeCents, DateOnly? SentOn, DateOnly? FeePaidOn);
}

/// <summary>What is due to the states: periods that are over and not frozen, reports frozen and not sent, fees not paid.</summary>
public static class DueReports
{
    private const int AheadDays = 21;

    public static IQueryable<DutyFacts> Facts(OfficeDb db) => db.ReportDuties.Where(d => !d.Ended).OrderBy(d => d.Id).Select(d => new DutyFacts(
        d.Id > 0 ? d.ProfileCode : null,
        d.Id > 0 ? d.StartsOn : null,
        db.ReportProfiles.Where(k => k.Code == d.ProfileCode).OrderByDescending(k => k.Edition).Select(k => k.Json).FirstOrDefault(),
        db.ReportRuns.Where(r => r.ProfileCode == d.ProfileCode).Max(r => (DateOnly?)r.Last),
        db.Systems.Where(s => s.CompletedOn >= d.StartsOn && (d.State == "" || db.Houses.Any(h => h.Id == s.HouseId && h.State == d.State))
            && !db.ReportEntries.Any(e => e.ProfileCode == d.ProfileCode && e.InstalledSystemId == s.Id)
            && !db.ReportExclusions.Any(x => x.ProfileCode == d.ProfileCode && x.InstalledSystemId == s.Id && x.OpenKey != null)).Min(s => (DateOnly?)s.CompletedOn),
        db.ReportRuns.Where(r => r.ProfileCode == d.ProfileCode && (!db.ReportSendings.Any(s => s.ReportRunId == r.Id && s.SentOn != null) || (r.Fee.Cents > 0 && !db.ReportSendings.Any(s => s.ReportRunId == r.Id && s.FeePaidOn != null))))
            .OrderBy(r => r.Number).Select(r => new DutyFacts.Unsettled(
                r.Period, r.PeriodKind, r.First, r.Last, r.DueOn, r.Fee.Cents,
                db.ReportSendings.Where(s => s.ReportRunId == r.Id).Select(s => s.SentOn).FirstOrDefault(), db.ReportSendings.Where(s => s.ReportRunId == r.Id).Select(s => s.FeePaidOn).FirstOrDefault())).ToList()));

    public static async Task<IReadOnlyList<DueReport>> ReadAsync(OfficeDb db, DateOnly today, CancellationToken cancel = default) =>
        Of(await Facts(db).AsNoTracking().AsSingleQuery().ToListAsync(cancel), today);

    public static IReadOnlyList<DueReport> Of(IEnumerable<DutyFacts> duties, DateOnly today) =>
        [.. duties.SelectMany(d => OfDuty(d, today)).OrderBy(d => d.DueOn ?? DateOnly.MaxValue).ThenBy(d => d.Period.First)];

    public static ReportProfile? ProfileOf(DutyFacts facts) =>
        facts.KeptJson is { } json ? ReadProfile.Of(json).Profile : ProfileBook.Shipped.GetValueOrDefault(facts.Code ?? "");

    private static IEnumerable<DueReport> OfDuty(DutyFacts facts, DateOnly today)
    {
        if (ProfileOf(facts) is not { } profile) yield break;
        foreach (var run in facts.Runs)
        {
            var period = new ReportPeriod(run.Kind, run.Period, run.First, run.Last);
            if (run.SentOn is null) yield return new(profile, period, DueKind.Send, run.DueOn, new(run.FeeCents));
            if (run.FeeCents > 0 && run.FeePaidOn is null) yield return new(profile, period, DueKind.Fee, profile.Fee.Deadline.DueOn(period, null), new(run.FeeCents));
        }

        if (ToFreeze(profile, facts, today) is { } next) yield return next;
    }

    private static DueReport? ToFreeze(ReportProfile profile, DutyFacts facts, DateOnly today)
    {
        if (!profile.Reports || facts.First is not { } first) return null;
        if (profile.Period != PeriodKind.Days)
        {
            var period = ReportPeriod.Of(profile.Period, first);
            if (!profile.NilReport && facts.EarliestOpen is { } open && open > period.Last) period = ReportPeriod.Of(profile.Period, open);
            if (!profile.NilReport && facts.EarliestOpen is null) return null;
            return period.Last < today ? new(profile, period, DueKind.Freeze, profile.Deadline.DueOn(period, facts.EarliestOpen), Money.Zero) : null;
        }

        if (first >= today || (facts.EarliestOpen is null && !profile.NilReport)) return null;
        var days = ReportPeriod.Days(first, today.AddDays(-1));
        var due = profile.Deadline.DueOn(days, facts.EarliestOpen);
        return due is null || due <= today.AddDays(AheadDays) ? new(profile, days, DueKind.Freeze, due, Money.Zero) : null;
    }
}
