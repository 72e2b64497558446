using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Web.Pages.Papers;

namespace MitigationOffice.Web.Pages.Plan;

/// <summary>The bytes of the picture under a house's plan. They never change under their address, so a browser may keep them.</summary>
public sealed class PictureModel(OfficeDb db) : PageModel
{
    public async Task<IActionResult> OnGetAsync(int houseId, int documentId)
    {
        var picture = await db.Documents.AsNoTracking().Where(d => d.Id == documentId && d.HouseId == houseId && db.Backdrops.Any(b => b.HouseId == houseId && b.DocumentId == documentId))
            .For(User).Select(d => new { d.Bytes, d.ContentType }).FirstOrDefaultAsync();
        if (picture?.ContentType is not ("image/jpeg" or "image/png")) return NotFound();
        Response.Headers.CacheControl = "private, max-age=31536000, immutable";
        return File(picture.Bytes, picture.ContentType);
    }
}
