using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes.Phases;

namespace MitigationOffice.Business.Tests;

/// <summary>Lets the tests made after the work decide about the second phases that were signed: the latest valid one makes a phase
/// due or closes it; without one it waits until its last day and lapses. What was taken up stays.</summary>
public static class SettlePhases
{
    private sealed record Agreed(SecondPhase Phase, QuotePhase Terms, DateTime SignedAtUtc, string TimeZone);

    private sealed record Result(int Id, DateTime EndedAtUtc, decimal PCiL);

    /// <param name="houseId">Null: every house.</param>
    public static Task<int> RunAsync(OfficeDb db, DateTime nowUtc, int? houseId = null, CancellationToken cancel = default) => db.WriteAsync(async () =>
    {
        var all = await OpenOnesAsync(db, houseId, cancel);
        if (all.Count == 0) return 0;
        var company = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync(cancel));
        var results = await ResultsAsync(db, [.. all.Select(a => a.Phase.HouseId).Distinct()], cancel);
        foreach (var agreed in all) Settle(agreed, results[agreed.Phase.HouseId], agreed.TimeZone.Length > 0 ? HouseTime.Zone(agreed.TimeZone) : company, nowUtc);
        return await db.SaveChangesAsync(cancel);
    }, cancel);

    /// <summary>Where the whole office is asked for, those that are closed are past; a corrected test looks at its house.</summary>
    private static async Task<List<Agreed>> OpenOnesAsync(OfficeDb db, int? houseId, CancellationToken cancel) => await (
        from p in db.SecondPhases
        where p.State != PhaseState.TakenUp && p.State != PhaseState.Cancelled && (houseId == null ? p.State == PhaseState.Waiting || p.State == PhaseState.Due : p.HouseId == houseId)
        join t in db.Set<QuotePhase>() on p.QuotePhaseId equals t.Id
        join a in db.Acceptances on p.AcceptanceId equals a.Id
        join h in db.Houses on p.HouseId equals h.Id
        select new Agreed(p, t, a.AtUtc, h.TimeZone)).ToListAsync(cancel);

    private static async Task<ILookup<int, Result>> ResultsAsync(OfficeDb db, List<int> houses, CancellationToken cancel) => (await db.RadonTests.AsNoTracking()
        .Where(t => houses.Contains(t.HouseId) && t.JudgedAtUtc != null && t.EndedAtUtc != null && t.DecidingPCiL != null
            && t.Outcome != TestOutcome.NotJudged && t.Outcome != TestOutcome.NotValid && (t.Reason == TestReason.PostMitigation || t.Reason == TestReason.AfterChange))
        .OrderBy(t => t.StartedAtUtc).ThenBy(t => t.Id).Select(t => new { t.Id, t.HouseId, EndedAtUtc = t.EndedAtUtc!.Value, PCiL = t.DecidingPCiL!.Value }).ToListAsync(cancel))
        .ToLookup(t => t.HouseId, t => new Result(t.Id, t.EndedAtUtc, t.PCiL));

    private static void Settle(Agreed agreed, IEnumerable<Result> results, TimeZoneInfo zone, DateTime nowUtc)
    {
        var (phase, terms) = (agreed.Phase, agreed.Terms);
        var today = HouseTime.DayOf(nowUtc, zone);
        var last = results.LastOrDefault(r => r.EndedAtUtc > agreed.SignedAtUtc && !(HouseTime.DayOf(r.EndedAtUtc, zone) > phase.ValidUntil));
        var passed = today > phase.ValidUntil;
        var state = last is null ? passed ? PhaseState.Lapsed : PhaseState.Waiting
            : !PhaseTrigger.IsReached(terms, last.PCiL) ? PhaseState.Closed
            : passed ? PhaseState.Lapsed : PhaseState.Due;
        if ((state, last?.Id, last?.PCiL) == (phase.State, phase.RadonTestId, phase.DecidingPCiL)) return;
        (phase.State, phase.RadonTestId, phase.DecidingPCiL, phase.Since) = (state, last?.Id, last?.PCiL, today);
    }
}
