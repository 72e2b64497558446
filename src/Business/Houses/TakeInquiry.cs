using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Houses;

/// <summary>A house on record that stands at the address just typed.</summary>
public sealed record AlikeHouse(int Id, string Address);

/// <summary>What came of an inquiry: the house that was made, or what on record looks the same.</summary>
public sealed record Taken(House? House, IReadOnlyList<AlikeCustomer> AlikeCustomers, IReadOnlyList<AlikeHouse> AlikeHouses);

/// <summary>What the person at the phone said about doubles: "all the same, make a new one".</summary>
public sealed record EvenSo(bool NewCustomer, bool NewHouse);

/// <summary>Writes down who asked and for which house, all at once or not at all.</summary>
public static class TakeInquiry
{
    /// <param name="db">The office's records.</param>
    /// <param name="house">A new house with its rows.</param>
    /// <param name="customer">A new customer, or one already on record.</param>
    /// <param name="from">The day from which the customer is taken to own the house.</param>
    /// <param name="evenSo">Whether a double is wanted knowingly.</param>
    public static Task<Taken> RunAsync(OfficeDb db, House house, Customer customer, DateOnly from, EvenSo evenSo)
    {
        house.MakeSearchable();
        return db.WriteAsync(async () =>
        {
            // Two inquiries about one house at the same moment see each other.
            await db.TakeTurnAsync(Turn.Inquiry);
            var customers = customer.Id != 0 || evenSo.NewCustomer ? [] : await FindCustomers.AlikeAsync(db, customer);
            var houses = evenSo.NewHouse ? [] : await AlikeHousesAsync(db, house);
            if (customers.Count + houses.Count > 0) return new Taken(null, customers, houses);
            customer.MakeSearchable();
            house.Owners.Add(new HouseOwner { Customer = customer, FromDay = from });
            db.Houses.Add(house);
            await db.SaveChangesAsync();
            return new Taken(house, [], []);
        });
    }

    public static async Task<IReadOnlyList<AlikeHouse>> AlikeHousesAsync(OfficeDb db, House house) =>
        [.. (await db.Houses.AsNoTracking().Where(h => h.Id != house.Id && h.AddressKey == house.AddressKey).OrderBy(h => h.Id).Take(10)
                .Select(h => new { h.Id, h.Street, h.Street2, h.City, h.State, h.Zip }).ToListAsync())
            .Select(h => new AlikeHouse(h.Id, $"{h.Street}{(h.Street2 == "" ? "" : ", " + h.Street2)}, {h.City}, {h.State} {h.Zip}"))];
}
