using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>Begins a quote for a house with a proposal to be edited.</summary>
public static class DraftQuote
{
    /// <summary>A new quote, revision A, from a design where one is named. Null when the house has no owner to quote to.</summary>
    public static async Task<QuoteRevision?> ForHouseAsync(OfficeDb db, int houseId, int? designId, TimeProvider clock)
    {
        var computed = await ComputedAsync(db, designId, clock);
        return await db.WriteAsync(() => WriteAsync(db, houseId, designId, computed, clock));
    }

    private static async Task<QuoteRevision?> WriteAsync(OfficeDb db, int houseId, int? designId, Computed computed, TimeProvider clock)
    {
        var house = await db.Houses.Include(h => h.EarlierTests).Include(h => h.Owners).Include(h => h.Areas).Include(h => h.Appliances).AsSplitQuery().SingleAsync(h => h.Id == houseId);
        if (house.Owners.Where(o => o.ToDay is null).MaxBy(o => o.FromDay) is not { } owner) return null;
        var company = await db.Company.SingleAsync();
        var now = clock.GetUtcNow().UtcDateTime;
        var today = HouseTime.DayOf(now, HouseTime.Zone(house.TimeZone, company.TimeZone));
        var quote = new Quote { Number = await TakeNumber.NextAsync(db, "Q", today.Year), HouseId = houseId, CustomerId = owner.CustomerId, CreatedAtUtc = now };
        var revision = new QuoteRevision
        {
            Letter = "A",
            CreatedAtUtc = now,
            SuctionDesignId = designId,
            ValidUntil = today.AddDays(company.QuoteValidDays),
            TaxPercent = company.TaxPercent,
            DepositPercent = company.DepositPercent,
            Answers = AnswersOf(house),
            OwningYears = Math.Clamp(house.YearsInUse ?? CostOfOwning.UsualYears, 1, CostOfOwning.MostYears),
            PriceBookVersion = await db.PriceBookVersions.MaxAsync(v => (int?)v.Number) ?? 0,
            Scope = designId is null ? "" : Scope(computed),
        };
        QuoteTexts.Fill(revision, company);
        var basis = new QuoteBasis(company, house, computed.TakeOff) { Report = computed.Report, Fan = computed.Fan };
        var book = await db.PriceItems.AsNoTracking().ToListAsync();
        ProposeTiers.Into(revision, basis, book);
        CostOfOwning.Fill(revision, basis, book);
        quote.Revisions.Add(revision);
        db.Quotes.Add(quote);
        await db.SaveChangesAsync();
        return revision;
    }

    /// <summary>"The test of Oct 20–23, 2026 in the basement: 9.6 pCi/L." The highest result counts.</summary>
    public static string AnswersOf(House house)
    {
        if (house.EarlierTests.OrderByDescending(t => t.PCiL).FirstOrDefault() is not { } test) return "";
        var days = (test.StartedOn, test.EndedOn) switch
        {
            ({ } from, { } to) when from != to => $" of {HouseTime.Show(from)} to {HouseTime.Show(to)}",
            ({ } from, _) => $" of {HouseTime.Show(from)}",
            (_, { } to) => $" of {HouseTime.Show(to)}",
            _ => "",
        };
        var room = test.Room.Length == 0 ? "" : $" ({test.Room})";
        return string.Create(CultureInfo.InvariantCulture, $"The radon test{days}{room}: {Math.Round(test.PCiL, 1, MidpointRounding.AwayFromZero):0.0} pCi/L.");
    }

    private sealed record Computed(TakeOff TakeOff, DesignReport? Report, Fan? Fan);

    /// <summary>Outside the transaction, which holds up all other writers.</summary>
    private static async Task<Computed> ComputedAsync(OfficeDb db, int? designId, TimeProvider clock)
    {
        if (designId is null) return new(TakeOff.ByHand, null, null);
        var design = await db.Designs.WithRoute().SingleAsync(d => d.Id == designId);
        var report = (await ComputeDesign.StoreAsync(db, design, clock)).Report;
        var shown = report?.ShownFan;
        var fan = await db.Fans.AsNoTracking().FirstOrDefaultAsync(f => f.Id == design.FanId || (design.FanId == null && f.Model == shown));
        return new(TakeOff.Of(design), report, fan);
    }

    private static string Scope(Computed computed) => string.Join(' ', new[]
    {
        $"We draw air from {(computed.TakeOff.SuctionPoints == 1 ? "a pit" : $"{TypedNumbers.Plain(computed.TakeOff.SuctionPoints)} pits")} under the slab through a sealed pipe to an outdoor discharge and seal the openings in the slab that we can reach.",
        computed.TakeOff.PipeFeet > 0 ? $"The pipe is about {TypedNumbers.Plain(computed.TakeOff.PipeFeet)} ft long, {TypedNumbers.Plain(computed.TakeOff.OutdoorFeet)} ft of it outdoors." : "",
        computed.Fan is { } fan ? $"The fan is a {fan.Model}." : "",
        "A gauge and an alarm show whether the system works, and it is labeled. The house is tested for radon afterwards.",
    }.Where(s => s.Length > 0));
}
