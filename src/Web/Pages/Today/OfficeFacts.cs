using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;

namespace MitigationOffice.Web.Pages.Today;

/// <summary>What the office knows of itself, in one statement: where its day begins, what it has, what it reports.</summary>
public sealed record OfficeFacts(string TimeZone, bool HasName, bool HasFans, bool HasPrices, bool HasHouses, bool HasSystems, IReadOnlyList<DutyFacts> Duties, int Heard)
{
    /// <remarks>Each Any has a condition: without one it is asked for by itself, a statement more.</remarks>
    public static async Task<OfficeFacts> ReadAsync(OfficeDb db)
    {
        var duties = DueReports.Facts(db);
        var rows = await (from c in db.Company.AsNoTracking()
                          from d in duties.DefaultIfEmpty()
                          select new
                          {
                              c.TimeZone, HasName = c.Name != "", HasFans = db.Fans.Any(f => !f.Retired), HasPrices = db.PriceItems.Any(p => !p.Retired),
                              HasHouses = db.Houses.Any(h => h.Id > 0), HasSystems = db.Systems.Any(s => s.Id > 0), Heard = db.OwnerWords.Count(w => w.SettledAtUtc == null), Duty = d,
                          }).AsSingleQuery().ToListAsync();
        var one = rows[0];
        return new(one.TimeZone, one.HasName, one.HasFans, one.HasPrices, one.HasHouses, one.HasSystems, [.. rows.Select(r => r.Duty).OfType<DutyFacts>().Where(d => d.Code is not null)], one.Heard);
    }
}
