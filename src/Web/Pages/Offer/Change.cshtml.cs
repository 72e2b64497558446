using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Offer;

/// <summary>The customer's page of a change order: what changes, the price before and after, then the signature. Looking changes
/// nothing, and the forms carry no once-only mark: signing is once-only by itself.</summary>
[EnableRateLimiting(OfferSetup.Throttled)]
public sealed class ChangeModel(OfficeDb db, TimeProvider clock, MailSettings mail, JustSigned justSigned, Actor actor) : PageModel
{
    public sealed class Form
    {
        public string? TypedName { get; set; }
        public bool Consented { get; set; }
        public bool Intended { get; set; }
        public string? Reason { get; set; }
    }

    [FromRoute]
    public string Token { get; set; } = "";

    [FromQuery(Name = "step")]
    public string? Step { get; set; }

    [BindProperty]
    public Form Input { get; set; } = new();

    public FoundChange Found { get; private set; } = new(ChangeLinkState.Unknown);
    public ChangeView? Shown { get; private set; }

    /// <summary>The signature this browser made just now.</summary>
    public ChangeSignature? Mine { get; private set; }

    /// <summary>For the tablet's own people: where the change order stands in the office.</summary>
    public string? BackTo { get; private set; }

    public Task<IActionResult> OnGetAsync() => ShowAsync();

    public async Task<IActionResult> OnPostAsync()
    {
        actor.Name = "the house owner, by link";
        var typed = new ChangeTyped(Input.TypedName ?? "", Input.Consented, Input.Intended, $"{HttpContext.Connection.RemoteIpAddress}", $"{Request.Headers.UserAgent}");
        var from = Letterhead.Of(await db.Company.AsNoTracking().SingleAsync(), mail);
        var outcome = await SignChange.ByLinkAsync(db, Token, typed, from, clock);
        if (outcome.SignatureId > 0)
        {
            justSigned.RememberChange(HttpContext, outcome.SignatureId);
            return LocalRedirect(ChangeWords.Address(Token));
        }

        foreach (var r in outcome.Refusals) ModelState.AddModelError(r.Field.Length == 0 ? "" : $"{nameof(Input)}.{r.Field}", r.Words);
        Step = "sign";
        return await ShowAsync();
    }

    public async Task<IActionResult> OnPostDeclineAsync()
    {
        actor.Name = "the house owner, by link";
        Step = "decline";
        if (Input.Reason?.Length > 2000) ModelState.AddModelError("Input.Reason", "The reason is longer than 2000 characters; shorten it.");
        if (!ModelState.IsValid) return await ShowAsync();
        await CloseChange.DeclineAsync(db, Token, Input.Reason ?? "", clock);
        return LocalRedirect(ChangeWords.Address(Token));
    }

    private async Task<IActionResult> ShowAsync()
    {
        Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
        db.ChangeTracker.Clear();
        Found = await FindChange.ByLinkAsync(db, Token, clock.GetUtcNow().UtcDateTime);
        Response.StatusCode = ChangeWords.StatusOf(Found.State);
        if (Found.State == ChangeLinkState.Live)
            Shown = await ChangeView.LoadAsync(db, Found.ChangeOrderId);
        else if (Found.State == ChangeLinkState.Agreed && justSigned.OfChange(HttpContext) is { } id)
            Mine = await db.ChangeSignatures.AsNoTracking().SingleOrDefaultAsync(s => s.Id == id && s.ChangeOrderId == Found.ChangeOrderId);
        if (Found.HandedBy.Length > 0 && User.Identity?.IsAuthenticated == true)
            BackTo = $"/houses/{await db.ChangeOrders.Where(c => c.Id == Found.ChangeOrderId).Select(c => c.HouseId).SingleAsync()}/work/changes/{Found.ChangeOrderId}";
        return Page();
    }
}
