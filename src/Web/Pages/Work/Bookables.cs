using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>Who and what can be booked: the people who are with the company, then its vehicles. One statement.</summary>
public static class Bookables
{
    public static async Task<IReadOnlyList<Bookable>> ReadAsync(OfficeDb db)
    {
        var people = db.Users.Where(u => !u.Left).Select(u => new { Vehicle = false, u.Id, Name = u.FullName });
        var rows = await people.Concat(db.Vehicles.Where(v => !v.Retired).Select(v => new { Vehicle = true, v.Id, v.Name })).ToListAsync();
        return [.. rows.OrderBy(r => r.Vehicle).ThenBy(r => r.Name, StringComparer.OrdinalIgnoreCase).Select(r => new Bookable($"{(r.Vehicle ? 'v' : 'p')}{r.Id}", r.Name))];
    }
}
