using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Web.Pages.StateReports;

/// <summary>A profile field by field, for the owner of the company. A change is a new edition.</summary>
[RequestFormLimits(ValueCountLimit = ProfileForm.MostValues)]
public sealed class ChangeProfileModel(OfficeDb db, TimeProvider clock) : PageModel
{
    [BindProperty]
    public ProfileForm Input { get; set; } = new();

    /// <summary>The edition that is changed.</summary>
    [BindProperty]
    public int Edition { get; set; }

    [FromRoute(Name = "code")]
    public string Code { get; set; } = "";
    public int Frozen { get; private set; }

    public async Task<IActionResult> OnGetAsync()
    {
        if (await ProfileBook.FindAsync(db, Code) is not { } found) return NotFound();
        (Input, Edition) = (ProfileForm.Of(found.Profile), found.Edition);
        return await PageAsync();
    }

    public Task<IActionResult> OnPostColumnsAsync(string? arrange)
    {
        Input.Arrange(arrange ?? "", ModelState, ViewData);
        return PageAsync();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (await ProfileBook.FindAsync(db, Code) is null) return NotFound();
        Input.Code = Code;
        var profile = Input.Read(ModelState, nameof(Input));
        if (profile is not null && await ProfileBook.KeepAsync(db, profile, Edition, User.FindFirstValue(ClaimTypes.GivenName) ?? "?", clock.GetUtcNow().UtcDateTime) is { } why) ModelState.AddModelError("", why);
        if (profile is not null && ModelState.IsValid) return RedirectToPage("/StateReports/Profile", new { code = Code });
        db.ChangeTracker.Clear();
        return await PageAsync();
    }

    private async Task<IActionResult> PageAsync()
    {
        Frozen = await db.ReportRuns.CountAsync(r => r.ProfileCode == Code);
        return Page();
    }
}
