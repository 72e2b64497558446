using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes.Changes;

/// <summary>What changed since the revision before, and since the price book it was priced from.</summary>
public sealed record QuoteChanges(string SinceLetter, IReadOnlyList<ChangeRow> SinceRevision, IReadOnlyList<ChangeRow> SinceBook, int BookNow)
{
    public static readonly QuoteChanges None = new("", [], [], 0);
}

public static class ReadChanges
{
    /// <summary>At most three statements.</summary>
    public static async Task<QuoteChanges> OfAsync(OfficeDb db, QuoteRevision revision, Quote quote, CompanyProfile company)
    {
        var book = await db.PriceItems.AsNoTracking().ToListAsync();
        var facts = await FactsAsync(db, revision, quote.HouseId);
        var before = await db.QuoteRevisions.AsNoTracking().WithPrices().Where(r => r.QuoteId == quote.Id && r.Id < revision.Id).OrderByDescending(r => r.Id).FirstOrDefaultAsync();
        var designs = facts.Designs.ToDictionary(d => d.Id, d => d.Letter);
        return new(before?.Letter ?? "", before is null ? [] : CompareRevisions.Between(before, revision, designs), Today(book, facts, revision, company).Against(revision), facts.BookNow);
    }

    /// <summary>Brings a draft's prices up to the book of today; the caller saves.</summary>
    public static async Task TakeTodaysAsync(OfficeDb db, QuoteRevision revision, Quote quote, CompanyProfile company)
    {
        var facts = await FactsAsync(db, revision, quote.HouseId);
        Today(await db.PriceItems.AsNoTracking().ToListAsync(), facts, revision, company).Into(revision, facts.BookNow);
    }

    private sealed record Facts(int BookNow, List<(int Id, string Letter)> Designs, HashSet<int> Newer);

    private static TodaysBook Today(List<PriceItem> book, Facts facts, QuoteRevision revision, CompanyProfile company) => new(
        book, facts.Newer, company, facts.Designs.Count == 0 ? null : facts.Designs.MaxBy(d => d.Id), facts.Designs.Where(d => d.Id == revision.SuctionDesignId).Select(d => d.Letter).FirstOrDefault());

    private static async Task<Facts> FactsAsync(OfficeDb db, QuoteRevision revision, int houseId)
    {
        var read = await db.Company.AsNoTracking().Select(c => new
        {
            BookNow = db.PriceBookVersions.Max(v => (int?)v.Number) ?? 0,
            Designs = db.Designs.Where(d => d.HouseId == houseId).Select(d => new { d.Id, d.Revision }).ToList(),
            Newer = db.PriceBookVersions.Where(v => v.Number > revision.PriceBookVersion).SelectMany(v => v.Changes).Where(c => c.Act == PriceAct.Added && c.PriceItemId != null).Select(c => c.PriceItemId!.Value).ToList(),
        }).AsSingleQuery().SingleAsync();
        return new(read.BookNow, [.. read.Designs.Select(d => (d.Id, d.Revision))], [.. read.Newer]);
    }
}
