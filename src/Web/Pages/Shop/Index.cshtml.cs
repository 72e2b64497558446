using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Web.Pages.Shop;

public sealed class IndexModel(OfficeDb db) : PageModel
{
    public string CompanyName { get; private set; } = "";
    public int Prices { get; private set; }
    public int Fans { get; private set; }
    public int Instruments { get; private set; }
    public int Licences { get; private set; }
    public int People { get; private set; }
    public int Vehicles { get; private set; }
    public int RuleSets { get; private set; }

    public async Task OnGetAsync()
    {
        CompanyName = await db.Company.Select(c => c.Name).SingleAsync();
        Prices = await db.PriceItems.CountAsync(p => !p.Retired);
        Fans = await db.Fans.CountAsync(f => !f.Retired);
        Instruments = await db.Instruments.CountAsync(i => !i.Retired);
        Licences = await db.Licences.CountAsync();
        Vehicles = await db.Vehicles.CountAsync(v => !v.Retired);
        RuleSets = SitingRuleSets.All.Select(s => s.Id).Union(await db.RuleSets.Where(r => !r.SetAside).Select(r => r.Key).Distinct().ToListAsync()).Count();
        People = await db.Users.CountAsync(u => !u.Left);
    }
}
