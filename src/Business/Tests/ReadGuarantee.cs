using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Business.Tests;

public enum GuaranteeState
{
    /// <summary>The work is not done yet.</summary>
    NotBegun,

    /// <summary>No valid test yet.</summary>
    NotProven,
    Kept,

    /// <summary>The last test reached the level: a visit is owed.</summary>
    VisitOwed,
    Over,
}

/// <summary>A guarantee given in a signed quote, held against the tests that prove it.</summary>
/// <param name="TestId">The test that decides.</param>
public sealed record GuaranteeStand(
    decimal LevelPCiL, int Months, int VisitsGiven, string Conditions, GuaranteeState State, DateOnly? From, DateOnly? Until, int? TestId, decimal? PCiL, IReadOnlyList<GuaranteeStand.Visit> Visits)
{
    public sealed record Visit(int Id, DateOnly On, string Done, string By);

    public int VisitsLeft => Math.Max(0, VisitsGiven - Visits.Count);
}

public static class ReadGuarantee
{
    /// <summary>Null where the quote guaranteed no level. One statement.</summary>
    public static async Task<GuaranteeStand?> OfAsync(OfficeDb db, int acceptanceId, TimeZoneInfo zone, DateTime nowUtc)
    {
        var read = await (from a in db.Acceptances.AsNoTracking()
                          where a.Id == acceptanceId
                          join r in db.QuoteRevisions on a.QuoteRevisionId equals r.Id
                          where r.GuaranteePCiL > 0
                          let system = db.Systems.Where(s => s.HouseId == r.Quote!.HouseId && s.ActivatedAtUtc > a.AtUtc).OrderBy(s => s.ActivatedAtUtc).Select(s => (DateTime?)s.ActivatedAtUtc).FirstOrDefault()
                          select new
                          {
                              Level = r.GuaranteePCiL!.Value, r.GuaranteeMonths, r.GuaranteeVisits, r.GuaranteeConditions, System = system,
                              Visits = db.ReturnVisits.Where(v => v.AcceptanceId == a.Id).OrderBy(v => v.VisitedOn).ThenBy(v => v.Id).Select(v => new GuaranteeStand.Visit(v.Id, v.VisitedOn, v.Done, v.EnteredBy)).ToList(),
                              Tests = db.RadonTests.Where(t => t.HouseId == r.Quote!.HouseId && t.StartedAtUtc > a.AtUtc && t.JudgedAtUtc != null && t.DecidingPCiL != null && t.Outcome != TestOutcome.NotJudged && t.Outcome != TestOutcome.NotValid)
                                  .OrderBy(t => t.StartedAtUtc).ThenBy(t => t.Id).Select(t => new { t.Id, t.StartedAtUtc, PCiL = t.DecidingPCiL!.Value }).ToList(),
                          }).AsSingleQuery().SingleOrDefaultAsync();
        if (read is null) return null;
        DateOnly? from = read.System is { } on ? HouseTime.DayOf(on, zone) : null;
        var until = from?.AddMonths(read.GuaranteeMonths);
        var test = read.Tests.LastOrDefault(t => !(HouseTime.DayOf(t.StartedAtUtc, zone) > until));
        var over = HouseTime.DayOf(nowUtc, zone) > until;
        // Held against the level as results are reported: 3.95 is 4.0.
        var kept = test is not null && RadonConcentration.FromPciPerL(test.PCiL).ReportedPciPerL < read.Level;
        var state = test is not null && !kept ? GuaranteeState.VisitOwed : over ? GuaranteeState.Over : test is not null ? GuaranteeState.Kept : from is null ? GuaranteeState.NotBegun : GuaranteeState.NotProven;
        return new(read.Level, read.GuaranteeMonths, read.GuaranteeVisits, read.GuaranteeConditions, state, from, until, test?.Id, test?.PCiL, read.Visits);
    }
}
