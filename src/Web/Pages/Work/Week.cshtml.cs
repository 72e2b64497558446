using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>Seven days as a plain list, to print and take along.</summary>
public sealed class WeekModel(OfficeDb db, TimeProvider clock) : PageModel
{
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
        Visits = ReadVisits.InOrder(await ReadVisits.BetweenAsync(db, Monday, Monday.AddDays(7))).ToLookup(v => v.Day);
        return Page();
    }

    public static string Address(DateOnly day) => $"/work/week?from={TypedNumbers.Plain(day)}";
}
