using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Quotes.Phases;

namespace MitigationOffice.Business.Quotes;

/// <summary>Makes the next revision of a quote: a draft with everything of the latest one, to be changed and sent in its place.</summary>
public static class ReviseQuote
{
    /// <summary>The draft; the one that is open already where there is one. Null where the quote was accepted: that asks for a new quote.</summary>
    public static Task<QuoteRevision?> NextAsync(OfficeDb db, int quoteId, TimeProvider clock) => db.WriteAsync(async () =>
    {
        var all = await db.QuoteRevisions.WithPrices().Where(r => r.QuoteId == quoteId).OrderBy(r => r.Id).ToListAsync();
        if (all.Any(r => r.State == RevisionState.Accepted)) return null;
        var last = all[^1];
        if (last.State == RevisionState.Draft) return last;
        var company = await db.Company.AsNoTracking().SingleAsync();
        var now = clock.GetUtcNow().UtcDateTime;
        var today = HouseTime.DayOf(now, HouseTime.Zone(company.TimeZone));
        var draft = Copy(last, now, today.AddDays(company.QuoteValidDays));
        db.QuoteRevisions.Add(draft);
        await db.SaveChangesAsync();
        return draft;
    });

    public static IQueryable<QuoteRevision> WithPrices(this IQueryable<QuoteRevision> revisions) =>
        revisions.Include(r => r.Tiers).ThenInclude(t => t.Lines).Include(r => r.AddOns).Include(r => r.Phase);

    private static QuoteRevision Copy(QuoteRevision r, DateTime now, DateOnly validUntil) => new()
    {
        QuoteId = r.QuoteId,
        Letter = RevisionLetters.After(r.Letter),
        CreatedAtUtc = now,
        ValidUntil = validUntil,
        SuctionDesignId = r.SuctionDesignId,
        TaxPercent = r.TaxPercent,
        DepositPercent = r.DepositPercent,
        DepositDueDays = r.DepositDueDays,
        BalanceDueDays = r.BalanceDueDays,
        Answers = r.Answers,
        Introduction = r.Introduction,
        Scope = r.Scope,
        TimeNeeded = r.TimeNeeded,
        Promise = r.Promise,
        Cautions = r.Cautions,
        Terms = r.Terms,
        CancellationNotice = r.CancellationNotice,
        NoCancelNoticeBecause = r.NoCancelNoticeBecause,
        OwnersPart = r.OwnersPart,
        ElectricityPerYear = r.ElectricityPerYear,
        HeatCablePerYear = r.HeatCablePerYear,
        HouseAirPerYear = r.HouseAirPerYear,
        FanReplacement = r.FanReplacement,
        FanLifeYears = r.FanLifeYears,
        OwningYears = r.OwningYears,
        NotOffered = r.NotOffered,
        RecommendedTier = r.RecommendedTier,
        WhyRecommended = r.WhyRecommended,
        PriceBookVersion = r.PriceBookVersion,
        DiscountPercent = r.DiscountPercent,
        DiscountAmount = r.DiscountAmount,
        DiscountReason = r.DiscountReason,
        AgreedPrice = r.AgreedPrice,
        GuaranteePCiL = r.GuaranteePCiL,
        GuaranteeMonths = r.GuaranteeMonths,
        GuaranteeVisits = r.GuaranteeVisits,
        GuaranteeConditions = r.GuaranteeConditions,
        Phase = r.Phase is { } phase ? Copy(phase) : null,
        Tiers = [.. r.Tiers.OrderBy(t => t.Position).Select(Copy)],
        AddOns = [.. r.AddOns.OrderBy(a => a.Position).Select(Copy)],
    };

    private static QuoteTier Copy(QuoteTier t) => new()
    {
        Position = t.Position,
        Name = t.Name,
        Summary = t.Summary,
        DiscountPercent = t.DiscountPercent,
        DiscountAmount = t.DiscountAmount,
        DiscountReason = t.DiscountReason,
        SuctionDesignId = t.SuctionDesignId,
        Scope = t.Scope,
        ElectricityPerYear = t.ElectricityPerYear,
        HeatCablePerYear = t.HeatCablePerYear,
        HouseAirPerYear = t.HouseAirPerYear,
        FanReplacement = t.FanReplacement,
        FanLifeYears = t.FanLifeYears,
        Lines = [.. t.Lines.OrderBy(l => l.Position).Select(Copy)],
    };

    private static QuotePhase Copy(QuotePhase p) => new()
    {
        Level = p.Level,
        Unit = p.Unit,
        Scope = p.Scope,
        Price = p.Price,
        Cost = p.Cost,
        LabourMinutes = p.LabourMinutes,
        Taxable = p.Taxable,
        ValidUntil = p.ValidUntil,
    };

    private static QuoteLine Copy(QuoteLine l) => new()
    {
        Position = l.Position,
        PriceItemId = l.PriceItemId,
        Words = l.Words,
        Quantity = l.Quantity,
        Unit = l.Unit,
        UnitPrice = l.UnitPrice,
        UnitCost = l.UnitCost,
        LabourMinutes = l.LabourMinutes,
        OfferedFor = l.OfferedFor,
        Taxable = l.Taxable,
    };

    private static QuoteAddOn Copy(QuoteAddOn a) => new()
    {
        Position = a.Position,
        PriceItemId = a.PriceItemId,
        Words = a.Words,
        Reason = a.Reason,
        Quantity = a.Quantity,
        Price = a.Price,
        Cost = a.Cost,
        LabourMinutes = a.LabourMinutes,
        OfferedFor = a.OfferedFor,
        Taxable = a.Taxable,
        Recommended = a.Recommended,
        Beside = a.Beside,
    };
}
