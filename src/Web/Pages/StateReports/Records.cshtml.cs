using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;

namespace MitigationOffice.Web.Pages.StateReports;

/// <summary>How long the records of each system must be kept, those first whose time is over.</summary>
public sealed class RecordsModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public const int MostRows = 200;

    public DateOnly Today { get; private set; }
    public IReadOnlyList<KeptRecord> Over { get; private set; } = [];
    public IReadOnlyList<KeptRecord> Kept { get; private set; } = [];

    public Task OnGetAsync() => ReadAsync();

    public async Task<IActionResult> OnGetCsvAsync()
    {
        await ReadAsync();
        return File(Csv.WriteForPeople(["Tag", "State", "Closed on", "Keep until", "Time is over", "Rule"], Over.Concat(Kept).Select(r => (IReadOnlyList<string>)
            [r.Tag, r.State, TypedNumbers.Plain(r.ClosedOn), TypedNumbers.Plain(r.Until), r.Until < Today ? "yes" : "no", r.Rule])), "text/csv; charset=utf-8", "records-kept.csv");
    }

    private async Task ReadAsync()
    {
        var zone = await db.Company.Select(c => c.TimeZone).SingleAsync();
        Today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(zone));
        var all = await KeptRecords.ReadAsync(db, zone);
        (Over, Kept) = ([.. all.Where(r => r.Until < Today)], [.. all.Where(r => r.Until is null || r.Until >= Today)]);
    }
}
