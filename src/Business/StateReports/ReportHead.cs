using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports;

/// <summary>What a whole report hangs on: the profile, since when the office reports under it, the company. Three statements.</summary>
public sealed record ReportHead(ProfileInBook InBook, ReportDuty? Duty, CompanyProfile Company, string PersonNumbers, IReadOnlyList<ReportRun> Runs)
{
    public ReportProfile Profile => InBook.Profile;

    /// <summary>Every profile, this one too.</summary>
    public IReadOnlyList<ProfileInBook> Book { get; init; } = [];

    /// <summary>Systems on record, and rows that count in this profile's reports: counted by the database alone.</summary>
    public int Systems { get; init; }
    public int Counted { get; init; }
    public TimeZoneInfo Zone { get; } = HouseTime.Zone(Company.TimeZone);
    public ReportRun? LastRun => Runs.Count > 0 ? Runs[^1] : null;

    public DateOnly Today(DateTime nowUtc) => HouseTime.DayOf(nowUtc, Zone);

    public static async Task<ReportHead?> ReadAsync(OfficeDb db, string code, CancellationToken cancel = default)
    {
        // One row for each profile of the office's own, in its newest edition; else one row without any.
        var kept = db.ReportProfiles.Where(k => !db.ReportProfiles.Any(o => o.Code == k.Code && o.Edition > k.Edition));
        var rows = await (from c in db.Company.AsNoTracking()
                          from d in db.ReportDuties.Where(d => d.ProfileCode == code).DefaultIfEmpty()
                          from k in kept.DefaultIfEmpty()
                          select new
                          {
                              Company = c, Duty = d, Kept = k,
                              Systems = db.Systems.Count(s => s.Id > 0), Counted = db.ReportEntries.Count(e => e.ProfileCode == code && e.CountsKey != null),
                          }).ToListAsync(cancel);
        var read = rows[0];
        var book = ProfileBook.Of(rows.Select(r => r.Kept).OfType<KeptProfile>());
        if (book.FirstOrDefault(p => p.Profile.Code == code) is not { } inBook) return null;
        var runs = await db.ReportRuns.AsNoTracking().Where(r => r.ProfileCode == code).OrderBy(r => r.Number).ToListAsync(cancel);
        var people = await db.Licences.AsNoTracking().Where(l => l.Holder != read.Company.Name && l.Number != read.Company.CertificationNumber).OrderBy(l => l.Holder).ThenBy(l => l.Id).Select(l => l.Number).ToListAsync(cancel);
        return new(inBook, read.Duty, read.Company, string.Join("; ", people.Distinct(StringComparer.Ordinal)), runs) { Book = book, Systems = read.Systems, Counted = read.Counted };
    }

    /// <summary>The first day reported: as the office set it; before it did, the first day of the period looked at.</summary>
    public DateOnly StartsOn(ReportPeriod period) => Duty?.StartsOn ?? LastRun?.First ?? period.First;

    /// <summary>The period of a name; null where it is no name of this profile's kind.</summary>
    public ReportPeriod? PeriodOf(string? name)
    {
        if (Runs.FirstOrDefault(r => r.Period == name) is { } run) return run.Days;
        if (ReportPeriod.DayOf(Profile.Period, name) is not { } day) return null;
        if (Profile.Period != PeriodKind.Days) return ReportPeriod.Of(Profile.Period, day);
        var first = LastRun?.Last.AddDays(1) ?? Duty?.StartsOn ?? new DateOnly(day.Year, day.Month, 1);
        return first <= day ? ReportPeriod.Days(first, day) : null;
    }

    /// <summary>The period whose report comes next; null where none can be said yet.</summary>
    public ReportPeriod? NextPeriod(DateOnly today)
    {
        if (!Profile.Reports) return null;
        if (Profile.Period != PeriodKind.Days) return LastRun is { } last ? ReportPeriod.Of(Profile.Period, last.Last.AddDays(1)) : ReportPeriod.Of(Profile.Period, Duty?.StartsOn ?? today);
        var first = LastRun?.Last.AddDays(1) ?? Duty?.StartsOn ?? today.AddDays(1 - today.Day);
        return first < today ? ReportPeriod.Days(first, today.AddDays(-1)) : null;
    }

    /// <summary>A sentence for each state among these whose own rule keeps addresses private, beside what this profile says itself.</summary>
    public IReadOnlyList<string> AlsoPrivate(IEnumerable<string> states)
    {
        var held = states.ToHashSet(StringComparer.OrdinalIgnoreCase);
        return [.. Book.Select(p => p.Profile).Where(p => p.Privacy.AddressesPrivate && p.Code != Profile.Code && p.State.Length > 0 && held.Contains(p.State))
            .Select(p => $"Houses in {p.State}: {p.Privacy.Words}{(p.Privacy.Citation.Length > 0 ? $" ({p.Privacy.Citation})" : "")}").Distinct(StringComparer.Ordinal)];
    }

    /// <summary>Values that are the same in every row.</summary>
    public Dictionary<string, string> Values(ReportPeriod period, bool nil, string signedBy) => new(StringComparer.Ordinal)
    {
        ["report_period"] = period.Kind == PeriodKind.Days ? $"{TypedNumbers.Plain(period.First)} to {TypedNumbers.Plain(period.Last)}" : period.Name,
        ["no_work"] = nil ? "yes" : "",
        ["company"] = Company.Name,
        ["company_certification"] = Duty is { CompanyNumber.Length: > 0 } d ? d.CompanyNumber : Company.CertificationNumber,
        ["person_certification"] = PersonNumbers,
        ["signed_by"] = signedBy,
    };
}
