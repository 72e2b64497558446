using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Offer;

/// <summary>A change order's paper exactly as it is stored: while the link is live, and the signed copy for the browser that signed.</summary>
[EnableRateLimiting(OfferSetup.Throttled)]
public sealed class ChangePaperModel(OfficeDb db, TimeProvider clock, JustSigned justSigned) : PageModel
{
    public async Task<IActionResult> OnGetAsync(string token)
    {
        Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
        Response.Headers.CacheControl = "no-store";
        var found = await FindChange.ByLinkAsync(db, token, clock.GetUtcNow().UtcDateTime);
        if (found.State == ChangeLinkState.Unknown) return NotFound();
        int? id = found.State switch
        {
            ChangeLinkState.Live => await db.ChangeOrders.Where(c => c.Id == found.ChangeOrderId).Select(c => c.PdfDocumentId).SingleAsync(),
            ChangeLinkState.Agreed when justSigned.OfChange(HttpContext) is { } mine =>
                await db.ChangeSignatures.Where(s => s.Id == mine && s.ChangeOrderId == found.ChangeOrderId).Select(s => (int?)s.SignedDocumentId).SingleOrDefaultAsync(),
            _ => null,
        };
        if (id is null) return LocalRedirect(ChangeWords.Address(token));
        var stored = await db.Documents.AsNoTracking().SingleAsync(d => d.Id == id);
        return File(stored.Bytes, stored.ContentType, stored.FileName);
    }
}
