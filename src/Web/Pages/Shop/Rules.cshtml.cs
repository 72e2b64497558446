using System.Text;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Engineering.Siting;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Shop;

/// <summary>The siting rules the office can judge by, and the way to bring further ones: as data, without a new program.</summary>
[Authorize(SignInSetup.OwnerOnly)]
[RequestSizeLimit(5_000_000)]
public sealed class RulesModel(OfficeDb db, TimeProvider clock, Actor actor) : PageModel
{
    [BindProperty]
    public string? Text { get; set; }
    public string? Refusal { get; private set; }
    public IReadOnlyList<RuleSetEdition> Own { get; private set; } = [];

    public static IReadOnlyList<SitingRuleSet> OfTheProgram => SitingRuleSets.All;

    public async Task OnGetAsync(string? from)
    {
        Own = await OfferRuleSets.NewestAsync(db);
        if (from is not null) Text = await RuleSetModel.TextAsync(db, from, null);
    }

    public async Task<IActionResult> OnPostAsync(IFormFile? upload)
    {
        if (upload is { Length: > 0 }) Text = await ReadAsync(upload);
        ModelState.Remove(nameof(Text));
        var (set, problem) = RuleSetText.Read(Text);
        Refusal = problem;
        Own = await OfferRuleSets.NewestAsync(db);
        if (set is null) return Page();
        var kept = await KeepRuleSet.RunAsync(db, set, clock.GetUtcNow().UtcDateTime, actor.Name);
        return LocalRedirect($"/shop/rules/{kept.Key}");
    }

    /// <summary>No longer offers a set of the office, or offers it again.</summary>
    public async Task<IActionResult> OnPostAsideAsync(string key, bool aside)
    {
        var newest = await db.RuleSets.AsTracking().Where(r => r.Key == key).OrderByDescending(r => r.Edition).FirstOrDefaultAsync();
        if (newest is null) return NotFound();
        newest.SetAside = aside;
        await db.SaveChangesAsync();
        return LocalRedirect("/shop/rules");
    }

    private static async Task<string> ReadAsync(IFormFile upload)
    {
        using var reader = new StreamReader(upload.OpenReadStream(), Encoding.UTF8, detectEncodingFromByteOrderMarks: true);
        return await reader.ReadToEndAsync();
    }
}
