using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Today;

/// <summary>What the office knows of itself, in one statement: where its day begins, what it has, which licences end.</summary>
public sealed record OfficeFacts(string TimeZone, bool HasName, bool HasFans, bool HasPrices, bool HasHouses, bool HasSystems, DateOnly? LastReported, IReadOnlyList<OfficeFacts.Ending> Licences)
{
    public sealed record Ending(string Holder, string Number, DateOnly ExpiresOn);

    public static async Task<OfficeFacts> ReadAsync(OfficeDb db, DateTime nowUtc)
    {
        // A day more than the zone could need; the list is cut to the office's own day afterwards.
        var last = DateOnly.FromDateTime(nowUtc).AddDays(ReadToday.LicenceAheadDays + 1);
        var facts = await db.Company.AsNoTracking().AsSingleQuery().Select(c => new
        {
            c.TimeZone, c.Name,
            Fans = db.Fans.Any(), Prices = db.PriceItems.Any(), Houses = db.Houses.Any(), Systems = db.Systems.Any(),
            Reported = db.ReportRuns.Max(r => (DateOnly?)r.Month),
            Ends = db.Licences.Where(l => l.ExpiresOn <= last).Select(l => new { l.Holder, l.Number, l.ExpiresOn }).ToList(),
        }).SingleAsync();
        return new(facts.TimeZone, facts.Name.Length > 0, facts.Fans, facts.Prices, facts.Houses, facts.Systems, facts.Reported, [.. facts.Ends.Select(l => new Ending(l.Holder, l.Number, l.ExpiresOn!.Value))]);
    }
}
