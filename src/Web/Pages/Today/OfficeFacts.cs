using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Today;

/// <summary>What the office knows of itself, in one statement: where its day begins, what it has.</summary>
public sealed record OfficeFacts(string TimeZone, bool HasName, bool HasFans, bool HasPrices, bool HasHouses, bool HasSystems, DateOnly? LastReported)
{
    public static Task<OfficeFacts> ReadAsync(OfficeDb db) => db.Company.AsNoTracking().Select(c => new OfficeFacts(
        c.TimeZone, c.Name != "", db.Fans.Any(), db.PriceItems.Any(), db.Houses.Any(), db.Systems.Any(), db.ReportRuns.Max(r => (DateOnly?)r.Month))).SingleAsync();
}
