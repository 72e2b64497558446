using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>Seven days as a plain list, to print and take along.</summary>
public sealed class WeekModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public sealed record Visit(int HouseId, int JobId, string Number, string House, string? For, string? Phone, TimeOnly? ArriveAt, string Crew, JobState State);

    public DateOnly Monday { get; private set; }
    public DateOnly Today { get; private set; }
    public ILookup<DateOnly, Visit> Visits { get; private set; } = Array.Empty<Visit>().ToLookup(_ => default(DateOnly));

    public async Task<IActionResult> OnGetAsync(string? from)
    {
        var (asked, problem) = TypedNumbers.ReadDay(from, "day");
        if (problem is not null) return NotFound();
        Today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync()));
        var day = asked ?? Today;
        Monday = day.AddDays(-(((int)day.DayOfWeek + 6) % 7));
        var end = Monday.AddDays(7);
        var visits = await (from j in db.Jobs.AsNoTracking()
                            where j.Day >= Monday && j.Day < end && j.State != JobState.CalledOff
                            join h in db.Houses on j.HouseId equals h.Id
                            let owner = h.Owners.Where(o => o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => o.Customer!).FirstOrDefault()
                            select new { j.Day, Visit = new Visit(h.Id, j.Id, j.Number, h.Street + ", " + h.City, owner == null ? null : owner.Name, owner == null ? null : owner.Phone, j.ArriveAt, j.Crew, j.State) }).ToListAsync();
        Visits = visits.OrderBy(v => v.Visit.ArriveAt ?? TimeOnly.MaxValue).ThenBy(v => v.Visit.Number, StringComparer.Ordinal).ToLookup(v => v.Day!.Value, v => v.Visit);
        return Page();
    }

    public static string Address(DateOnly day) => $"/work/week?from={TypedNumbers.Plain(day)}";
}
