using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes;

/// <summary>One quote in the list, by its latest revision. The total is the accepted one, else that of the recommended choice.</summary>
public sealed record QuoteRow(
    int HouseId, int RevisionId, string Number, string Letter, string House, string Customer, RevisionState State, bool Expired, DateOnly? SentOn, DateOnly? ValidUntil, Money? Total)
{
    public string StateWord => Expired ? "Expired" : State == RevisionState.Sent ? "Out" : State.ToString();
}

/// <summary>What is asked of the list.</summary>
/// <param name="Find">Searched words in the form of <see cref="SearchText"/>.</param>
/// <param name="State">A state's name, "Expired", or empty for all.</param>
/// <param name="Sort">A column's name, "-down" behind it for downwards.</param>
public sealed record AskedQuotes(string Find, string State, string Sort);

public static class ListQuotes
{
    public const int OnAPage = 100;

    public static async Task<List<QuoteRow>> RunAsync(OfficeDb db, AskedQuotes asked, DateTime nowUtc, int skip, int take)
    {
        var zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        var today = HouseTime.DayOf(nowUtc, zone);
        var found = await Sorted(Kept(Latest(db), asked, today), asked.Sort).Skip(skip).Take(take).ToListAsync();
        var totals = await TotalsAsync(db, [.. found.Select(f => f.RevisionId)]);
        return [.. found.Select(f => new QuoteRow(
            f.HouseId, f.RevisionId, f.Number, f.Letter, $"{f.Street}, {f.City}", f.Customer, f.State, f.State == RevisionState.Sent && f.ValidUntil < today,
            f.SentAtUtc is { } at ? HouseTime.DayOf(at, zone) : null, f.ValidUntil,
            f.AcceptedCents is { } cents ? new Money(cents) : totals.TryGetValue(f.RevisionId, out var total) ? total : null))];
    }

    private sealed class Found
    {
        public int HouseId { get; init; }
        public int RevisionId { get; init; }
        public required string Number { get; init; }
        public required string Letter { get; init; }
        public required string Street { get; init; }
        public required string City { get; init; }
        public required string HouseSearch { get; init; }
        public required string Customer { get; init; }
        public required string CustomerSearch { get; init; }
        public RevisionState State { get; init; }
        public DateTime? SentAtUtc { get; init; }
        public DateOnly? ValidUntil { get; init; }
        public long? AcceptedCents { get; init; }
    }

    private static IQueryable<Found> Latest(OfficeDb db) =>
        from r in db.QuoteRevisions.AsNoTracking()
        where !db.QuoteRevisions.Any(later => later.QuoteId == r.QuoteId && later.Id > r.Id)
        join h in db.Houses on r.Quote!.HouseId equals h.Id
        join c in db.Customers on r.Quote!.CustomerId equals c.Id
        select new Found
        {
            HouseId = h.Id,
            RevisionId = r.Id,
            Number = r.Quote!.Number,
            Letter = r.Letter,
            Street = h.Street,
            City = h.City,
            HouseSearch = h.Search,
            Customer = c.Name,
            CustomerSearch = c.Search,
            State = r.State,
            SentAtUtc = r.SentAtUtc,
            ValidUntil = r.ValidUntil,
            AcceptedCents = db.Acceptances.Where(a => a.QuoteRevisionId == r.Id).Select(a => (long?)a.Total.Cents).FirstOrDefault(),
        };

    private static IQueryable<Found> Kept(IQueryable<Found> all, AskedQuotes asked, DateOnly today)
    {
        foreach (var word in asked.Find.Split(' ', StringSplitOptions.RemoveEmptyEntries).Take(8))
        {
            var number = word.ToUpperInvariant();
            all = all.Where(f => f.HouseSearch.Contains(word) || f.CustomerSearch.Contains(word) || f.Number.Contains(number));
        }

        if (asked.State == "Expired") return all.Where(f => f.State == RevisionState.Sent && f.ValidUntil < today);
        if (!Enum.TryParse<RevisionState>(asked.State, out var state)) return all;
        return all.Where(f => f.State == state && (state != RevisionState.Sent || f.ValidUntil >= today));
    }

    private static IQueryable<Found> Sorted(IQueryable<Found> all, string sort) => sort switch
    {
        "number" => all.OrderBy(f => f.Number),
        "house" => all.OrderBy(f => f.Street).ThenBy(f => f.RevisionId),
        "house-down" => all.OrderByDescending(f => f.Street).ThenBy(f => f.RevisionId),
        "customer" => all.OrderBy(f => f.Customer).ThenBy(f => f.RevisionId),
        "customer-down" => all.OrderByDescending(f => f.Customer).ThenBy(f => f.RevisionId),
        "state" => all.OrderBy(f => f.State).ThenBy(f => f.RevisionId),
        "state-down" => all.OrderByDescending(f => f.State).ThenBy(f => f.RevisionId),
        "sent" => all.OrderBy(f => f.SentAtUtc == null).ThenBy(f => f.SentAtUtc).ThenBy(f => f.RevisionId),
        "sent-down" => all.OrderBy(f => f.SentAtUtc == null).ThenByDescending(f => f.SentAtUtc).ThenBy(f => f.RevisionId),
        "valid" => all.OrderBy(f => f.ValidUntil == null).ThenBy(f => f.ValidUntil).ThenBy(f => f.RevisionId),
        "valid-down" => all.OrderBy(f => f.ValidUntil == null).ThenByDescending(f => f.ValidUntil).ThenBy(f => f.RevisionId),
        _ => all.OrderByDescending(f => f.Number),
    };

    private static async Task<Dictionary<int, Money>> TotalsAsync(OfficeDb db, List<int> revisionIds)
    {
        var revisions = await db.QuoteRevisions.AsNoTracking().Where(r => revisionIds.Contains(r.Id))
            .Include(r => r.Tiers).ThenInclude(t => t.Lines).ToListAsync();
        return revisions.Where(r => r.Tiers.Any(t => t.Position == r.RecommendedTier))
            .ToDictionary(r => r.Id, r => PriceQuote.Of(r, r.Tiers.First(t => t.Position == r.RecommendedTier), []).Total);
    }
}
