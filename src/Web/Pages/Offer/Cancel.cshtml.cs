using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Offer;

/// <summary>Taking the signature back by the private link. Looking changes nothing; no once-only mark, for the reason the
/// offer has none, and cancelling is once-only by itself.</summary>
[EnableRateLimiting(OfferSetup.Throttled)]
public sealed class CancelModel(OfficeDb db, TimeProvider clock, MailSettings mail, Actor actor) : PageModel
{
    public sealed class Form
    {
        public string? TypedName { get; set; }
        public bool Cancels { get; set; }
    }

    [FromRoute]
    public string Token { get; set; } = "";

    [BindProperty]
    public Form Input { get; set; } = new();

    public FoundSale Sale { get; private set; } = new(CancelState.Unknown);
    public OfferState Offer { get; private set; }
    public (string Name, string Phone) Company { get; private set; } = ("", "");
    public string Notice { get; private set; } = "";

    public Task<IActionResult> OnGetAsync() => ShowAsync();

    public async Task<IActionResult> OnPostAsync()
    {
        actor.Name = "the house owner, by link";
        var from = Letterhead.Of(await db.Company.AsNoTracking().SingleAsync(), mail);
        var typed = new CancelTyped(Input.TypedName ?? "", Input.Cancels, $"{HttpContext.Connection.RemoteIpAddress}", $"{Request.Headers.UserAgent}");
        var outcome = await CancelByLink.RunAsync(db, Token, typed, from, clock);
        if (outcome.State == CancelState.Cancelled) return LocalRedirect(OfferWords.Address(Token, "/cancel"));
        foreach (var r in outcome.Refusals) ModelState.AddModelError($"{nameof(Input)}.{r.Field}", r.Words);
        return await ShowAsync();
    }

    private async Task<IActionResult> ShowAsync()
    {
        Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
        var now = clock.GetUtcNow().UtcDateTime;
        Sale = await FindCancelling.ByLinkAsync(db, Token, now);
        if (Sale.State is CancelState.Unknown or CancelState.NotSigned)
        {
            Offer = (await OfferLink.FindAsync(db, Token, now)).State;
            if (Offer == OfferState.Live) return LocalRedirect(OfferWords.Address(Token));
            Response.StatusCode = OfferWords.StatusOf(Offer);
            return Page();
        }

        var company = await db.Company.Select(c => new { c.Name, c.Phone }).SingleAsync();
        Company = (company.Name, company.Phone);
        if (Sale.State == CancelState.Open)
            Notice = await db.Acceptances.Where(a => a.Id == Sale.AcceptanceId).Join(db.QuoteRevisions, a => a.QuoteRevisionId, r => r.Id, (a, r) => r.CancellationNotice).SingleAsync();
        return Page();
    }
}
