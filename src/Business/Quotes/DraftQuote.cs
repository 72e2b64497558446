using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>Begins a quote for a house with a proposal to be edited.</summary>
public static class DraftQuote
{
    /// <summary>A new quote, revision A, from a design where one is named. Null when the house has no owner to quote to.</summary>
    public static async Task<QuoteRevision?> ForHouseAsync(OfficeDb db, int houseId, int? designId, TimeProvider clock)
    {
        var computed = await ComputedDesign.OfAsync(db, designId, clock);
        return await db.WriteAsync(() => WriteAsync(db, houseId, designId, computed, clock));
    }

    private static async Task<QuoteRevision?> WriteAsync(OfficeDb db, int houseId, int? designId, ComputedDesign computed, TimeProvider clock)
    {
        var house = await QuoteBasis.HouseAsync(db, houseId);
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
        var basis = QuoteBasis.Of(company, house, computed);
        var book = await db.PriceItems.AsNoTracking().ToListAsync();
        ProposeTiers.Into(revision, basis, book);
        RunningCost.From(basis, book).Into(revision);
        if (ProposePhase.IsInDoubt(basis, book)) revision.Phase = ProposePhase.Of(basis, book, today);
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

    public static string Scope(ComputedDesign computed) => string.Join(' ', new[]
    {
        $"We draw air from {(computed.TakeOff.SuctionPoints == 1 ? "a pit" : $"{TypedNumbers.Plain(computed.TakeOff.SuctionPoints)} pits")} under the slab through a sealed pipe to an outdoor discharge and seal the openings in the slab that we can reach.",
        computed.TakeOff.PipeFeet > 0 ? $"The pipe is about {TypedNumbers.Plain(computed.TakeOff.PipeFeet)} ft long, {TypedNumbers.Plain(computed.TakeOff.OutdoorFeet)} ft of it outdoors." : "",
        computed.Fan is { } fan ? $"The fan is a {fan.Model}." : "",
        "A gauge and an alarm show whether the system works, and it is labeled. The house is tested for radon afterwards.",
    }.Where(s => s.Length > 0));
}
