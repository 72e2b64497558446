using System.Text;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>The fans' curves against the system's, as an image of its own address.</summary>
public sealed class ChartModel(OfficeDb db, UnitChoice units) : PageModel
{
    public async Task<IActionResult> OnGetAsync(int houseId, int designId)
    {
        var design = await db.FirstToReadAsync(db.Designs.Where(d => d.Id == designId && d.HouseId == houseId));
        if (design is null || (await ComputeDesign.ReadAsync(db, design)).Report is not { } report) return NotFound();
        Response.Headers.CacheControl = "no-store";
        return File(Encoding.UTF8.GetBytes(FanChart.Svg(report, units.System)), "image/svg+xml");
    }
}
