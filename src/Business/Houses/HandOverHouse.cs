using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Houses;

/// <summary>The house was sold: its owner's time ends and another's begins on the same day. The system stays.</summary>
public static class HandOverHouse
{
    /// <summary>Refuses in words; null when it was done. <paramref name="ownerId"/> and <paramref name="version"/> are the
    /// owner the form was opened with, so that two people do not hand over the same house twice.</summary>
    public static Task<string?> RunAsync(OfficeDb db, int houseId, int ownerId, int version, Customer to, DateOnly day) => db.WriteAsync(async () =>
    {
        var now = await db.HouseOwners.Where(o => o.HouseId == houseId && o.ToDay == null).OrderByDescending(o => o.FromDay).ThenByDescending(o => o.Id).FirstOrDefaultAsync();
        if ((now?.Id ?? 0) != ownerId || (now?.Version ?? 0) != version) return "Someone else changed the owner of this house since you opened it. Look at the inquiry sheet again.";
        if (now is not null && now.CustomerId == to.Id) return "This is the owner already.";
        if (now is not null && day < now.FromDay) return $"The owner of now came on {HouseTime.Show(now.FromDay)}; the house cannot be handed over before that day.";
        if (now is not null) now.ToDay = day;
        to.MakeSearchable();
        db.HouseOwners.Add(new HouseOwner { HouseId = houseId, Customer = to, FromDay = day });
        await db.SaveChangesAsync();
        return null;
    });
}
