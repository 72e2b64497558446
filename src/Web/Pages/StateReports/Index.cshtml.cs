using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;

namespace MitigationOffice.Web.Pages.StateReports;

public sealed class IndexModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public sealed record Row(DateOnly Month, int Activated, int? Reported, DateTime? FrozenAtUtc, DateOnly? SentOn, bool Over);

    public IReadOnlyList<Row> Rows { get; private set; } = [];
    public int Open { get; private set; }
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;

    /// <summary>The last 24 months: what was activated in each and what was reported.</summary>
    public async Task OnGetAsync()
    {
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        var now = ReportMonth.Of(clock.GetUtcNow().UtcDateTime, Zone);
        var runs = await db.ReportRuns.AsNoTracking().Where(r => r.Layout == ReportLayout.General)
            .Select(r => new { r.Month, r.FrozenAtUtc, r.SentOn, Count = r.Entries.Count }).ToDictionaryAsync(r => r.Month);
        var since = ReportMonth.BeginUtc(now.AddMonths(-23), Zone);
        var activated = (await db.Systems.Where(s => s.ActivatedAtUtc >= since).Select(s => s.ActivatedAtUtc).ToListAsync()).CountBy(at => ReportMonth.Of(at, Zone)).ToDictionary();
        Rows = [.. Enumerable.Range(0, 24).Select(i => now.AddMonths(-i)).Select(m => new Row(
            m, activated.GetValueOrDefault(m), runs.GetValueOrDefault(m)?.Count, runs.GetValueOrDefault(m)?.FrozenAtUtc, runs.GetValueOrDefault(m)?.SentOn, m < now))];
        Open = await db.Systems.CountAsync(s => !db.ReportEntries.Any(e => e.InstalledSystemId == s.Id && e.Layout == ReportLayout.General));
    }
}
