using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Houses;

/// <summary>The houses that answer what was asked for, in the order asked for.</summary>
public static class HouseList
{
    public const int PageSize = 50;

    public static readonly IReadOnlyList<(string Value, string Words)> Orders =
        [("", "newest inquiry first"), ("address", "street"), ("city", "city, then street"), ("owner", "owner's name"), ("stage", "how far it has come")];

    public static IQueryable<StagedHouse> Asked(OfficeDb db, DateOnly today, string? find, HouseStage? stage, string? sort)
    {
        var houses = StagedHouse.In(db, today);
        foreach (var (word, digits) in SearchWords.Of(find))
        {
            // Tag numbers are kept as stamped; upper case on both sides finds them however they are typed.
            var tag = word.ToUpperInvariant();
#pragma warning disable CA1304, CA1311, CA1862 // Runs in the database, which has one invariant ToUpper.
            houses = houses.Where(h => h.Search.Contains(word)
                || db.HouseOwners.Any(o => o.HouseId == h.Id && (o.Customer!.Search.Contains(word) || o.Customer.Search.Contains(digits)))
                || db.Systems.Any(s => s.HouseId == h.Id && s.TagNumber.ToUpper().Contains(tag)));
#pragma warning restore CA1304, CA1311, CA1862
        }

        if (stage is { } wanted) houses = houses.Where(h => h.StageNumber == (int)wanted);
        return sort switch
        {
            "address" => houses.OrderBy(h => h.Search).ThenBy(h => h.Id),
            "city" => houses.OrderBy(h => h.City).ThenBy(h => h.Street).ThenBy(h => h.Id),
            "owner" => houses.OrderBy(h => h.Owner).ThenBy(h => h.Id),
            "stage" => houses.OrderBy(h => h.StageNumber).ThenBy(h => h.Id),
            _ => houses.OrderByDescending(h => h.AskedAtUtc).ThenByDescending(h => h.Id),
        };
    }

    /// <summary>The one house that bears this tag number exactly.</summary>
    public static async Task<int?> TaggedAsync(OfficeDb db, string? find)
    {
        if (string.IsNullOrWhiteSpace(find) || find.Trim() is not { Length: <= 80 } typed) return null;
        var tag = typed.ToUpperInvariant();
#pragma warning disable CA1304, CA1311, CA1862 // Runs in the database, which has one invariant ToUpper.
        var found = await db.Systems.Where(s => s.TagNumber.ToUpper() == tag).Select(s => s.HouseId).Distinct().Take(2).ToListAsync();
#pragma warning restore CA1304, CA1311, CA1862
        return found.Count == 1 ? found[0] : null;
    }
}
