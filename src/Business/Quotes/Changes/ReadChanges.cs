using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes.Changes;

/// <summary>What changed since the revision before, and since the price book it was priced from.</summary>
public sealed record QuoteChanges(string SinceLetter, IReadOnlyList<ChangeRow> SinceRevision, IReadOnlyList<ChangeRow> SinceBook, int BookNow)
{
    public static readonly QuoteChanges None = new("", [], [], 0);

    /// <summary>The letter of the design that is quoted; null: by hand.</summary>
    public string? QuotedDesign { get; init; }

    /// <summary>What the designs that the quote stands on leave open.</summary>
    public IReadOnlyList<QuoteGap> Doubts { get; init; } = [];

    /// <summary>Letters of the house's designs, by their ids.</summary>
    public IReadOnlyDictionary<int, string> Designs { get; init; } = new Dictionary<int, string>();
}

public static class ReadChanges
{
    /// <summary>At most three statements.</summary>
    /// <param name="book">Every item of the price book, retired ones too.</param>
    public static async Task<QuoteChanges> OfAsync(OfficeDb db, QuoteRevision revision, Quote quote, CompanyProfile company, IReadOnlyList<PriceItem> book)
    {
        var facts = await FactsAsync(db, revision, quote.HouseId);
        var before = revision.Letter == RevisionLetters.After(null) ? null
            : await db.QuoteRevisions.AsNoTracking().WithPrices().Where(r => r.QuoteId == quote.Id && r.Id < revision.Id).OrderByDescending(r => r.Id).FirstOrDefaultAsync();
        return new(before?.Letter ?? "", before is null ? [] : CompareRevisions.Between(before, revision, facts.Designs), Today(book, facts, revision, company).Against(revision), facts.BookNow)
        {
            Designs = facts.Designs,
            Doubts = facts.Doubts,
            QuotedDesign = revision.SuctionDesignId is { } id ? facts.Designs.GetValueOrDefault(id) : null,
        };
    }

    /// <summary>Brings a draft's prices up to the book of today; the caller saves.</summary>
    public static async Task TakeTodaysAsync(OfficeDb db, QuoteRevision revision, Quote quote, CompanyProfile company, IReadOnlyList<PriceItem> book)
    {
        var facts = await FactsAsync(db, revision, quote.HouseId);
        Today(book, facts, revision, company).Into(revision, facts.BookNow);
    }

    private sealed record Facts(int BookNow, Dictionary<int, string> Designs, HashSet<int> Newer, IReadOnlyList<QuoteGap> Doubts);

    private static TodaysBook Today(IReadOnlyList<PriceItem> book, Facts facts, QuoteRevision revision, CompanyProfile company) => new(
        book, facts.Newer, company, facts.Designs.Count == 0 ? null : facts.Designs.Select(d => (d.Key, d.Value)).MaxBy(d => d.Key),
        revision.SuctionDesignId is { } id ? facts.Designs.GetValueOrDefault(id) : null);

    private static async Task<Facts> FactsAsync(OfficeDb db, QuoteRevision revision, int houseId)
    {
        var quoted = revision.Tiers.Select(t => t.SuctionDesignId).Append(revision.SuctionDesignId).OfType<int>().Distinct().ToList();
        var designs = await db.Designs.Where(d => d.HouseId == houseId).OrderBy(d => d.Id)
            .Select(d => new { d.Id, d.Revision, Quoted = quoted.Contains(d.Id), Report = quoted.Contains(d.Id) ? d.ReportJson : null }).ToListAsync();
        var later = await (from v in db.PriceBookVersions
                           where v.Number > revision.PriceBookVersion
                           from c in v.Changes
                           select new { v.Number, c.Act, c.PriceItemId }).ToListAsync();
        return new(later.Select(l => l.Number).DefaultIfEmpty(revision.PriceBookVersion).Max(), designs.ToDictionary(d => d.Id, d => d.Revision),
            [.. later.Where(l => l.Act == PriceAct.Added).Select(l => l.PriceItemId).OfType<int>()], [.. designs.Where(d => d.Quoted).SelectMany(d => DesignDoubts.Of(d.Revision, d.Report))]);
    }
}
