using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using Microsoft.Net.Http.Headers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;

namespace MitigationOffice.Web.Pages.Papers;

/// <summary>Hands out one paper's bytes: to be saved, or shown where the bytes themselves prove a kind a browser may show.</summary>
public sealed class PaperModel(OfficeDb db) : PageModel
{
    public async Task<IActionResult> OnGetAsync(int houseId, int paperId, int show = 0)
    {
        var paper = await db.Documents.AsNoTracking().Where(d => d.Id == paperId && d.HouseId == houseId).For(User)
            .Select(d => new { d.Bytes, d.ContentType, d.FileName }).FirstOrDefaultAsync();
        if (paper is null) return NotFound();
        var shown = show == 1 ? ReceivedFile.Picture(paper.Bytes) : null;
        var disposition = new ContentDispositionHeaderValue(shown is null ? "attachment" : "inline");
        disposition.SetHttpFileName(ReceivedFile.SafeName(paper.FileName, Path.GetExtension(paper.FileName)));
        Response.Headers.ContentDisposition = disposition.ToString();
        Response.Headers.CacheControl = "private, no-store";
        return File(paper.Bytes, shown ?? TypeToSave(paper.ContentType));
    }

    /// <summary>Nothing a browser would run, whatever was stored.</summary>
    private static string TypeToSave(string stored) =>
        stored.Split(';')[0].Trim() is "application/pdf" or "image/png" or "image/jpeg" or "text/plain" or "text/csv" or "text/calendar" ? stored : "application/octet-stream";
}
