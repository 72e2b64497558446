using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;

namespace MitigationOffice.Web.Pages.Today;

/// <summary>What the office knows of itself, in one statement: where its day begins, what it has.</summary>
public sealed record OfficeFacts(string TimeZone, bool HasName, bool HasFans, bool HasPrices, bool HasHouses, bool HasSystems, IReadOnlyList<DutyFacts> Duties)
{
    /// <remarks>Each Any has a condition: without one it is asked for by itself, a statement more.</remarks>
    public static Task<OfficeFacts> ReadAsync(OfficeDb db) => db.Company.AsNoTracking().Select(c => new OfficeFacts(
        c.TimeZone, c.Name != "", db.Fans.Any(f => !f.Retired), db.PriceItems.Any(p => !p.Retired), db.Houses.Any(h => h.Id > 0), db.Systems.Any(s => s.Id > 0), DueReports.Facts(db).ToList())).AsSingleQuery().SingleAsync();
}
