using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Service;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Service;

/// <summary>A house's service: its calls, a new one, and the private links to its systems' own pages.</summary>
public sealed class HouseModel(OfficeDb db, UnitChoice units, TimeProvider clock, IAuthorizationService may, MailSettings mail, Actor actor) : PageModel
{
    public sealed record CallRow(int Id, string Number, CallState State, DateTime AskedAtUtc, Sign Sign, Cause? Found);

    public sealed record SystemRow(int Id, string Tag, double? StartPa, List<LinkRow> Links);

    public sealed record LinkRow(DateTime CreatedAtUtc, string MadeFor);

    [FromRoute]
    public int HouseId { get; set; }

    [BindProperty]
    public CallForm Input { get; set; } = new();

    public IReadOnlyList<CallRow> Calls { get; private set; } = [];
    public IReadOnlyList<SystemRow> Systems { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public bool MayRevoke { get; private set; }

    /// <summary>The link that was just made, shown once.</summary>
    public string? NewLink { get; private set; }

    public async Task<IActionResult> OnGetAsync()
    {
        if (!await LoadAsync()) return NotFound();
        NewLink = TempData["own-page"] as string;
        Input.SystemId = Systems.Count > 0 ? $"{Systems[0].Id}" : "";
        return Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (!await LoadAsync()) return NotFound();
        var asked = Input.Read(new FormReading(ModelState, nameof(Input), units.System), HouseId, [.. Systems.Select(s => s.Id)]);
        if (!ModelState.IsValid) return Page();
        var call = await OpenCall.RunAsync(db, asked, PrivateLink.Make().Hash, clock.GetUtcNow().UtcDateTime);
        return RedirectToPage("/Service/Call", new { HouseId, callId = call.Id });
    }

    /// <summary>Ends the links in force and makes one to hand out; the label is printed anew on sheet 5.</summary>
    public async Task<IActionResult> OnPostLinkAsync(int systemId, bool keep)
    {
        if (!(await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded) return Forbid();
        if (!await db.Systems.AnyAsync(s => s.Id == systemId && s.HouseId == HouseId)) return NotFound();
        var now = clock.GetUtcNow().UtcDateTime;
        if (!keep) await OwnPage.RevokeAsync(db, systemId, now, actor.Name);
        TempData["own-page"] = new Uri(mail.PublicAddress, OwnPage.PathOf(OwnPage.Add(db, systemId, "to hand out", now, actor.Name))).AbsoluteUri;
        await db.SaveChangesAsync();
        return RedirectToPage("/Service/House", null, new { HouseId }, "own-page");
    }

    public async Task<IActionResult> OnPostRevokeAsync(int systemId)
    {
        if (!(await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded) return Forbid();
        if (!await db.Systems.AnyAsync(s => s.Id == systemId && s.HouseId == HouseId)) return NotFound();
        await OwnPage.RevokeAsync(db, systemId, clock.GetUtcNow().UtcDateTime, actor.Name);
        await db.SaveChangesAsync();
        return RedirectToPage("/Service/House", null, new { HouseId }, "own-page");
    }

    private async Task<bool> LoadAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 5) is not { } head) return false;
        ViewData["House"] = head with { Beside = "Service" };
        Zone = await Work.HouseZone.OfAsync(db, HouseId);
        MayRevoke = (await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded;
        Calls = await db.ServiceCalls.AsNoTracking().Where(c => c.HouseId == HouseId).OrderByDescending(c => c.AskedAtUtc).ThenByDescending(c => c.Id).Select(c => new CallRow(c.Id, c.Number, c.State, c.AskedAtUtc, c.Sign, c.Found)).ToListAsync();
        Systems = await db.Systems.AsNoTracking().Where(s => s.HouseId == HouseId).OrderByDescending(s => s.Id).Select(s => new SystemRow(s.Id, s.TagNumber, s.StartUpGaugePa,
            db.SystemLinks.Where(l => l.InstalledSystemId == s.Id && l.RevokedAtUtc == null).OrderBy(l => l.Id).Select(l => new LinkRow(l.CreatedAtUtc, l.MadeFor)).ToList())).AsSingleQuery().ToListAsync();
        return true;
    }
}

/// <summary>A call as the office types it while the house owner is on the phone.</summary>
public sealed class CallForm
{
    public string? SystemId { get; set; }
    public string? Sign { get; set; }
    public string? Gauge { get; set; }
    public string? Outdoor { get; set; }
    public string? Name { get; set; }
    public string? Phone { get; set; }
    public string? Words { get; set; }

    public OpenCall.Asked Read(FormReading read, int houseId, IReadOnlyCollection<int> systems)
    {
        var (gauge, outdoor) = (read.Measure(Measures.GaugePressure, Gauge, nameof(Gauge)), read.Measure(Measures.Temperature, Outdoor, nameof(Outdoor)));
        var sign = Enum.TryParse<Sign>(Sign, out var said) && Enum.IsDefined(said) ? said : Business.Service.Sign.Other;
        var words = read.Text(Words, nameof(Words), "words", most: 4000);
        if (sign == Business.Service.Sign.JustReading && gauge is null && string.IsNullOrWhiteSpace(Gauge)) read.Refuse(nameof(Gauge), "Write what the gauge shows, or choose what is seen.");
        if (sign == Business.Service.Sign.Other && words.Length == 0) read.Refuse(nameof(Words), "Say in a few words what is wrong.");
        var system = int.TryParse(SystemId, System.Globalization.CultureInfo.InvariantCulture, out var id) && systems.Contains(id) ? id : (int?)null;
        return new(houseId, system, sign, words, read.Text(Name, nameof(Name), "name", most: 200), read.Text(Phone, nameof(Phone), "phone number", most: 60), "") { GaugePa = gauge, GaugeAsEntered = Gauge?.Trim() ?? "", OutdoorC = outdoor };
    }
}
