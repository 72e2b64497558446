using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Staff;

namespace MitigationOffice.Web.Pages.Shop;

/// <summary>Every version of the price book, the newest first.</summary>
public sealed class HistoryModel(OfficeDb db) : PageModel
{
    public const int OnAPage = 25;

    [FromQuery(Name = "page")]
    public int? Asked { get; set; }

    public int PageNumber => Math.Clamp(Asked ?? 1, 1, 100_000);
    public bool ShowsCost => User.IsInRole(nameof(StaffRole.Owner));
    public IReadOnlyList<PriceBookVersion> Versions { get; private set; } = [];
    public bool More { get; private set; }
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;

    public async Task OnGetAsync()
    {
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        var found = await db.PriceBookVersions.AsNoTracking().Include(v => v.Changes).OrderByDescending(v => v.Number).Skip((PageNumber - 1) * OnAPage).Take(OnAPage + 1).ToListAsync();
        (Versions, More) = ([.. found.Take(OnAPage)], found.Count > OnAPage);
    }

    public string Say(PriceChange c) => string.Join("; ", new[] { Of(c.Act), c.Words }.Where(w => w.Length > 0));

    private static string Of(PriceAct act) => act switch
    {
        PriceAct.Added => "new",
        PriceAct.Retired => "no longer used",
        PriceAct.BroughtBack => "used again",
        _ => "changed",
    };
}
