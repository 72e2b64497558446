using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes.Phases;

/// <summary>Takes up a second phase that is due: a new quote with the agreed scope at the agreed price, ready to be sent.</summary>
public static class DraftPhase
{
    /// <summary>The draft; the one there is where it was taken up before. Null where it is not due.</summary>
    public static async Task<int?> RunAsync(OfficeDb db, int secondPhaseId, int houseId, TimeProvider clock)
    {
        try
        {
            return await db.WriteAsync(() => WriteAsync(db, secondPhaseId, houseId, clock));
        }
        catch (DbUpdateConcurrencyException)
        {
            // Another person took it up in the same moment: theirs stands.
            db.ChangeTracker.Clear();
            return await db.WriteAsync(() => WriteAsync(db, secondPhaseId, houseId, clock));
        }
    }

    private static async Task<int?> WriteAsync(OfficeDb db, int secondPhaseId, int houseId, TimeProvider clock)
    {
        if (await db.SecondPhases.SingleOrDefaultAsync(p => p.Id == secondPhaseId && p.HouseId == houseId) is not { } phase) return null;
        if (phase.NextQuoteId is { } before) return await db.QuoteRevisions.Where(r => r.QuoteId == before).OrderByDescending(r => r.Id).Select(r => (int?)r.Id).FirstOrDefaultAsync();
        var now = clock.GetUtcNow().UtcDateTime;
        var company = await db.Company.AsNoTracking().SingleAsync();
        var signed = await (from a in db.Acceptances
                            where a.Id == phase.AcceptanceId
                            join r in db.QuoteRevisions.AsNoTracking().Include(r => r.Phase).Include(r => r.Quote).Include(r => r.Tiers) on a.QuoteRevisionId equals r.Id
                            select new Signed(r, a.QuoteTierId)).AsSingleQuery().SingleAsync();
        var today = HouseTime.DayOf(now, HouseTime.Zone(await db.Houses.Where(h => h.Id == houseId).Select(h => h.TimeZone).SingleAsync(), company.TimeZone));
        if (phase.State != PhaseState.Due || phase.ValidUntil < today) return null;
        var owner = await db.HouseOwners.Where(o => o.HouseId == houseId && o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => (int?)o.CustomerId).FirstOrDefaultAsync();
        var quote = new Quote { Number = await TakeNumber.NextAsync(db, "Q", today.Year), HouseId = houseId, CustomerId = owner ?? signed.Revision.Quote!.CustomerId, CreatedAtUtc = now };
        var revision = Revision(signed, phase, now, Least(today.AddDays(company.QuoteValidDays), phase.ValidUntil));
        quote.Revisions.Add(revision);
        db.Quotes.Add(quote);
        await db.SaveChangesAsync();
        (phase.State, phase.NextQuoteId, phase.Since) = (PhaseState.TakenUp, quote.Id, today);
        await db.SaveChangesAsync();
        return revision.Id;
    }

    private static DateOnly? Least(DateOnly day, DateOnly? other) => other < day ? other : day;

    private sealed record Signed(QuoteRevision Revision, int TierId);

    private static QuoteRevision Revision(Signed sale, SecondPhase phase, DateTime now, DateOnly? validUntil)
    {
        var (signed, tier) = (sale.Revision, sale.Revision.Tiers.Single(t => t.Id == sale.TierId));
        var running = RunningCost.Of(signed, tier);
        var (agreed, name) = (signed.Phase!, $"{signed.Quote!.Number} {signed.Letter}");
        return new()
        {
            Letter = "A",
            CreatedAtUtc = now,
            SuctionDesignId = tier.SuctionDesignId ?? signed.SuctionDesignId,
            ValidUntil = validUntil,
            TaxPercent = signed.TaxPercent,
            DepositPercent = signed.DepositPercent,
            AgreedPrice = agreed.Price,
            Answers = $"The test after the work: {PhaseTrigger.ResultIn(agreed, phase.DecidingPCiL ?? 0)}.",
            Introduction = $"In quote {name} a second phase was agreed for a result of {PhaseTrigger.LevelOf(agreed)} or more. The result asks for it; this is that work, at the price agreed then.",
            Scope = agreed.Scope,
            TimeNeeded = signed.TimeNeeded,
            Promise = signed.Promise,
            Cautions = signed.Cautions,
            Terms = signed.Terms,
            CancellationNotice = signed.CancellationNotice,
            NoCancelNoticeBecause = signed.NoCancelNoticeBecause,
            OwnersPart = signed.OwnersPart,
            ElectricityPerYear = running.Electricity,
            HeatCablePerYear = running.HeatCable,
            HouseAirPerYear = running.HouseAir,
            FanReplacement = running.FanReplacement,
            FanLifeYears = running.FanLifeYears,
            OwningYears = signed.OwningYears,
            GuaranteePCiL = signed.GuaranteePCiL,
            GuaranteeMonths = signed.GuaranteeMonths,
            GuaranteeVisits = signed.GuaranteeVisits,
            GuaranteeConditions = signed.GuaranteeConditions,
            RecommendedTier = 1,
            WhyRecommended = $"The result reached {PhaseTrigger.LevelOf(agreed)}, the level agreed for it.",
            Tiers = [new() { Position = 1, Name = "Second phase", Lines = [new() { Position = 1, Words = Short(agreed.Scope), UnitPrice = agreed.Price, UnitCost = agreed.Cost, LabourMinutes = agreed.LabourMinutes, Taxable = agreed.Taxable }] }],
        };
    }

    private static string Short(string scope) => scope.ReplaceLineEndings(" ").Trim() is { Length: > 300 } long_ ? long_[..299] + "…" : scope.ReplaceLineEndings(" ").Trim();
}
