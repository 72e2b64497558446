using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>Something a house owner told on their own page, as the office reads it.</summary>
public sealed record OwnerWordRow(int Id, int HouseId, string House, string For, OwnerWordKind Kind, DateTime ToldAtUtc, string Said)
{
    /// <summary>It can be taken over into the records by one button.</summary>
    public bool MayTake { get; private init; }

    public string What => Kind switch
    {
        OwnerWordKind.BookRetest => "wants a retest",
        OwnerWordKind.TestDone => "has tested",
        OwnerWordKind.NewAddress => "has a new address",
        _ => "has sold the house",
    };

    /// <summary>What waits, of one house or all.</summary>
    public static async Task<List<OwnerWordRow>> ReadAsync(OfficeDb db, int? houseId)
    {
        var rows = await db.OwnerWords.AsNoTracking().Where(w => w.SettledAtUtc == null && (houseId == null || w.HouseId == houseId)).OrderBy(w => w.Id).Take(100).Select(w => new
        {
            Word = w,
            House = db.Houses.Where(h => h.Id == w.HouseId).Select(h => h.Street + ", " + h.City).FirstOrDefault() ?? "",
            For = db.Customers.Where(c => c.Id == w.CustomerId).Select(c => c.Name).FirstOrDefault() ?? "",
        }).ToListAsync();
        return [.. rows.Select(r => new OwnerWordRow(r.Word.Id, r.Word.HouseId, r.House, r.For, r.Word.Kind, r.Word.ToldAtUtc, Say(r.Word))
        {
            MayTake = r.Word is { Kind: OwnerWordKind.NewAddress } or { Kind: OwnerWordKind.TestDone, OnDay: not null, PCiL: not null },
        })];
    }

    private static string Say(OwnerWord w)
    {
        string[] parts =
        [
            w.PCiL is { } level ? $"{TypedNumbers.Plain(level)} pCi/L" : "",
            w.OnDay is { } day ? HouseTime.Show(day) : "",
            w.Name, w.Email, w.Phone, w.PostalAddress, w.Words,
        ];
        return string.Join(" · ", parts.Where(p => p.Length > 0));
    }
}
