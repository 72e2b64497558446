using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Engineering.Dates;

namespace MitigationOffice.Web.Pages.Offer;

/// <summary>What the house owner's page shows of a live offer: the least that is needed to choose.</summary>
public sealed record OfferView(
    string Company, string Phone, string Street, string Number, string Answers, string Introduction, string Promise, string Cautions, string CancellationNotice, bool Cancellable,
    DateOnly? ValidUntil, DateOnly CancelBy, decimal TaxPercent, decimal DepositPercent, int RecommendedTier, string WhyRecommended,
    IReadOnlyList<QuoteTier> Tiers, IReadOnlyList<QuoteAddOn> AddOns)
{
    public static async Task<OfferView> LoadAsync(OfficeDb db, int revisionId, DateTime nowUtc)
    {
        var r = await db.QuoteRevisions.AsNoTracking().WithPrices().Include(x => x.Quote).SingleAsync(x => x.Id == revisionId);
        var house = await db.Houses.Where(h => h.Id == r.Quote!.HouseId).Select(h => new { h.Street, h.TimeZone }).SingleAsync();
        var company = await db.Company.Select(c => new { c.Name, c.Phone, c.TimeZone }).SingleAsync();
        var today = HouseTime.DayOf(nowUtc, HouseTime.Zone(house.TimeZone, company.TimeZone));
        return new(
            company.Name, company.Phone, house.Street, $"{r.Quote!.Number} {r.Letter}", r.Answers, r.Introduction, r.Promise, r.Cautions, r.CancellationNotice, r.NoCancelNoticeBecause.Length == 0,
            r.ValidUntil, RightToCancel.LastDay(today), r.TaxPercent, r.DepositPercent, r.RecommendedTier, r.WhyRecommended,
            [.. r.Tiers.OrderBy(t => t.Position)], [.. r.AddOns.OrderBy(a => a.Position).ThenBy(a => a.Id)])
        {
            Running = r,
        };
    }

    private QuoteRevision Running { get; init; } = new() { Letter = "" };

    public Money ElectricityPerYear(QuoteTier tier) => RunningCost.Of(Running, tier).Electricity;

    /// <summary>Whether the choices stand on different designs.</summary>
    public bool Differ => Tiers.Any(t => t.SuctionDesignId is not null);

    /// <summary>The design of a choice; null: quoted by hand.</summary>
    public int? DesignOf(QuoteTier tier) => tier.SuctionDesignId ?? Running.SuctionDesignId;

    public IReadOnlyList<string> OwningAssumptions => CostOfOwning.Assumptions(Running);

    public Owning Owning(QuoteTier tier, IEnumerable<QuoteAddOn> addOns) => CostOfOwning.Of(Running, tier, addOns);

    /// <summary>The second phase in words; empty where the quote holds none.</summary>
    public string PhaseWords => Running.Phase is { } phase ? PhaseTrigger.WordsOf(phase, TaxPercent) : "";

    public string GuaranteeText => GuaranteeWords.Of(Running);

    public string GuaranteeConditions => GuaranteeWords.IsGiven(Running) ? Running.GuaranteeConditions : "";

    public QuoteTotals Totals(QuoteTier tier, IEnumerable<QuoteAddOn> addOns) => PriceQuote.Of(Running, tier, addOns);
}

/// <summary>What a link that is not live says. No names, no address, no price.</summary>
public static class OfferWords
{
    public static (string Heading, string Words) Of(OfferState state) => state switch
    {
        OfferState.Accepted => ("This quote has been accepted", "A signed copy was mailed when it was accepted. If you need another one, ask the company that sent it."),
        OfferState.Declined => ("This quote has been declined", "Nothing more will happen. If you change your mind, ask the company that sent it for a new quote."),
        OfferState.Replaced => ("This quote has been replaced", "A newer quote was sent to you. Please use the link in the latest message."),
        OfferState.Withdrawn => ("This quote has been withdrawn", "The company took it back. Please ask them for a new one."),
        OfferState.Expired => ("This quote has expired", "The day until which it held is past. Please ask the company that sent it for a new one."),
        OfferState.Ended => ("This link has ended", "If a newer message was sent to you, use the link in it. Otherwise ask the company that sent the quote."),
        _ => ("This link leads nowhere", "Check that the whole link was copied from the message. If it still does not work, ask the company that sent it."),
    };

    /// <summary>Built by hand: the pages' own link maker writes addresses in lower case, and a token is not.</summary>
    public static string Address(string token, string below = "") => $"/offer/{Uri.EscapeDataString(token)}{below}";

    public static int StatusOf(OfferState state) => state switch
    {
        OfferState.Unknown => StatusCodes.Status404NotFound,
        OfferState.Accepted or OfferState.Live => StatusCodes.Status200OK,
        _ => StatusCodes.Status410Gone,
    };
}
