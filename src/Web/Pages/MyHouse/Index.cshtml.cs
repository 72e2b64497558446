using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.MyHouse;

/// <summary>The house owner's own page, by the link in a reminder. Looking changes nothing: mail scanners follow links. What is sent
/// waits for the office; only an opt-out holds at once. No once-only mark on its forms: that would keep the secret of the address
/// in a table, and the same words told twice are kept once.</summary>
[EnableRateLimiting(OfferSetup.Throttled)]
public sealed class IndexModel(OfficeDb db, TimeProvider clock, Actor actor) : PageModel
{
    [FromRoute]
    public string Token { get; set; } = "";

    [FromQuery(Name = "step")]
    public string? Step { get; set; }

    [FromQuery(Name = "told")]
    public string? Told { get; set; }

    [BindProperty]
    public OwnerWordForm Input { get; set; } = new();

    public MyHouseView? View { get; private set; }

    public string Shown => Step is "book" or "tested" or "address" or "sold" or "mail" ? Step : "home";

    private DateTime Now => clock.GetUtcNow().UtcDateTime;

    public Task<IActionResult> OnGetAsync() => ShowAsync();

    public async Task<IActionResult> OnPostAsync()
    {
        var owner = await FindAsync();
        if (!owner.IsLive || View is null) return await ShowAsync();
        if (Input.Read(Shown, View.Today, ModelState) is { } word)
        {
            (word.HouseId, word.CustomerId, word.ToldAtUtc) = (owner.HouseId, owner.CustomerId, Now);
            if (await HearOwner.TellAsync(db, word)) return LocalRedirect($"/my-house/{Uri.EscapeDataString(Token)}?told={Shown}");
            ModelState.AddModelError("", $"We have much from you that nobody has read yet. Please call us{(View.Phone.Length > 0 ? $": {View.Phone}" : "")}.");
        }

        return Page();
    }

    /// <summary>No more messages of a kind, from now on.</summary>
    public async Task<IActionResult> OnPostStopAsync(MailClass kind)
    {
        var owner = await FindAsync();
        if (!owner.IsLive || View is null || kind is not (MailClass.Upkeep or MailClass.Commercial)) return await ShowAsync();
        if (View.Email.Length > 0)
            await StopWriting.ForAsync(db, new UnsubscribeLink { TokenHash = "", Address = MailAddress.KeyOf(View.Email), Class = kind }, Now, HttpContext.RequestAborted);
        return LocalRedirect($"/my-house/{Uri.EscapeDataString(Token)}?told=mail");
    }

    private async Task<FoundOwner> FindAsync()
    {
        actor.Name = "the house owner, by link";
        Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
        var owner = await OwnerPage.FindAsync(db, Token, Now);
        if (owner.IsLive) View = await MyHouseView.LoadAsync(db, owner, Now);
        return owner;
    }

    private async Task<IActionResult> ShowAsync()
    {
        // Unknown, ended and handed over look the same: the page tells nothing.
        if (!(await FindAsync()).IsLive) Response.StatusCode = StatusCodes.Status404NotFound;
        return Page();
    }
}
