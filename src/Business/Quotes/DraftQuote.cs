using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>Begins a quote for a house with a proposal to be edited.</summary>
public static class DraftQuote
{
    /// <summary>A new quote, revision A, from a design where one is named. Null when the house has no owner to quote to.</summary>
    public static Task<QuoteRevision?> ForHouseAsync(OfficeDb db, int houseId, int? designId, TimeProvider clock) => db.WriteAsync(async () =>
    {
        var house = await db.Houses.Include(h => h.EarlierTests).Include(h => h.Owners).SingleAsync(h => h.Id == houseId);
        if (house.Owners.Where(o => o.ToDay is null).MaxBy(o => o.FromDay) is not { } owner) return null;
        var company = await db.Company.SingleAsync();
        var now = clock.GetUtcNow().UtcDateTime;
        var today = HouseTime.DayOf(now, HouseTime.Zone(house.TimeZone, company.TimeZone));
        var quote = new Quote { Number = await TakeNumber.NextAsync(db, "Q", today.Year), HouseId = houseId, CustomerId = owner.CustomerId, CreatedAtUtc = now };
        var revision = new QuoteRevision
        {
            Letter = "A", CreatedAtUtc = now, SuctionDesignId = designId, ValidUntil = today.AddDays(company.QuoteValidDays),
            TaxPercent = company.TaxPercent, DepositPercent = company.DepositPercent, Answers = AnswersOf(house),
        };
        QuoteTexts.Fill(revision, company);
        ProposeTiers.Into(revision, company, house, await TakeOffAsync(db, revision), await db.PriceItems.AsNoTracking().ToListAsync());
        quote.Revisions.Add(revision);
        db.Quotes.Add(quote);
        await db.SaveChangesAsync();
        return revision;
    });

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

    private static async Task<TakeOff> TakeOffAsync(OfficeDb db, QuoteRevision revision)
    {
        if (revision.SuctionDesignId is not { } id) return TakeOff.ByHand;
        var design = await db.Designs.AsNoTracking().Include(d => d.Pieces).SingleAsync(d => d.Id == id);
        var report = (await ComputeDesign.ReadAsync(db, design)).Report;
        var fan = await db.Fans.AsNoTracking().FirstOrDefaultAsync(f => f.Id == design.FanId || (design.FanId == null && report != null && f.Model == report.ShownFan));
        var takeOff = TakeOff.Of(design, fan, report?.Freeze);
        revision.Scope = Scope(takeOff);
        if (report?.Shown is { OnCurve: true } shown) revision.ElectricityPerYear = Money.FromDollars((decimal)shown.ElectricityDollarsPerYear);
        return takeOff;
    }

    private static string Scope(TakeOff takeOff) => string.Join(' ', new[]
    {
        "We draw air from a pit under the slab through a sealed pipe to an outdoor discharge and seal the openings in the slab that we can reach.",
        takeOff.PipeFeet > 0 ? $"The pipe is about {TypedNumbers.Plain(takeOff.PipeFeet)} ft long, {TypedNumbers.Plain(takeOff.OutdoorFeet)} ft of it outdoors." : "",
        takeOff.Fan is { } fan ? $"The fan is a {fan.Model}." : "",
        "A gauge and an alarm show whether the system works, and it is labeled. The house is tested for radon afterwards.",
    }.Where(s => s.Length > 0));
}
