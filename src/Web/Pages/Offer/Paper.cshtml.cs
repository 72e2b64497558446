using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Offer;

/// <summary>The paper exactly as it is stored: the quote while the link is live, the signed copy for the browser that signed.</summary>
[EnableRateLimiting(OfferSetup.Throttled)]
public sealed class PaperModel(OfficeDb db, TimeProvider clock, JustSigned justSigned) : PageModel
{
    public async Task<IActionResult> OnGetAsync(string token)
    {
        Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
        Response.Headers.CacheControl = "no-store";
        var found = await OfferLink.FindAsync(db, token, clock.GetUtcNow().UtcDateTime);
        if (await StoredAsync(found) is not { } stored) return LocalRedirect(OfferWords.Address(token));
        return File(stored.Bytes, stored.ContentType, stored.FileName);
    }

    private async Task<StoredDocument?> StoredAsync(FoundOffer found)
    {
        int? id = found.State switch
        {
            OfferState.Live => await db.QuoteRevisions.Where(r => r.Id == found.RevisionId).Select(r => r.PdfDocumentId).SingleAsync(),
            OfferState.Accepted when justSigned.Of(HttpContext) is { } mine =>
                await db.Acceptances.Where(a => a.Id == mine && a.QuoteRevisionId == found.RevisionId).Select(a => (int?)a.SignedDocumentId).SingleOrDefaultAsync(),
            _ => null,
        };
        return id is null ? null : await db.Documents.AsNoTracking().SingleAsync(d => d.Id == id);
    }
}
