using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Account;

/// <summary>A person's own calendar links.</summary>
public sealed class CalendarModel(OfficeDb db, TimeProvider clock, IAuthorizationService may, MailSettings mail) : PageModel
{
    public IReadOnlyList<CalendarLink> Links { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public bool MaySeeAll { get; private set; }
    public string? NewLink { get; private set; }
    private int Me => int.Parse(User.FindFirstValue(ClaimTypes.NameIdentifier)!, CultureInfo.InvariantCulture);
    private DateTime Now => clock.GetUtcNow().UtcDateTime;

    public async Task OnGetAsync()
    {
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        MaySeeAll = (await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded;
        Links = await db.CalendarLinks.AsNoTracking().Where(l => l.PersonId == Me && l.RevokedAtUtc == null).OrderBy(l => l.Id).ToListAsync();
        NewLink = TempData["calendar"] as string;
    }

    public async Task<IActionResult> OnPostMakeAsync(bool everything)
    {
        if (everything && !(await may.AuthorizeAsync(User, SignInSetup.OfficeWork)).Succeeded) return Forbid();
        var (token, hash) = PrivateLink.Make();
        db.CalendarLinks.Add(new CalendarLink { PersonId = Me, TokenHash = hash, Everything = everything, CreatedAtUtc = Now });
        await db.SaveChangesAsync();
        TempData["calendar"] = new Uri(mail.PublicAddress, $"calendar/{token}.ics").AbsoluteUri;
        return RedirectToPage();
    }

    public async Task<IActionResult> OnPostEndAsync(int linkId)
    {
        if (await db.CalendarLinks.FirstOrDefaultAsync(l => l.Id == linkId && l.PersonId == Me) is not { } link) return NotFound();
        link.RevokedAtUtc ??= Now;
        await db.SaveChangesAsync();
        return RedirectToPage();
    }
}
