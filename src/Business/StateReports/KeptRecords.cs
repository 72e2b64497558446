using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Engineering.Dates;
using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Business.StateReports;

/// <summary>How long the records of a system must be kept.</summary>
/// <param name="ClosedOn">The last of: the work complete, the last test ended.</param>
/// <param name="Until">Null: the rule is not known, or they are kept until the state allows otherwise.</param>
public sealed record KeptRecord(int HouseId, string Tag, string State, DateOnly ClosedOn, DateOnly? Until, string Rule);

/// <summary>Lists records by the day until which they must be kept. Nothing is ever destroyed by the program itself.</summary>
public static class KeptRecords
{
    public static async Task<IReadOnlyList<KeptRecord>> ReadAsync(OfficeDb db, string companyZone, CancellationToken cancel = default)
    {
        var rules = (await ProfileBook.ReadAsync(db, cancel)).Select(p => p.Profile).ToList();
        var duties = await db.ReportDuties.AsNoTracking().Select(d => d.ProfileCode).ToListAsync(cancel);
        var known = rules.Where(p => p.Retention.Known && (p.State.Length > 0 || duties.Contains(p.Code))).ToList();
        var systems = await (from s in db.Systems.AsNoTracking()
                             join h in db.Houses on s.HouseId equals h.Id
                             orderby s.CompletedOn, s.Id
                             select new
                             {
                                 s.HouseId, s.TagNumber, h.State, s.CompletedOn, Warranty = s.Components.Max(c => c.WarrantyUntil), Zone = h.TimeZone,
                                 Tested = db.RadonTests.Where(t => t.HouseId == s.HouseId).Max(t => t.EndedAtUtc),
                             }).ToListAsync(cancel);
        return [.. systems.Select(s =>
        {
            var tested = s.Tested is { } at ? HouseTime.DayOf(at, HouseTime.Zone(s.Zone, companyZone)) : s.CompletedOn;
            var closed = tested > s.CompletedOn ? tested : s.CompletedOn;
            var (until, rule) = Until(closed, s.Warranty, [.. known.Where(p => p.IsFor(s.State))]);
            return new KeptRecord(s.HouseId, s.TagNumber, s.State, closed, until, rule);
        }).OrderBy(r => r.Until ?? DateOnly.MaxValue).ThenBy(r => r.Tag, StringComparer.Ordinal)];
    }

    /// <summary>The longest of the rules that hold.</summary>
    private static (DateOnly? Until, string Rule) Until(DateOnly closed, DateOnly? warranty, List<ReportProfile> rules)
    {
        if (rules.Count == 0) return (null, "no rule known here: keep them");
        if (rules.Find(p => p.Retention.ForEver) is { } ever) return (null, $"{ever.Jurisdiction}: {ever.Retention.Citation}");
        var longest = rules.Select(p => (Profile: p, Until: Of(closed, warranty, p))).MaxBy(x => x.Until);
        return (longest.Until, $"{longest.Profile.Jurisdiction}: {longest.Profile.Retention.Years} years{(longest.Profile.Retention.OrLongerWarranty ? ", or the warranty where it is longer" : "")} ({longest.Profile.Retention.Citation})");
    }

    private static DateOnly Of(DateOnly closed, DateOnly? warranty, ReportProfile profile)
    {
        var until = RecordRetention.KeepUntil(closed, new RetentionRule(profile.Jurisdiction, profile.Retention.Years, false, new Citation(profile.Retention.Citation, Certainty.SecondHand)), 0);
        return profile.Retention.OrLongerWarranty && warranty > until ? warranty.Value : until;
    }
}
