using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Documents.Drawing;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes.Papers;

/// <summary>A revision with everything that stands around it.</summary>
public sealed record QuoteInFull(QuoteRevision Revision, Quote Quote, House House, Customer Customer, CompanyProfile Company)
{
    public IReadOnlyList<Licence> Licences { get; init; } = [];

    public TimeZoneInfo Zone => HouseTime.Zone(House.TimeZone, Company.TimeZone);

    public QuoteOnPaper OnPaper(DateTime atUtc) => new(
        Revision, Quote.Number, House.AddressLine, Customer.Name, Company, atUtc, HouseTime.DayOf(atUtc, Zone));

    public IReadOnlyList<QuoteGap> Gaps(DateTime nowUtc) => CheckQuote.Gaps(Revision, Company, Customer, Licences, HouseTime.DayOf(nowUtc, Zone));
}

/// <summary>Reads what a quote's paper says.</summary>
public static class GatherPaper
{
    public static async Task<QuoteInFull?> OfAsync(OfficeDb db, int revisionId)
    {
        // Lines times additions would be one long answer; apart they are two short ones, and the tracker joins them.
        var revision = await db.QuoteRevisions.Include(r => r.AddOns).Include(r => r.Phase).Include(r => r.Quote).AsSingleQuery().SingleOrDefaultAsync(r => r.Id == revisionId);
        if (revision?.Quote is not { } quote) return null;
        await db.Set<QuoteTier>().Include(t => t.Lines).AsSingleQuery().Where(t => t.QuoteRevisionId == revisionId).OrderBy(t => t.Id).LoadAsync();
        var around = await (from h in db.Houses.AsNoTracking()
                            where h.Id == quote.HouseId
                            from c in db.Customers.AsNoTracking()
                            where c.Id == quote.CustomerId
                            from company in db.Company.AsNoTracking()
                            select new { House = h, Customer = c, Company = company }).SingleAsync();
        var licences = revision.State == RevisionState.Draft ? await db.Licences.AsNoTracking().ToListAsync() : [];
        return new(revision, quote, around.House, around.Customer, around.Company) { Licences = licences };
    }

    /// <summary>The sections through the house, one for each design that is quoted, with the choices that stand on it; none where
    /// it was quoted by hand.</summary>
    public static async Task<IReadOnlyList<QuotedDrawing>> SectionsAsync(OfficeDb db, QuoteInFull full)
    {
        var revision = full.Revision;
        var designs = revision.Tiers.OrderBy(t => t.Position).GroupBy(t => t.SuctionDesignId ?? revision.SuctionDesignId).Where(g => g.Key is not null).ToList();
        if (designs.Count == 0) return [];
        var house = await db.Houses.AsNoTracking().Include(h => h.Areas).SingleAsync(h => h.Id == full.House.Id);
        var drawings = new List<QuotedDrawing>();
        foreach (var tiers in designs)
        {
            var design = await db.Designs.AsNoTracking().WithRoute().SingleAsync(d => d.Id == tiers.Key);
            var facts = SectionOfDesign.Of(design, (await ComputeDesign.ReadAsync(db, design)).Report, house, full.House.Street, UnitSystem.US);
            drawings.Add(new(designs.Count == 1 ? "" : string.Join(" and ", tiers.Select(t => $"“{t.Name}”")), HouseSection.Draw(facts)));
        }

        return drawings;
    }
}
