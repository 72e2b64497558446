using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>The time zone in which a house stands: its own, else the company's.</summary>
public static class HouseZone
{
    public static async Task<TimeZoneInfo> OfAsync(OfficeDb db, int houseId)
    {
        var zones = await db.Houses.Where(h => h.Id == houseId).Select(h => new { h.TimeZone, Company = db.Company.OrderBy(c => c.Id).Select(c => c.TimeZone).FirstOrDefault() }).FirstOrDefaultAsync();
        return HouseTime.Zone(zones?.TimeZone, string.IsNullOrWhiteSpace(zones?.Company) ? "America/Chicago" : zones.Company);
    }
}
