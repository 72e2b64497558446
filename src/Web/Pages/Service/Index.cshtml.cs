using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Service;
using MitigationOffice.Web.Setup.Lists;

namespace MitigationOffice.Web.Pages.Service;

/// <summary>All service calls, and how often systems call people back, by what was found.</summary>
public sealed class IndexModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public const int Most = 200;

    public sealed record Row(int Id, string Number, int HouseId, string House, CallState State, DateTime AskedAtUtc, Sign Sign, Cause? Found, Cover Cover, DateOnly? SettledOn, bool ByOwnPage, DateOnly? Visit);

    [BindProperty(SupportsGet = true)]
    public string Show { get; set; } = "open";

    [BindProperty(SupportsGet = true)]
    public string? Find { get; set; }

    [BindProperty(SupportsGet = true)]
    public string Sort { get; set; } = "-asked";

    public IReadOnlyList<Row> Rows { get; private set; } = [];
    public CallBackRates Rates { get; private set; } = new(0, 0, []);
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;

    public async Task OnGetAsync()
    {
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        Rows = await RowsAsync(Most + 1);
        Rates = await CallBackRates.ReadAsync(db, clock.GetUtcNow().UtcDateTime);
    }

    public async Task<IActionResult> OnGetCsvAsync()
    {
        var zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        return CsvAnswer.Of("service-calls.csv", ["Call", "House", "Asked", "Sign", "State", "Found", "Settled on", "Who pays"],
            (await RowsAsync(int.MaxValue)).Select(r => (IReadOnlyList<string>)[r.Number, r.House, TypedNumbers.Plain(HouseTime.DayOf(r.AskedAtUtc, zone)), CauseWords.Of(r.Sign), Setup.Forms.Words.Of(r.State),
                r.Found is { } found ? CauseWords.Of(found) : "", TypedNumbers.Plain(r.SettledOn), Setup.Forms.Words.Of(r.Cover)]));
    }

    private async Task<List<Row>> RowsAsync(int most)
    {
        var calls = from c in db.ServiceCalls.AsNoTracking()
                    join h in db.Houses on c.HouseId equals h.Id
                    select new { c, h };
        if (Show == "open") calls = calls.Where(x => x.c.State == CallState.Open);
        else if (Enum.TryParse<CallState>(Show, out var state)) calls = calls.Where(x => x.c.State == state);
        if (SearchText.Of(Find) is { Length: > 0 } find && find.ToUpperInvariant() is var number) calls = calls.Where(x => x.h.Search.Contains(find) || x.c.Number.Contains(number));
        calls = Sort switch
        {
            "asked" => calls.OrderBy(x => x.c.AskedAtUtc),
            "house" => calls.OrderBy(x => x.h.Search),
            "-house" => calls.OrderByDescending(x => x.h.Search),
            _ => calls.OrderByDescending(x => x.c.AskedAtUtc),
        };
        return await calls.Take(most).Select(x => new Row(x.c.Id, x.c.Number, x.h.Id, x.h.Street + ", " + x.h.City, x.c.State, x.c.AskedAtUtc, x.c.Sign, x.c.Found, x.c.Cover, x.c.SettledOn, x.c.ByOwnPage,
            db.WorkDays.Where(d => d.ServiceCallId == x.c.Id && d.CancelledAtUtc == null).Min(d => (DateOnly?)d.Day))).ToListAsync();
    }
}
