using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes.Sales;

/// <summary>Counts what sells. A quote counts once, by its latest revision that went out; a quote for an agreed second phase does not
/// count, for it was sold before.</summary>
public static class ReadSalesFigures
{
    private sealed record Row(int QuoteId, int RevisionId, RevisionState State, LostBecause Because, DateOnly? ValidUntil, DateTime FirstSent, DateTime? ClosedAtUtc);

    private sealed record Signed(int RevisionId, int TierId, string AddOnIds, long TotalCents, DateTime AtUtc);

    public static async Task<SalesFigures> OfAsync(OfficeDb db, DateOnly from, DateOnly to, DateTime nowUtc)
    {
        var zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        var (start, end) = (HouseTime.ToUtc(from, TimeOnly.MinValue, zone), HouseTime.ToUtc(to.AddDays(1), TimeOnly.MinValue, zone));
        var rows = await RowsAsync(db, start, end);
        var ids = rows.ConvertAll(r => r.RevisionId);
        var signed = (await db.Acceptances.AsNoTracking().Where(a => ids.Contains(a.QuoteRevisionId)).Select(a => new Signed(a.QuoteRevisionId, a.QuoteTierId, a.AddOnIds, a.Total.Cents, a.AtUtc)).ToListAsync()).ToDictionary(s => s.RevisionId);
        var revisions = await db.QuoteRevisions.AsNoTracking().WithPrices().AsSplitQuery().Where(r => ids.Contains(r.Id)).ToListAsync();
        var today = HouseTime.DayOf(nowUtc, zone);
        var open = rows.Where(r => r.State == RevisionState.Sent).ToList();
        var ranOut = open.Count(r => r.ValidUntil < today);
        return new(
            rows.Count, signed.Count, rows.Count(r => r.State is RevisionState.Declined or RevisionState.Withdrawn) + ranOut, open.Count - ranOut, ranOut, new(signed.Values.Sum(s => s.TotalCents)),
            [.. rows.Select(r => signed.TryGetValue(r.RevisionId, out var s) ? s.AtUtc : r.State == RevisionState.Declined ? r.ClosedAtUtc : null).Zip(rows, (at, r) => at is { } answered ? (int?)Days(r.FirstSent, answered) : null).OfType<int>()],
            Tiers(revisions, signed), AddOns(revisions, signed), Reasons(rows, ranOut));
    }

    private static Task<List<Row>> RowsAsync(OfficeDb db, DateTime start, DateTime end) => (
        from r in db.QuoteRevisions.AsNoTracking()
        where r.SentAtUtc != null && r.AgreedPrice.Cents == 0 && !db.QuoteRevisions.Any(later => later.QuoteId == r.QuoteId && later.Id > r.Id && later.SentAtUtc != null)
        let first = db.QuoteRevisions.Where(f => f.QuoteId == r.QuoteId && f.SentAtUtc != null).Min(f => f.SentAtUtc!.Value)
        where first >= start && first < end
        orderby r.Id
        select new Row(r.QuoteId, r.Id, r.State, r.LostBecause, r.ValidUntil, first, r.ClosedAtUtc)).ToListAsync();

    private static int Days(DateTime from, DateTime to) => (int)Math.Max(0, Math.Floor((to - from).TotalDays));

    private static List<SoldRow> Tiers(List<QuoteRevision> revisions, Dictionary<int, Signed> signed) =>
        [.. from r in revisions
            from t in r.Tiers
            let taken = signed.TryGetValue(r.Id, out var s) && s.TierId == t.Id
            group (t, taken, Dollars: taken ? PriceQuote.Of(r, t, []).Net : Money.Zero) by t.Position into g
            orderby g.Key
            select new SoldRow(g.GroupBy(x => x.t.Name).MaxBy(n => n.Count())!.Key, g.Count(), g.Count(x => x.taken), g.Select(x => x.Dollars).Sum())];

    /// <summary>An addition counts as offered where its quote was signed with a choice that did not hold it, or is not signed. It counts
    /// once a quote: choices on different designs may each have their own.</summary>
    private static List<SoldRow> AddOns(List<QuoteRevision> revisions, Dictionary<int, Signed> signed) =>
        [.. from r in revisions
            from a in r.AddOns
            let s = signed.GetValueOrDefault(r.Id)
            where s is null || PriceQuote.IsOpenTo(r.Tiers.First(t => t.Id == s.TierId), a)
            let taken = s is not null && s.AddOnIds.Split(',').Contains(a.Id.ToString(CultureInfo.InvariantCulture), StringComparer.Ordinal)
            group (r.Id, a, taken) by a.PriceItemId is { } item ? item.ToString(CultureInfo.InvariantCulture) : a.Words into g
            let row = new SoldRow(g.Last().a.Words.Split(", ")[0], g.Select(x => x.Id).Distinct().Count(), g.Where(x => x.taken).Select(x => x.Id).Distinct().Count(), g.Where(x => x.taken).Select(x => x.a.Price).Sum())
            orderby row.Taken descending, row.Offered descending, row.Name
            select row];

    private static List<(LostBecause, int)> Reasons(List<Row> rows, int ranOut)
    {
        var reasons = rows.Where(r => r.State is RevisionState.Declined or RevisionState.Withdrawn).GroupBy(r => r.Because).ToDictionary(g => g.Key, g => g.Count());
        if (ranOut > 0) reasons[LostBecause.NoAnswer] = reasons.GetValueOrDefault(LostBecause.NoAnswer) + ranOut;
        return [.. reasons.OrderByDescending(r => r.Value).ThenBy(r => r.Key).Select(r => (r.Key, r.Value))];
    }
}
