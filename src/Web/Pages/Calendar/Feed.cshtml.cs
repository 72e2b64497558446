using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Service;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Calendar;

/// <summary>The calendar that a phone asks for by its private link. Asking changes nothing.</summary>
[EnableRateLimiting(OfferSetup.Throttled)]
public sealed class FeedModel(OfficeDb db, TimeProvider clock, MailSettings mail) : PageModel
{
    public async Task<IActionResult> OnGetAsync(string feed)
    {
        Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
        Response.Headers.CacheControl = "private, no-store";
        var (state, link) = await CalendarFeed.FindAsync(db, feed);
        if (state == FeedState.Revoked || (link is not null && !await db.Users.AnyAsync(u => u.Id == link.PersonId && !u.Left)))
            return Said(StatusCodes.Status410Gone, "This calendar link has been ended. Sign in to the office and make a new one under Work, My calendar.");
        if (link is null) return Said(StatusCodes.Status404NotFound, "This calendar link leads nowhere. Check that the whole address was copied.");
        var hidden = await PrivateHouses.ReadAsync(db);
        var text = await CalendarFeed.WriteAsync(db, link, mail.PublicAddress, clock.GetUtcNow().UtcDateTime, house => hidden?.Ids.Contains(house) == true);
        var tag = $"\"{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..32]}\"";
        Response.Headers.ETag = tag;
        if (Request.Headers.IfNoneMatch.Contains(tag)) return StatusCode(StatusCodes.Status304NotModified);
        return Content(text, "text/calendar; charset=utf-8", Encoding.UTF8);
    }

    private ContentResult Said(int status, string words) => new() { StatusCode = status, ContentType = "text/plain; charset=utf-8", Content = words };
}
