using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Service;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Drawings;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.SystemPage;

/// <summary>A system's own page, reached by the code on its label. Reading and advice change nothing; asking for service makes one call.
/// No once-only mark on its form: that would keep the secret of the address in a table, and the call is once-only by its own key.</summary>
[EnableRateLimiting(OfferSetup.Throttled)]
public sealed class IndexModel(OfficeDb db, TimeProvider clock, UnitChoice units, Actor actor, MailSettings mail) : PageModel
{
    [FromRoute(Name = "systemKey")]
    public string Key { get; set; } = "";

    [BindProperty(SupportsGet = true)]
    public LookForm Seen { get; set; } = new();

    [BindProperty]
    public AskForm Input { get; set; } = new();

    public SystemLinkState State { get; private set; }
    public SystemView? Shown { get; private set; }
    public Look? Look { get; private set; }
    public Advise.Advice? Advice { get; private set; }

    /// <summary>The call that was just asked for.</summary>
    public string? Asked { get; private set; }
    public bool Asking { get; private set; }
    public GaugeDrawing Gauge => new(Shown?.StartUpGaugePa, Look?.GaugePa);

    public async Task<IActionResult> OnGetAsync(string? step, string? asked)
    {
        if (!await LoadAsync()) return Page();
        Asking = step == "ask";
        Input.Sending = PrivateLink.Make().Hash;
        if (asked is { Length: > 0 and < 20 })
            Asked = await db.ServiceCalls.Where(c => c.Number == asked && c.InstalledSystemId == Shown!.SystemId).Select(c => c.Number).FirstOrDefaultAsync();
        if (!Seen.IsEmpty) await AdviseAsync();
        else ModelState.Clear();
        return Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (!await LoadAsync()) return Page();
        actor.Name = "the house owner, by the system's own page";
        Asking = true;
        var read = new FormReading(ModelState, nameof(Input), units.System);
        var (name, phone) = (read.Text(Input.Name, nameof(Input.Name), "name", needed: true, most: 200), read.Text(Input.Phone, nameof(Input.Phone), "phone number", most: 60));
        var (email, words) = (read.Text(Input.Email, nameof(Input.Email), "e-mail address", most: 200), read.Text(Input.Words, nameof(Input.Words), "words", most: 2000));
        if (phone.Length == 0 && email.Length == 0) read.Refuse(nameof(Input.Phone), "Write a phone number or an e-mail address, so that we can reach you.");
        if (email.Length > 0 && !MailAddress.IsUsable(email)) read.Refuse(nameof(Input.Email), $"{email} is not an address that can be written to; look at it again.");
        if (Seen.IsEmpty && words.Length == 0) read.Refuse(nameof(Input.Words), "Say in a few words what is wrong.");
        if (!Seen.IsEmpty) await AdviseAsync();
        if (!ModelState.IsValid) return Page();
        var asked = new OpenCall.Asked(Shown!.HouseId, Shown.SystemId, Look?.Sign ?? Sign.Other, words, name, phone, email)
        {
            GaugePa = Look?.GaugePa, GaugeAsEntered = Seen.Gauge?.Trim() ?? "", OutdoorC = Look?.OutdoorC, ByOwnPage = true,
        };
        var key = Input.Sending is { Length: 64 } sent && sent.All(char.IsAsciiHexDigit) ? sent : PrivateLink.Make().Hash;
        var call = await OpenCall.RunAsync(db, asked, key, clock.GetUtcNow().UtcDateTime, mail);
        return LocalRedirect($"{Address}?asked={call.Number}");
    }

    /// <summary>Built by hand: the pages' own link maker writes addresses in lower case, and a key is not.</summary>
    public string Address => $"/system/{Uri.EscapeDataString(Key)}";

    /// <summary>What was seen, as it travels in the address.</summary>
    public string Carried => $"Seen.Sign={Uri.EscapeDataString(Seen.Sign ?? "")}&Seen.Gauge={Uri.EscapeDataString(Seen.Gauge ?? "")}&Seen.Outdoor={Uri.EscapeDataString(Seen.Outdoor ?? "")}";

    private async Task AdviseAsync()
    {
        var today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, Shown!.Zone);
        Look = Seen.Read(ModelState, await GatherLook.OfAsync(db, Shown.SystemId, today), units.System);
        Advice = Look is null ? null : Advise.On(Look);
    }

    private async Task<bool> LoadAsync()
    {
        Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
        (State, var systemId) = await OwnPage.FindAsync(db, Key);
        if (State == SystemLinkState.Live) Shown = await SystemView.LoadAsync(db, systemId);
        else Response.StatusCode = State == SystemLinkState.Revoked ? StatusCodes.Status410Gone : StatusCodes.Status404NotFound;
        return Shown is not null;
    }
}
