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

/// <summary>One rule set in words, its editions, and its text as a file.</summary>
[Authorize(SignInSetup.OwnerOnly)]
public sealed class RuleSetModel(OfficeDb db) : PageModel
{
    public SitingRuleSet Set { get; private set; } = null!;

    /// <summary>Newest first; empty for a set of the program.</summary>
    public IReadOnlyList<(int Edition, DateTime AtUtc, string By, string Sha256)> Editions { get; private set; } = [];
    public int? Edition { get; private set; }
    public string Sha256 { get; private set; } = "";

    public async Task<IActionResult> OnGetAsync(string key, int? edition)
    {
        if (await TextAsync(db, key, edition) is not { } text) return NotFound();
        Set = SitingRuleSets.Read(text);
        Sha256 = RuleSetText.HashOf(Set);
        Editions = [.. (await db.RuleSets.AsNoTracking().Where(r => r.Key == key).OrderByDescending(r => r.Edition).Select(r => new { r.Edition, r.AddedAtUtc, r.AddedBy, r.Sha256 }).ToListAsync())
            .Select(r => (r.Edition, r.AddedAtUtc, r.AddedBy, r.Sha256))];
        Edition = Editions.Count == 0 || edition == 0 ? null : edition ?? Editions[0].Edition;
        return Page();
    }

    public async Task<IActionResult> OnGetFileAsync(string key, int? edition) =>
        await TextAsync(db, key, edition) is { } text ? File(Encoding.UTF8.GetBytes(text), "application/json", $"{key}.json") : NotFound();

    /// <summary>The asked edition of the office's own set, or its newest; edition 0, or where the office has none, the program's.</summary>
    internal static async Task<string?> TextAsync(OfficeDb db, string key, int? edition)
    {
        var own = edition == 0 ? null : await db.RuleSets.AsNoTracking().Where(r => r.Key == key && (edition == null || r.Edition == edition)).OrderByDescending(r => r.Edition).Select(r => r.Text).FirstOrDefaultAsync();
        if (own is not null) return own;
        return edition is null or 0 && SitingRuleSets.All.FirstOrDefault(s => s.Id == key) is { } set ? RuleSetText.Write(set) : null;
    }
}
