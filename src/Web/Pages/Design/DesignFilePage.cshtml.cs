using System.Text;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Files;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>All that goes into a design's computation, as the file the verb <c>design</c> reads.</summary>
public sealed class DesignFilePageModel(OfficeDb db) : PageModel
{
    public async Task<IActionResult> OnGetAsync(int houseId, int designId)
    {
        var design = await db.FirstToReadAsync(db.Designs.Where(d => d.Id == designId && d.HouseId == houseId));
        if (design is null || await GatherDesign.FileAsync(db, design) is not { } file) return NotFound();
        if (User.IsInRole("Installer")) file = file with { Fans = [.. file.Fans.Select(f => f with { PriceDollars = 0 })] };
        return File(Encoding.UTF8.GetBytes(DesignFileText.Write(file)), "application/json", $"design-{designId}-{design.Revision}.json");
    }
}
