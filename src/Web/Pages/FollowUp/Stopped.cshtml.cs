using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>Addresses that are not written to, and why.</summary>
public sealed class StoppedModel(OfficeDb db) : PageModel
{
    public sealed record Row(int Id, string Address, MailClass? Class, DateTime AtUtc, string Why);

    public IReadOnlyList<Row> Rows { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;

    [BindProperty(SupportsGet = true)]
    public string? Find { get; set; }

    [TempData]
    public string? Told { get; set; }

    public async Task OnGetAsync()
    {
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        var find = (Find ?? "").Trim().ToLowerInvariant();
        Rows = await db.Suppressions.AsNoTracking().Where(s => s.Address.Contains(find)).OrderByDescending(s => s.Id).Take(200)
            .Select(s => new Row(s.Id, s.Address, s.Class, s.AtUtc, s.Why)).ToListAsync();
    }

    /// <summary>Only with a reason: who asked for no more must have asked for more. It stays in the audit trail.</summary>
    public async Task<IActionResult> OnPostAsync(int id, string? note)
    {
        if (await db.Suppressions.SingleOrDefaultAsync(s => s.Id == id) is not { } stopped) return RedirectToPage();
        if ((note ?? "").Trim() is not { Length: > 0 } reason)
        {
            ModelState.AddModelError($"note-{id}", "Write why this address may be written to again.");
            await OnGetAsync();
            return Page();
        }

        stopped.Why = $"Lifted by {User.FindFirstValue(ClaimTypes.GivenName)}: {reason[..Math.Min(reason.Length, 300)]} (before: {stopped.Why})";
        await db.WriteAsync(async () =>
        {
            await db.SaveChangesAsync();
            db.Suppressions.Remove(stopped);
            await db.SaveChangesAsync();
        });
        Told = $"{stopped.Address} is written to again.";
        return RedirectToPage();
    }
}
