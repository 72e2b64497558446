using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Tests.Quotes;

/// <summary>A quote on its way.</summary>
public sealed record QuoteAtHand(int HouseId, int QuoteId, int RevisionId);

/// <summary>A quote that is out, with the secret of its link and what can be chosen.</summary>
public sealed record OfferOut(int HouseId, int QuoteId, int RevisionId, string Token, IReadOnlyList<int> TierIds, IReadOnlyList<int> AddOnIds)
{
    public string Path => $"/offer/{Token}";
}

/// <summary>Ways to bring a house to a quote and further.</summary>
public static class QuoteVerbs
{
    private static int _houses;

    /// <summary>A small price book, once in an office.</summary>
    public static Task PriceBookAsync(this OfficeApp office) => office.WithDbAsync(async db =>
    {
        if (await db.PriceItems.AnyAsync()) return;
        db.PriceItems.AddRange(
            new PriceItem { Code = "PIT", Name = "Suction point, cored and cleaned out", Kind = PriceKind.Labour, Cost = Money.FromDollars(40), MarkupPercent = 50, LabourMinutes = 120, TakenBy = TakenBy.SuctionPoint, FromTier = 1 },
            new PriceItem { Code = "PIPE4", Name = "4 in pipe", Unit = "ft", Cost = Money.FromDollars(3.21m), MarkupPercent = 60, LabourMinutes = 4, Taxable = true, TakenBy = TakenBy.PipeFoot, PipeSize = "4in", FromTier = 1 },
            new PriceItem { Code = "ELEC", Name = "Licensed electrician", Kind = PriceKind.Subcontract, Cost = Money.FromDollars(300), MarkupPercent = 15, FromTier = 1 },
            new PriceItem { Code = "CABLE", Name = "Freeze-guard heat cable", Use = PriceUse.AddOn, Rule = PriceRule.Fixed, FixedPrice = Money.FromDollars(480), Cost = Money.FromDollars(210), Taxable = true, FromTier = 3, OfferedFor = OfferReason.FreezeGuard, Reason = "Ice closes the outdoor pipe on the coldest days." },
            new PriceItem { Code = "BYPASS", Name = "Condensate bypass at the fan", Use = PriceUse.AddOn, Rule = PriceRule.Fixed, FixedPrice = Money.FromDollars(160), Taxable = true, FromTier = 2, OfferedFor = OfferReason.CondensateBypass, Reason = "Water from the pipe does not run through the fan." },
            new PriceItem { Code = "ALARM2", Name = "Second alarm on the ground floor", Use = PriceUse.AddOn, Rule = PriceRule.Fixed, FixedPrice = Money.FromDollars(95), Taxable = true, Reason = "The first cannot be heard upstairs." });
        await db.SaveChangesAsync();
    });

    /// <summary>A house with an owner and a test of 9.6 pCi/L.</summary>
    public static async Task<int> HouseToQuoteAsync(this OfficeApp office, string customer = "Rosalind Quill", string street = "14 Larkspur Hill")
    {
        await office.PriceBookAsync();
        var n = Interlocked.Increment(ref _houses);
        return await office.WithDbAsync(async db =>
        {
            var owner = new Customer { Name = customer, Email = $"owner{n}@quill.example", Phone = "555-0123" };
            var house = new House
            {
                Street = street,
                City = "Birchford",
                State = "MN",
                Zip = "55999",
                AskedAtUtc = office.Clock.GetUtcNow().UtcDateTime,
                EarlierTests = [new() { PCiL = 9.6m, Room = "basement", StartedOn = new DateOnly(2025, 10, 20), EndedOn = new DateOnly(2025, 10, 23) }],
                Owners = [new() { Customer = owner, FromDay = new DateOnly(2020, 1, 1) }],
            };
            owner.MakeSearchable();
            house.MakeSearchable();
            db.Houses.Add(house);
            await db.SaveChangesAsync();
            return house.Id;
        });
    }

    /// <summary>A draft with everything that is needed to send it.</summary>
    public static async Task<QuoteAtHand> DraftedQuoteAsync(this OfficeApp office, int? houseId = null, string customer = "Rosalind Quill")
    {
        var house = houseId ?? await office.HouseToQuoteAsync(customer);
        return await office.WithDbAsync(async db =>
        {
            var draft = (await DraftQuote.ForHouseAsync(db, house, null, office.Clock))!;
            (draft.Scope, draft.ElectricityPerYear, draft.TaxPercent) = ("A pit, a pipe, a fan, an alarm.", Money.FromDollars(23), 6.875m);
            draft.WhyRecommended = "Water in the pipe wears the fan.";
            await db.SaveChangesAsync();
            return new QuoteAtHand(house, draft.QuoteId, draft.Id);
        });
    }

    /// <summary>A house whose owner has a link to a quote.</summary>
    public static async Task<OfferOut> HouseWithSentQuoteAsync(this OfficeApp office, string customer = "Rosalind Quill") =>
        await office.SendAsync(await office.DraftedQuoteAsync(customer: customer));

    public static async Task<OfferOut> SendAsync(this OfficeApp office, QuoteAtHand draft)
    {
        var version = await office.WithDbAsync(db => db.QuoteRevisions.Where(r => r.Id == draft.RevisionId).Select(r => r.Version).SingleAsync());
        return await office.WithDbAsync(async db =>
        {
            var sent = await SendQuote.NowAsync(db, draft.RevisionId, version, await office.LetterheadAsync(db), office.Clock, "Ada Quill");
            Assert.True(sent.Token is not null, sent.Problem + string.Join(' ', sent.Gaps.Select(g => g.Words)));
            var revision = await db.QuoteRevisions.AsNoTracking().WithPrices().SingleAsync(r => r.Id == draft.RevisionId);
            return new OfferOut(draft.HouseId, draft.QuoteId, draft.RevisionId, sent.Token!,
                [.. revision.Tiers.OrderBy(t => t.Position).Select(t => t.Id)], [.. revision.AddOns.OrderBy(a => a.Position).Select(a => a.Id)]);
        });
    }

    /// <summary>A quote signed by the house owner: the second choice with nothing added unless said otherwise.</summary>
    public static async Task<Acceptance> AcceptedQuoteAsync(this OfficeApp office, OfferOut? offer = null)
    {
        var at = offer ?? await office.HouseWithSentQuoteAsync();
        return await office.WithDbAsync(async db =>
        {
            var outcome = await AcceptQuote.ByLinkAsync(
                db, at.Token, new Signature(at.TierIds[1], [], "Rosalind Quill", true, true, "192.0.2.7", "test"), await office.LetterheadAsync(db), office.Clock);
            Assert.True(outcome.AcceptanceId > 0, outcome.State.ToString());
            return await db.Acceptances.AsNoTracking().SingleAsync(a => a.Id == outcome.AcceptanceId);
        });
    }

    public static async Task<MailIdentity> LetterheadAsync(this OfficeApp office, OfficeDb db) =>
        Letterhead.Of(await db.Company.AsNoTracking().SingleAsync(), office.Services.GetRequiredService<MailSettings>());
}
