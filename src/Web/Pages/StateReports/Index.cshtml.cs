using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Web.Pages.StateReports;

public sealed class IndexModel(OfficeDb db, TimeProvider clock) : PageModel
{
    private const int MostPeriods = 24;

    public sealed record Row(ReportPeriod Period, ReportRun? Run, ReportSending? Sent, DateOnly? DueOn);

    public sealed record Duty(ReportProfile Profile, DateOnly? Since, IReadOnlyList<Row> Rows);

    public IReadOnlyList<Duty> Duties { get; private set; } = [];
    public IReadOnlyList<DueReport> Due { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public DateOnly Today { get; private set; }

    public async Task OnGetAsync()
    {
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        Today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, Zone);
        var facts = await DueReports.Facts(db).AsNoTracking().AsSingleQuery().ToListAsync();
        Due = DueReports.Of(facts, Today);
        var runs = (await db.ReportRuns.AsNoTracking().OrderByDescending(r => r.Number).ToListAsync()).ToLookup(r => r.ProfileCode);
        var sent = await db.ReportSendings.AsNoTracking().ToDictionaryAsync(s => s.ReportRunId);
        Duties = [.. facts.Select(f => (Facts: f, Profile: DueReports.ProfileOf(f))).Where(d => d.Profile is not null)
            .Select(d => new Duty(d.Profile!, d.Facts.Since, [.. Ahead(d.Profile!, d.Facts).Concat(runs[d.Profile!.Code].Take(MostPeriods).Select(r => new Row(r.Days, r, sent.GetValueOrDefault(r.Id), r.DueOn)))]))];
    }

    /// <summary>Periods after the last one frozen, the running one included, newest first.</summary>
    private List<Row> Ahead(ReportProfile profile, DutyFacts facts)
    {
        var rows = new List<Row>();
        if (!profile.Reports || facts.First is not { } first) return rows;
        if (profile.Period == PeriodKind.Days)
        {
            if (first < Today) rows.Add(RowOf(profile, ReportPeriod.Days(first, Today.AddDays(-1)), facts.EarliestOpen));
            return rows;
        }

        for (var period = ReportPeriod.Of(profile.Period, first); period.First <= Today && rows.Count < MostPeriods; period = period.Next())
            rows.Insert(0, RowOf(profile, period, facts.EarliestOpen is { } open && period.Holds(open) ? open : null));
        return rows;
    }

    private static Row RowOf(ReportProfile profile, ReportPeriod period, DateOnly? earliest) => new(period, null, null, profile.Deadline.DueOn(period, earliest));
}
