using System.Security.Claims;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Web.Pages.StateReports;

/// <summary>Adds a profile, field by field or by its text, begun with a copy of a known one.</summary>
[RequestSizeLimit(2_000_000)]
[RequestFormLimits(ValueCountLimit = ProfileForm.MostValues)]
public sealed class NewProfileModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public IReadOnlyList<ProfileInBook> Profiles { get; private set; } = [];
    public IReadOnlyList<string> Problems { get; private set; } = [];

    [BindProperty]
    public ProfileForm Input { get; set; } = new();

    [BindProperty]
    public string? Text { get; set; }

    [FromQuery]
    public string? Copy { get; set; }

    public async Task OnGetAsync()
    {
        Profiles = await ProfileBook.ReadAsync(db);
        Input = Profiles.FirstOrDefault(p => p.Profile.Code == Copy) is { Profile: var copied }
            ? ProfileForm.Of(copied with { Code = $"{copied.Code}-2", Name = $"{copied.Name}, changed" })
            : ProfileForm.Of(new ReportProfile { Code = "", Name = "", NotKnown = ["Confirm with your state program."], Fields = [ReportFields.Of("tag"), ReportFields.Of("street"), ReportFields.Of("city"), ReportFields.Of("zip")] });
    }

    public async Task<IActionResult> OnPostColumnsAsync(string? arrange)
    {
        Input.Arrange(arrange ?? "", ModelState, ViewData);
        return await ShowAsync();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        var profile = Input.Read(ModelState, nameof(Input));
        if (profile is not null && await KeepAsync(profile) is { } why) ModelState.AddModelError($"{nameof(Input)}.{nameof(Input.Code)}", why);
        return profile is not null && ModelState.IsValid ? LocalRedirect($"/state-reports/profiles/{profile.Code}") : await ShowAsync();
    }

    public async Task<IActionResult> OnPostTextAsync(IFormFile? upload)
    {
        if (upload is { Length: > 0 and <= ReadProfile.MostCharacters })
        {
            using var reader = new StreamReader(upload.OpenReadStream());
            Text = await reader.ReadToEndAsync();
            ModelState.Remove(nameof(Text));
        }

        var (profile, problems) = ReadProfile.Of(Text ?? "");
        Problems = problems;
        if (profile is not null && await KeepAsync(profile) is { } why) Problems = [why];
        if (profile is not null && Problems.Count == 0) return LocalRedirect($"/state-reports/profiles/{profile.Code}");
        var text = Text;
        await OnGetAsync();
        Text = text;
        return await ShowAsync();
    }

    private Task<string?> KeepAsync(ReportProfile profile) => ProfileBook.KeepAsync(db, profile, null, User.FindFirstValue(ClaimTypes.GivenName) ?? "?", clock.GetUtcNow().UtcDateTime);

    private async Task<IActionResult> ShowAsync()
    {
        db.ChangeTracker.Clear();
        Profiles = await ProfileBook.ReadAsync(db);
        return Page();
    }
}
