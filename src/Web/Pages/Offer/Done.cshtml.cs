using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Offer;

/// <summary>After the signature, in the browser that signed.</summary>
[EnableRateLimiting(OfferSetup.Throttled)]
public sealed class DoneModel(OfficeDb db, TimeProvider clock, JustSigned justSigned) : PageModel
{
    public sealed record Kept(string Name, string Tier, Money Total, Money Deposit, DateOnly CancelBy, bool Cancellable);

    [FromRoute]
    public string Token { get; set; } = "";
    public OfferState State { get; private set; }
    public Kept? Mine { get; private set; }

    public async Task<IActionResult> OnGetAsync()
    {
        Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
        var found = await OfferLink.FindAsync(db, Token, clock.GetUtcNow().UtcDateTime);
        State = found.State;
        if (State == OfferState.Live) return LocalRedirect(OfferWords.Address(Token));
        Response.StatusCode = OfferWords.StatusOf(State);
        if (justSigned.Of(HttpContext) is { } id)
            Mine = await db.Acceptances.Where(a => a.Id == id && a.QuoteRevisionId == found.RevisionId).Select(a => new Kept(
                a.TypedName, db.Set<QuoteTier>().Where(t => t.Id == a.QuoteTierId).Select(t => t.Name).First(), new Money(a.Total.Cents), new Money(a.Deposit.Cents), a.CancelBy,
                db.QuoteRevisions.Any(r => r.Id == a.QuoteRevisionId && r.NoCancelNoticeBecause == ""))).SingleOrDefaultAsync();
        return Page();
    }
}
