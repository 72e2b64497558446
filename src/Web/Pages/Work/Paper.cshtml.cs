using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>Hands out a label, a packet or a result letter of one house; nothing that holds prices.</summary>
public sealed class PaperModel(OfficeDb db) : PageModel
{
    public async Task<IActionResult> OnGetAsync(int houseId, int id)
    {
        var paper = await db.Documents.AsNoTracking()
            .Where(d => d.Id == id && d.HouseId == houseId && (d.Kind == PaperKind.Label || d.Kind == PaperKind.Packet || d.Kind == PaperKind.ResultLetter))
            .Select(d => new { d.Bytes, d.ContentType, d.FileName }).FirstOrDefaultAsync();
        if (paper is null) return NotFound();
        Response.Headers.CacheControl = "private, no-store";
        return File(paper.Bytes, paper.ContentType, paper.FileName);
    }
}
