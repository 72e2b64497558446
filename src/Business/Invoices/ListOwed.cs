using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices;

/// <summary>One customer's account at one house that is not settled.</summary>
public sealed record OwedRow(int HouseId, int CustomerId, string House, string Customer, string Phone, Ageing Age);

/// <summary>A customer who cancelled in time: when the notice came, what is still to be given back, and by when.</summary>
public sealed record OwedBack(int HouseId, string Street, string Customer, DateOnly CameOn, DateOnly By, Money Amount);

/// <summary>Who owes, since when, and who has credit.</summary>
public static class ListOwed
{
    private sealed class Entry
    {
        public int HouseId { get; init; }
        public int CustomerId { get; init; }
        public DateOnly DueOn { get; init; }
        public DateOnly CameOn { get; init; }
        public long Cents { get; init; }
        public bool Back { get; init; }
    }

    private sealed class Charge
    {
        public int HouseId { get; init; }
        public int CustomerId { get; init; }
        public DateOnly DueOn { get; init; }
        public long Cents { get; init; }
        public long PaidCents { get; init; }
        public required string Street { get; init; }
        public required string City { get; init; }
        public required string Customer { get; init; }
        public required string Phone { get; init; }
        public required string HouseSearch { get; init; }
        public required string CustomerSearch { get; init; }

        /// <summary>The day a cancellation came; otherwise the due day.</summary>
        public DateOnly CameOn { get; init; }

        /// <summary>A cancelled sale; the day is the one by which money is owed back, the cents all that was charged.</summary>
        public bool Back { get; init; }
    }

    /// <summary>How long a cancellation of which nothing is owed back is told.</summary>
    public const int DaysToTell = 7;

    /// <summary>Accounts of which something is past due, the oldest first; and sales cancelled just now, or of which something is
    /// owed back. One statement.</summary>
    public static async Task<(List<OwedRow> PastDue, List<OwedBack> Back)> PressingAsync(OfficeDb db, DateOnly today)
    {
        var tell = today.AddDays(-DaysToTell);
        var pastDue = Charges(db).Where(c => c.DueOn < today
            && db.Invoices.Where(i => i.HouseId == c.HouseId && i.CustomerId == c.CustomerId && i.DueOn < today).Sum(i => i.Total.Cents) > c.PaidCents);
        var all = await pastDue.Concat(Cancelled(db).Where(c => c.PaidCents > c.Cents || c.CameOn >= tell)).ToListAsync();
        return (
            [.. Rows(all.Where(c => !c.Back), today).OrderBy(r => r.Age.Since).ThenBy(r => r.HouseId)],
            [.. all.Where(c => c.Back).OrderBy(c => c.DueOn).ThenBy(c => c.HouseId).DistinctBy(c => (c.HouseId, c.CustomerId)).Select(c => new OwedBack(c.HouseId, c.Street, c.Customer, c.CameOn, c.DueOn, new Money(Math.Max(0, c.PaidCents - c.Cents))))]);
    }

    /// <summary>All accounts that are not settled, found by words of the house or the customer. Two statements.</summary>
    public static async Task<List<OwedRow>> UnsettledAsync(OfficeDb db, string find, DateOnly today)
    {
        var charges = await Found(Charges(db), find)
            .Where(c => db.Invoices.Where(i => i.HouseId == c.HouseId && i.CustomerId == c.CustomerId).Sum(i => i.Total.Cents) != c.PaidCents).ToListAsync();
        var paidAhead = await Found(PaidWithoutInvoice(db), find).ToListAsync();
        return Rows([.. charges, .. paidAhead.DistinctBy(c => (c.HouseId, c.CustomerId)).Where(c => c.PaidCents != 0)], today);
    }

    private static IQueryable<Charge> Cancelled(OfficeDb db) => Named(db, db.CancelledSales.AsNoTracking().Select(s => new Entry
    {
        HouseId = s.HouseId, CustomerId = s.CustomerId, DueOn = s.OwedBackBy, CameOn = s.ReceivedOn, Back = true,
        Cents = db.Invoices.Where(i => i.HouseId == s.HouseId && i.CustomerId == s.CustomerId).Sum(i => i.Total.Cents),
    }));

    private static IQueryable<Charge> Charges(OfficeDb db) => Named(db, db.Invoices.AsNoTracking().Select(i => new Entry
    {
        HouseId = i.HouseId, CustomerId = i.CustomerId, DueOn = i.DueOn, CameOn = i.DueOn, Back = false, Cents = i.Total.Cents,
    }));

    private static IQueryable<Charge> PaidWithoutInvoice(OfficeDb db) => Named(db, db.Payments.AsNoTracking()
        .Where(p => !db.Invoices.Any(i => i.HouseId == p.HouseId && i.CustomerId == p.CustomerId))
        .Select(p => new Entry { HouseId = p.HouseId, CustomerId = p.CustomerId, DueOn = p.Day, CameOn = p.Day, Back = false, Cents = 0 }));

    /// <summary>With the names, and all that was paid on the account.</summary>
    private static IQueryable<Charge> Named(OfficeDb db, IQueryable<Entry> entries) =>
        from e in entries
        join h in db.Houses on e.HouseId equals h.Id
        join c in db.Customers on e.CustomerId equals c.Id
        select new Charge
        {
            HouseId = e.HouseId,
            CustomerId = e.CustomerId,
            DueOn = e.DueOn,
            CameOn = e.CameOn,
            Cents = e.Cents,
            PaidCents = db.Payments.Where(p => p.HouseId == e.HouseId && p.CustomerId == e.CustomerId).Sum(p => p.Amount.Cents),
            Street = h.Street,
            City = h.City,
            Customer = c.Name,
            Phone = c.Phone,
            HouseSearch = h.Search,
            CustomerSearch = c.Search,
            Back = e.Back,
        };

    private static IQueryable<Charge> Found(IQueryable<Charge> all, string find)
    {
        foreach (var (word, digits) in SearchWords.Of(find))
            all = all.Where(c => c.HouseSearch.Contains(word) || c.CustomerSearch.Contains(word) || c.CustomerSearch.Contains(digits));
        return all;
    }

    private static List<OwedRow> Rows(IEnumerable<Charge> charges, DateOnly today) =>
    [
        .. charges.GroupBy(c => (c.HouseId, c.CustomerId)).Select(g => new OwedRow(
            g.Key.HouseId, g.Key.CustomerId, $"{g.First().Street}, {g.First().City}", g.First().Customer, g.First().Phone,
            Ageing.Of(g.Select(c => (c.DueOn, new Money(c.Cents))), new Money(g.First().PaidCents), today))),
    ];
}
