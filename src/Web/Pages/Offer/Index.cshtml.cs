using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents.Drawing;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Papers;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Pages.Quotes;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Offer;

/// <summary>The house owner's page, one thing at a time; the choices travel in the address. Looking changes nothing:
/// mail scanners follow links. No once-only mark on its forms: that would keep the secret of the address in a table,
/// and accepting is once-only by itself.</summary>
[EnableRateLimiting(OfferSetup.Throttled)]
public sealed class IndexModel(OfficeDb db, TimeProvider clock, MailSettings mail, JustSigned justSigned, Actor actor) : PageModel
{
    public sealed class Form
    {
        public string? TypedName { get; set; }
        public bool Consented { get; set; }
        public bool Intended { get; set; }
        public string? Because { get; set; }
        public string? Reason { get; set; }
    }

    [FromRoute]
    public string Token { get; set; } = "";

    [FromQuery(Name = "step")]
    public string? Step { get; set; }

    [FromQuery(Name = "tier")]
    public int? TierId { get; set; }

    [FromQuery(Name = "add")]
    public List<int> AddOnIds { get; set; } = [];

    [BindProperty]
    public Form Input { get; set; } = new();

    public OfferState State { get; private set; }
    public OfferView? Offer { get; private set; }

    /// <summary>The house with the chosen design in it.</summary>
    public HouseFacts? Drawing { get; private set; }

    /// <summary>Whether what was signed may be taken back.</summary>
    public FoundSale? Sale { get; private set; }
    public QuoteTier? Tier => Offer?.Tiers.FirstOrDefault(t => t.Id == TierId);
    public IReadOnlyList<QuoteAddOn> Open => Tier is { } tier ? [.. PriceQuote.OpenTo(tier, Offer!.AddOns)] : [];
    public IReadOnlyList<QuoteAddOn> Chosen => [.. Open.Where(a => AddOnIds.Contains(a.Id))];
    public QuoteTotals Totals => Offer!.Totals(Tier!, Chosen);

    /// <summary>The step that is shown: a later one needs a choice first.</summary>
    public string Shown => Step == "decline" ? "decline" : Tier is null ? "choose" : Step is "add" or "review" or "sign" || (Step == "drawing" && Drawing is not null) ? Step! : "choose";

    public async Task<IActionResult> OnGetAsync() => await ShowAsync();

    public async Task<IActionResult> OnPostAsync()
    {
        actor.Name = "the house owner, by link";
        var signature = new Signature(TierId ?? 0, AddOnIds, Input.TypedName ?? "", Input.Consented, Input.Intended, $"{HttpContext.Connection.RemoteIpAddress}", $"{Request.Headers.UserAgent}");
        var from = Letterhead.Of(await db.Company.AsNoTracking().SingleAsync(), mail);
        var outcome = await AcceptQuote.ByLinkAsync(db, Token, signature, from, clock);
        if (outcome.AcceptanceId > 0)
        {
            justSigned.Remember(HttpContext, outcome.AcceptanceId);
            return LocalRedirect(OfferWords.Address(Token, "/done"));
        }

        foreach (var (field, words) in outcome.Refusals ?? []) ModelState.AddModelError(field is "" or "Tier" or "AddOns" ? "" : $"Input.{field}", words);
        Step = "sign";
        return await ShowAsync();
    }

    public async Task<IActionResult> OnPostDeclineAsync()
    {
        actor.Name = "the house owner, by link";
        if (Input.Reason?.Length > 2000) ModelState.AddModelError("Input.Reason", "The reason is longer than 2000 characters; shorten it.");
        Step = "decline";
        if (!ModelState.IsValid) return await ShowAsync();
        await CloseQuote.DeclineAsync(db, Token, Input.Reason ?? "", clock, LostWords.Read(Input.Because));
        return LocalRedirect(OfferWords.Address(Token));
    }

    private async Task<IActionResult> ShowAsync()
    {
        Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
        var now = clock.GetUtcNow().UtcDateTime;
        var found = await OfferLink.FindAsync(db, Token, now);
        State = found.State;
        if (State == OfferState.Live) Offer = await OfferView.LoadAsync(db, found.RevisionId, now);
        else Response.StatusCode = OfferWords.StatusOf(State);
        if (Step == "drawing" && Tier is { } tier && Offer!.DesignOf(tier) is { } design) Drawing = await DrawQuoted.OfAsync(db, design);
        if (State == OfferState.Accepted) Sale = await FindCancelling.ByLinkAsync(db, Token, now);
        return Page();
    }
}
