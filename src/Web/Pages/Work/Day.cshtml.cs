using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Pages.Houses;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>One day's sheet to print and take along: each visit with what must be known at the door, what to load, what to do.</summary>
public sealed class DayModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public sealed record JobSheet(string Notes, string Permit, string Dig, IReadOnlyList<string> Cautions, IReadOnlyList<(string What, decimal Quantity, string Unit)> Load, IReadOnlyList<(string Words, string Caution, bool Done)> Steps);

    public DateOnly On { get; private set; }
    public DateOnly Today { get; private set; }
    public IReadOnlyList<Visit> Visits { get; private set; } = [];
    public IReadOnlyDictionary<int, JobSheet> Jobs { get; private set; } = new Dictionary<int, JobSheet>();

    public async Task<IActionResult> OnGetAsync(string? on)
    {
        var (asked, problem) = TypedNumbers.ReadDay(on, "day");
        if (problem is not null) return NotFound();
        Today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync()));
        On = asked ?? Today;
        Visits = [.. ReadVisits.InOrder(await ReadVisits.BetweenAsync(db, On, On.AddDays(1)))];
        Jobs = await JobsAsync([.. Visits.Select(v => v.JobId).OfType<int>().Distinct()]);
        return Page();
    }

    private async Task<Dictionary<int, JobSheet>> JobsAsync(List<int> ids)
    {
        if (ids.Count == 0) return [];
        var jobs = await db.Jobs.AsNoTracking().Include(j => j.Steps).Where(j => ids.Contains(j.Id)).AsSingleQuery().ToListAsync();
        var houses = await db.Houses.AsNoTracking().Include(h => h.Areas).Include(h => h.Appliances).Where(h => jobs.Select(j => j.HouseId).Contains(h.Id)).AsSplitQuery().ToDictionaryAsync(h => h.Id);
        var kept = (await db.MaterialUses.AsNoTracking().Where(m => ids.Contains(m.JobId)).OrderBy(m => m.Position).ToListAsync()).ToLookup(m => m.JobId);
        var designs = await (from j in db.Jobs
                             where ids.Contains(j.Id)
                             join a in db.Acceptances on j.AcceptanceId equals a.Id
                             join d in db.Designs.Include(d => d.Pieces) on a.SuctionDesignId equals d.Id
                             select new { JobId = j.Id, Design = d, Fan = db.Fans.FirstOrDefault(f => f.Id == d.FanId) }).AsNoTracking().AsSingleQuery().ToListAsync();
        return jobs.ToDictionary(j => j.Id, j => new JobSheet(
            j.Notes, j.PermitNumber.Length == 0 ? "" : $"{j.PermitNumber}, until {HouseTime.Show(j.PermitUntil)}", j.DigTicket.Length == 0 ? "" : $"{j.DigTicket}, {HouseTime.Show(j.DigFrom)} to {HouseTime.Show(j.DigUntil)}",
            [.. HouseCaution.Of(houses[j.HouseId]).Select(c => $"{c.Title}: {c.Words} {c.Source}")],
            kept[j.Id].Any() ? [.. kept[j.Id].Where(m => m.Planned is > 0).Select(m => (m.What, m.Planned!.Value, m.Unit))]
                : designs.Find(d => d.JobId == j.Id) is { } drawn ? [.. MaterialList.Of(TakeOff.Of(drawn.Design.Pieces), drawn.Fan, null).Select(m => (m.What, m.Quantity, m.Unit))] : [],
            [.. j.Steps.OrderBy(s => s.Position).Select(s => ($"{s.Position} {s.Words}", s.Caution, s.DoneAtUtc is not null || s.NotNeededBecause.Length > 0))]));
    }
}
