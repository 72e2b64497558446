using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Web.Pages.StateReports;

/// <summary>Adds a profile by its text, begun with a copy of a known one.</summary>
[RequestSizeLimit(2_000_000)]
public sealed class NewProfileModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public IReadOnlyList<ProfileInBook> Profiles { get; private set; } = [];
    public IReadOnlyList<string> Problems { get; private set; } = [];

    [BindProperty]
    public string? Text { get; set; }

    public async Task OnGetAsync(string? copy)
    {
        Profiles = await ProfileBook.ReadAsync(db);
        if (Profiles.FirstOrDefault(p => p.Profile.Code == copy) is { } from) Text = WriteProfile.Text(from.Profile with { Code = $"{from.Profile.Code}-2", Name = $"{from.Profile.Name}, changed" });
    }

    public async Task<IActionResult> OnPostAsync(IFormFile? upload)
    {
        if (upload is { Length: > 0 and <= ReadProfile.MostCharacters })
        {
            using var reader = new StreamReader(upload.OpenReadStream());
            Text = await reader.ReadToEndAsync();
            ModelState.Remove(nameof(Text));
        }

        var (profile, problems) = ReadProfile.Of(Text ?? "");
        Problems = problems;
        if (profile is not null && await ProfileBook.KeepAsync(db, profile, null, User.FindFirstValue(ClaimTypes.GivenName) ?? "?", clock.GetUtcNow().UtcDateTime) is { } why) Problems = [why];
        if (profile is not null && Problems.Count == 0) return LocalRedirect($"/state-reports/profiles/{profile.Code}");
        db.ChangeTracker.Clear();
        Profiles = await ProfileBook.ReadAsync(db);
        return Page();
    }
}
