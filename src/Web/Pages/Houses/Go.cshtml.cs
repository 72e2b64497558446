using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Houses;

/// <summary>A house's own address leads to the sheet where it stands.</summary>
public sealed class GoModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public async Task<IActionResult> OnGetAsync(int houseId)
    {
        var zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        var today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, zone);
        var stage = await StagedHouse.In(db, today).Where(h => h.Id == houseId).Select(h => (int?)h.StageNumber).FirstOrDefaultAsync();
        if (stage is null) return NotFound();
        var seesPrices = User.IsInRole("Owner") || User.IsInRole("Office");
        return LocalRedirect($"/houses/{houseId}/{((HouseStage)stage).Sheet(seesPrices)}");
    }
}
