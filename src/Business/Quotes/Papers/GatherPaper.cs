using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes.Papers;

/// <summary>A revision with everything that stands around it.</summary>
public sealed record QuoteInFull(QuoteRevision Revision, Quote Quote, House House, Customer Customer, CompanyProfile Company)
{
    public TimeZoneInfo Zone => HouseTime.Zone(House.TimeZone, Company.TimeZone);

    public QuoteOnPaper OnPaper(DateTime atUtc) => new(
        Revision, Quote.Number, House.AddressLine, Customer.Name, Company, atUtc, HouseTime.DayOf(atUtc, Zone), House.YearsInUse ?? 10);

    public IReadOnlyList<QuoteGap> Gaps(DateTime nowUtc) => CheckQuote.Gaps(Revision, Company, Customer, HouseTime.DayOf(nowUtc, Zone));
}

/// <summary>Reads what a quote's paper says.</summary>
public static class GatherPaper
{
    public static async Task<QuoteInFull?> OfAsync(OfficeDb db, int revisionId)
    {
        var revision = await db.QuoteRevisions.WithPrices().Include(r => r.Quote).SingleOrDefaultAsync(r => r.Id == revisionId);
        if (revision?.Quote is not { } quote) return null;
        return new(revision, quote,
            await db.Houses.AsNoTracking().SingleAsync(h => h.Id == quote.HouseId),
            await db.Customers.AsNoTracking().SingleAsync(c => c.Id == quote.CustomerId),
            await db.Company.AsNoTracking().SingleAsync());
    }
}
