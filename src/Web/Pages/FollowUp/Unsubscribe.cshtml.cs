using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>RFC 8058: the link alone says who asks, so no cookie, no form token and no second question on the POST; looking changes nothing.</summary>
[IgnoreAntiforgeryToken]
[EnableRateLimiting(SignInSetup.Throttled)]
public sealed class UnsubscribeModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public MailClass Class { get; private set; }
    public string Masked { get; private set; } = "";
    public bool Done { get; private set; }

    public async Task<IActionResult> OnGetAsync(string token) => await FindAsync(token) is null ? NotFound() : Page();

    public async Task<IActionResult> OnPostAsync(string token)
    {
        if (await FindAsync(token) is not { } link) return NotFound();
        await StopWriting.ForAsync(db, link, clock.GetUtcNow().UtcDateTime);
        Done = true;
        return Page();
    }

    private async Task<UnsubscribeLink?> FindAsync(string token)
    {
        var link = await StopWriting.FindAsync(db, token);
        if (link is null) return null;
        Class = link.Class;
        Masked = link.Address[..1] + "…" + link.Address[link.Address.LastIndexOf('@')..];
        return link;
    }
}
